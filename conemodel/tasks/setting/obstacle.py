"""Why no turn of the cone brings a hub right, wherever its cone stands."""

from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.terms import SettingTerms
from conemodel.tasks.headline import Answer
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.safety import proud_in_frame

LEAST_LOCK = 2.0
"""Torque at the locknut below which it is not locked at all [N·m]. Assumption: what fingers alone can do."""


def obstacle_of(scenario: Scenario, terms: SettingTerms[float], window: Window) -> Answer | None:
    """Return why no turn of the cone brings this hub right, or nothing."""
    if proud_in_frame(scenario, terms):
        return Answer(words="No turn yet", act="Put that right before setting the cone.")
    if window.width <= 0:
        return Answer(
            words="No setting is good all the way round",
            why="Where it is loose enough in one place it rocks in another.",
            act="Look at axle, cones, cups and balls before adjusting.",
        )
    if scenario.setting.lock_torque < LEAST_LOCK:
        return Answer(
            words="Lock it first", why="With the locknut hardly tightened nothing keeps the cone where it is."
        )
    if scenario.setting.axle_held == "nothing":
        return Answer(
            words="Hold the axle first", why="It turned with the cone, so turning the cone changed nothing."
        )
    if terms.joint.runs_in:
        return Answer(
            words="Hold the cone first",
            why="Without a key or a spanner it follows the locknut until the balls stop it.",
        )
    if terms.joint.far_side_slips:
        return Answer(
            words="Lock the far side first",
            why="Holding it does not keep the axle from turning at this torque.",
        )
    return None
