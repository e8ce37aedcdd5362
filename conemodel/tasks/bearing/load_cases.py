"""The loads a wheel is looked at under, and the mix of them its life is counted over."""

from collections.abc import Mapping
from typing import Literal

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.riding import Brake, Drive
from conemodel.parts.scenario import Scenario
from conemodel.physics.wheel_loads import brake_load, chain_pull, drive_load, sprocket_radius
from conemodel.solve.curves.hub_tables import Load, road_load

Case = Literal["none", "straight", "side", "impact", "pedalling", "braking"]

CASES: Mapping[Case, str] = {
    "none": "preload alone",
    "straight": "straight-ahead load",
    "side": "straight-ahead load with the side load at the tyre",
    "impact": "stated impact",
    "pedalling": "straight-ahead load with the chain pulling",
    "braking": "straight-ahead load with the brake on",
}
"""Loads looked at, with their names in words."""

SIDE_SHARE = 0.2
"""Share of the turns with the side load on the tyre. Assumption."""

SIDE_OF_RADIAL = 0.15
"""Side load taken where a scenario names none, as a share of the radial load. Assumption."""

CHAIN_PITCH = 12.7e-3
"""Distance of two pins of a chain [m]. Common practice, no source."""


def cases_of(scenario: Scenario) -> tuple[Case, ...]:
    """Return the loads this wheel can have, with balls that carry something."""
    driven: tuple[Case, ...] = ("pedalling",) if scenario.drive.kind != "none" else ()
    braked: tuple[Case, ...] = ("braking",) if scenario.brake.kind != "none" else ()
    return ("straight", "side", "impact", *driven, *braked)


def load_of(scenario: Scenario, case: Case) -> Load:
    """Return the load of a case on the shell at mid-span (5,) [N, N·m]."""
    wheel = scenario.wheel
    straight = road_load(wheel, side=False)
    match case:
        case "none":
            return 0.0, 0.0, 0.0, 0.0, 0.0
        case "impact":
            return 0.0, wheel.impact_load, 0.0, 0.0, 0.0
        case "pedalling":
            return _with(straight, _of_chain(scenario.drive, scenario))
        case "braking":
            return _with(straight, _of_brake(scenario.brake, scenario))
        case _:
            return road_load(wheel, side=case == "side")


def life_loads(scenario: Scenario) -> dict[Case, Load]:
    """Return the loads a life is counted under; with a usual side load where the scenario names none."""
    wheel = scenario.wheel
    loaded = wheel if wheel.side_load else wheel.replace(side_load=SIDE_OF_RADIAL * wheel.radial_load)
    leaned = scenario.replace(wheel=loaded)
    return {case: load_of(leaned, case) for case in cases_of(scenario) if case != "impact"}


def shares_of(scenario: Scenario, *, side_share: float = SIDE_SHARE) -> dict[Case, float]:
    """Return the share of the turns under each of `life_loads`; what is left of them is straight riding.

    `side_share`: share of the turns with the side load on the tyre [-], 0 to 1.

    Raises:
        ValueError: a side share outside 0 to 1.
    """
    if not 0.0 <= side_share <= 1.0:
        raise ValueError(f"side_share must be 0 to 1, not {side_share}")
    cases, mix = life_loads(scenario), scenario.mix
    rest = 1.0 - side_share
    shares: dict[Case, float] = {"side": side_share}
    for case, wanted in (("pedalling", mix.pedalling), ("braking", mix.braking)):
        if case in cases:
            shares[case] = min(wanted, rest)
            rest -= shares[case]
    shares["straight"] = rest
    return {case: shares[case] for case in cases}


def _of_chain(drive: Drive, scenario: Scenario) -> Array:
    """Return what the chain, and the road that answers it, put on the shell (5,) [N, N·m]."""
    pull = chain_pull(
        pedal_force=drive.pedal_force,
        crank_length=drive.crank_length,
        chainring_radius=sprocket_radius(teeth=drive.chainring_teeth, chain_pitch=CHAIN_PITCH),
    )
    return drive_load(
        chain_pull=pull,
        chain_line=_place(scenario, drive.side, drive.offset),
        sprocket_radius=sprocket_radius(teeth=drive.sprocket_teeth, chain_pitch=CHAIN_PITCH),
        tyre_radius=scenario.wheel.rim_radius,
    )


def _of_brake(brake: Brake, scenario: Scenario) -> Array:
    """Return what the brake, and the road that answers it, put on the shell (5,) [N, N·m]."""
    on_rim = brake.kind == "rim"
    return brake_load(
        road_force=brake.road_force,
        tyre_radius=scenario.wheel.rim_radius,
        brake_radius=scenario.wheel.rim_radius if on_rim else brake.rotor_radius,
        brake_angle=brake.angle,
        brake_line=0.0 if on_rim else _place(scenario, brake.rotor_side, brake.rotor_offset),
    )


def _place(scenario: Scenario, side: str, offset: float) -> float:
    """Return where a plane `offset` outboard of one side's balls stands, from mid-span to the right [m]."""
    return (scenario.hub.row_spacing / 2 + offset) * (1 if side == "right" else -1)


def _with(load: Load, more: Array) -> Load:
    """Return two loads together."""
    x, y, z, about_y, about_z = np.add(load, more).tolist()
    return x, y, z, about_y, about_z
