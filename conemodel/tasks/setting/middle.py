"""A hub whose cone stands where it should."""

from math import hypot

from conemodel.parts.known_scenario import KnownScenario, at_ends_of_assumed
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.setting.outlook import outlook_of, solve_with_variants


def set_in_middle(scenario: Scenario) -> Scenario:
    """Return a hub with its cone so far out that it rides in the middle of its good range, all being as assumed.

    Locking and clamping take off end play whatever the cone gave: the two move one for one along the axle.

    Raises:
        NotConverged: no balance of forces was found.
    """
    missing = outlook_of(scenario).window.target - setting_terms(scenario).judged_end_play
    setting, axle = scenario.setting, scenario.axle
    return scenario.with_setting(back_off=setting.back_off + float(missing) / axle.lead_per_radian)


def spread_of_assumed_sizes(hub: KnownScenario) -> float:
    """Return how far the sizes only assumed of a hub may move the turn to the middle of its good range [rad], from 0.

    Each goes to the end of its range that moves it most; they do not depend on each other, so that their squares add.

    Raises:
        NotConverged: no balance of forces was found.
    """
    ends = [each for each in at_ends_of_assumed(hub) if each]
    own, *others = solve_with_variants(hub, [end for each in ends for end in each])
    turns = iter([one.window.target - one.end_play for one in others])
    wanted = own.window.target - own.end_play
    moved = [max(abs(next(turns) - wanted) for _ in each) for each in ends]
    return hypot(*moved) / hub.axle.lead_per_radian
