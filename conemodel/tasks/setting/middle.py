"""A hub whose cone stands where it should."""

from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.setting.outlook import outlook_of


def set_in_middle(scenario: Scenario) -> Scenario:
    """Return a hub with its cone so far out that it rides in the middle of its good range, all being as assumed.

    Locking and clamping take off end play whatever the cone gave: the two move one for one along the axle.

    Raises:
        NotConverged: no balance of forces was found.
    """
    missing = outlook_of(scenario).window.target - setting_terms(scenario).judged_end_play
    setting, axle = scenario.setting, scenario.axle
    return scenario.with_setting(back_off=setting.back_off + float(missing) / axle.lead_per_radian)
