"""What the races and the hands feel over the position of the cone: load, pressure, drag, spin and life at once."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.parts.scenario import Scenario
from conemodel.solve.curves.fatigue import life_of
from conemodel.solve.equilibrium.pair import PairSolution
from conemodel.solve.equilibrium.wheel_positions import solve_positions
from conemodel.solve.stages.terms import pair_of
from conemodel.solve.wheel.hub_drag import TWIRL_SPEED, HubDrag, hub_drag
from conemodel.tasks.bearing.ball_loads import Worst, band, with_conformity, worst_of
from conemodel.tasks.bearing.fatigue_life import LifeRatio, over_best
from conemodel.tasks.bearing.load_cases import SIDE_SHARE, Case, cases_of, life_loads, load_of
from conemodel.tasks.bearing.spin_down import spin_times_of
from conemodel.tasks.setting.sweep import SWEEP_FROM, SWEEP_TO, Flags, end_plays_over, holds

BAND_POINTS = 25
"""End plays at which other grooves are solved; how much they change a value hardly changes in between."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RacesSweep:
    """One hub, clamped, over the position of its cone; arrays have shape (n,).

    Attributes:
        cone_angle: how far the cone is turned out from finger contact [rad]; end_play: clamped [m].
        worst: under each load this wheel can have but none, with the band of the groove radius.
        drag: of the wheel turned in the stand at a turn a second, in parts [N·m].
        spin_time: from a hard spin by hand to rest [s].
        life: over the best of the hub.
        valid: the model holds under every load and in the stand; where not, only the end play means anything.
    """

    cone_angle: Array
    end_play: Array
    worst: Mapping[Case, Worst]
    drag: HubDrag
    spin_time: Array
    life: LifeRatio
    valid: Flags


def sweep_races(
    scenario: Scenario, *, cone_angle: Array | None = None, side_share: float = SIDE_SHARE
) -> RacesSweep:
    """Return the races under load for each back-off in `cone_angle` (n,) [rad]; 81 positions by default.

    Everything but the back-off is as in the scenario's setting; `side_share` as for `life_ratio`.

    Raises:
        NotConverged: no balance of forces was found.
    """
    angle = (
        np.linspace(SWEEP_FROM, SWEEP_TO, 81) if cone_angle is None else np.asarray(cone_angle, dtype=float)
    )
    pair = pair_of(scenario)
    ends = end_plays_over(scenario, angle)[1]
    solved = {case: _solve(pair, ends, load_of(scenario, case)) for case in cases_of(scenario)}
    own_weight, spin_time = spin_times_of(scenario, end_play=ends)
    side = life_loads(scenario)["side"]
    sideways = solved["side"] if side == load_of(scenario, "side") else _solve(pair, ends, side)
    lived = {case: sideways if case == "side" else solved[case] for case in life_loads(scenario)}
    return RacesSweep(
        cone_angle=angle,
        end_play=ends,
        worst={case: _with_band(scenario, pair, case, ends, solution) for case, solution in solved.items()},
        drag=hub_drag(scenario, pair, own_weight, speed=TWIRL_SPEED).mean(),
        spin_time=spin_time,
        life=over_best(
            scenario,
            end_play=ends,
            lives={case: life_of(pair, solution) for case, solution in lived.items()},
            side_share=side_share,
        ),
        valid=holds(pair, ends, own_weight, sideways, *solved.values()),
    )


def _solve(pair: Pair, ends: Array, load: tuple[float, ...]) -> PairSolution:
    """Return the pair at each end play (n,) [m] under one load."""
    return solve_positions(pair, end_play=ends, load=load)


def _with_band(scenario: Scenario, pair: Pair, case: Case, ends: Array, solution: PairSolution) -> Worst:
    """Return the worst over the sweep; the change by other grooves is solved at a few end plays."""
    value = worst_of(pair, solution)
    low, high = float(ends.min()), float(ends.max())
    few = np.linspace(low, high, BAND_POINTS) if high > low and ends.size > BAND_POINTS else ends
    load = load_of(scenario, case)
    here = worst_of(pair, _solve(pair, few, load))
    shifts = []
    for conformity in (scenario.assumed.conformity_low, scenario.assumed.conformity_high):
        other = with_conformity(pair, conformity)
        there = worst_of(other, _solve(other, few, load))
        shifts.append({name: _between(few, _ratio(there[name], here[name]), ends) for name in value})
    bands = {name: band(value[name], *(value[name] * shift[name] for shift in shifts)) for name in value}
    return Worst(end_play=ends, **bands)


def _ratio(there: Array, here: Array) -> Array:
    """Return one over the other, 1 where no ball carries anything."""
    loaded = (here > 0) & np.isfinite(here) & np.isfinite(there)
    return np.asarray(np.where(loaded, there, 1.0) / np.where(loaded, here, 1.0))


def _between(few: Array, ratio: Array, ends: Array) -> Array:
    """Return a ratio known at a `few` rising end plays at all of them."""
    from scipy.interpolate import PchipInterpolator  # half a second to load; a prediction does without

    return ratio if few is ends else np.asarray(PchipInterpolator(few, ratio)(ends))
