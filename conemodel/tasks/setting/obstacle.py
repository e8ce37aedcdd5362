"""Why no turn of the cone brings a hub right, wherever its cone stands."""

import numpy as np

from conemodel.parts.scenario import Scenario
from conemodel.physics.rating import STATIC_PRESSURE
from conemodel.solve.curves.hub_tables import HubTables
from conemodel.solve.curves.unloaded_tables import UnloadedTables
from conemodel.solve.stages.terms import SettingTerms
from conemodel.tasks.headline import STRIP, Answer
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.safety import proud_in_frame

LEAST_LOCK = 2.0
"""Torque at the locknut below which it is not locked at all [N·m]. Assumption: what fingers alone can do."""


def obstacle_of(
    scenario: Scenario, terms: SettingTerms[float], window: Window, tables: HubTables
) -> Answer | None:
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
        why = "Without a key or a spanner it follows the locknut until the balls stop it"
        if _pressure(tables.unloaded, terms) <= STATIC_PRESSURE:
            return Answer(words="Hold the cone first", why=f"{why}.")
        return Answer(
            words=STRIP,
            why=f"{why}, and dents stay in races pressed so hard.",
            act="Lock it again only when the races are sound, and hold the cone.",
        )
    if terms.joint.far_side_slips:
        return Answer(
            words="Lock the far side first",
            why="Holding it does not keep the axle from turning at this torque.",
        )
    return None


def _pressure(tables: UnloadedTables, terms: SettingTerms[float]) -> float:
    """Return the worst pressure on a cone that ran in until the balls stopped it [Pa], once clamped.

    Beyond the tight end of the tables it is the least that it can be: what the nut alone presses, growing as the third
    root of the load. Source: [HarrisKotzalas2007]
    """
    preload, pressure = tables.preload, tables.cone_pressure
    tightest = float(pressure.x[0])
    within = float(pressure.at(np.array(max(terms.end_play("clamped"), tightest))))
    beyond = float(pressure.height[0] * np.cbrt(terms.joint.stop_preload / preload.height[0]))
    return max(within, beyond)
