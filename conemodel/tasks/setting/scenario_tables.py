"""The tables of a scenario's hub: where it is felt and what the road loads it with are the scenario's own."""

from collections.abc import Iterable

from conemodel.parts.scenario import Scenario
from conemodel.solve.curves.hub_tables import HubTables, MountedHub, all_tables, road_load
from conemodel.solve.stages.terms import pair_of


def tables_for(scenario: Scenario) -> HubTables:
    """Return the tables of a scenario's hub; they do not depend on the setting.

    Raises:
        NotConverged: no balance of forces was found.
    """
    return all_tables((_mounted(scenario, axle_end=True),))[0]


def tables_with_variants(scenario: Scenario, variants: Iterable[Scenario]) -> list[HubTables]:
    """Return the tables of a hub, and without the axle end those of its variants; they are solved together.

    Raises:
        NotConverged: no balance of forces was found.
    """
    others = (_mounted(variant, axle_end=False) for variant in variants)
    return all_tables((_mounted(scenario, axle_end=True), *others))


def _mounted(scenario: Scenario, *, axle_end: bool) -> MountedHub:
    """Return what a scenario's tables depend on."""
    wheel = scenario.wheel
    arm = scenario.axle_end_arm if axle_end else None
    return MountedHub(pair_of(scenario), wheel.rim_radius, arm, road_load(wheel, side=False))
