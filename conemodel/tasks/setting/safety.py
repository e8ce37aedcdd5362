"""Is it safe to ride: an axle that stands proud of its dropout, a clamp too weak to hold the wheel."""

from conemodel.base.units import NEWTON
from conemodel.parts.hub import Side
from conemodel.parts.scenario import Scenario
from conemodel.physics.clamp import required_force_against_removal
from conemodel.solve.stages.clamp import close_clamp
from conemodel.solve.stages.terms import SettingTerms
from conemodel.tasks.headline import DO_NOT_RIDE, Answer

REMOVAL_FORCE = 2300.0
"""Pull that must not move a wheel in its dropouts [N]. Source: [EN14766]"""

BEST_GRIP = 0.30
"""Friction of dropout on clamp and locknut at its best [-]: the least clamp force follows. Assumption."""


def dangers_of(scenario: Scenario, terms: SettingTerms[float]) -> tuple[Answer, ...]:
    """Return the reasons not to ride, most serious first; usually none."""
    return (*_proud_axle(scenario, terms), *_weak_clamp(scenario, terms))


def proud_in_frame(scenario: Scenario, terms: SettingTerms[float]) -> tuple[Side, ...]:
    """Return the sides on which the axle stands proud once in the frame, whatever the clamp presses on now."""
    if scenario.setting.clamp_seat == "dropouts":
        return terms.clamp.proud
    return close_clamp(scenario.with_setting(clamp_seat="dropouts")).proud


def _proud_axle(scenario: Scenario, terms: SettingTerms[float]) -> tuple[Answer, ...]:
    """Return the reason not to ride where the axle reaches through a dropout."""
    proud = proud_in_frame(scenario, terms)
    if not proud:
        return ()
    where = "both ends" if len(proud) == 2 else f"the {proud[0]} end"
    return (
        Answer(
            words=f"{DO_NOT_RIDE}: the axle stands proud of the dropout at {where}",
            why="The clamp squeezes the axle and not the frame, and the wheel can come out.",
            act="No setting of the cone cures that: fit an axle of the right length.",
            unsafe=True,
        ),
    )


def _weak_clamp(scenario: Scenario, terms: SettingTerms[float]) -> tuple[Answer, ...]:
    """Return the reason not to ride where the clamp cannot hold the wheel in open dropouts.

    Source: [EN14766]
    """
    if not scenario.clamp.traits.open_dropouts or scenario.setting.clamp_seat != "dropouts":
        return ()
    needed = required_force_against_removal(removal_force=REMOVAL_FORCE, friction=BEST_GRIP, faces=4)
    if terms.clamp.force >= needed:
        return ()
    return (
        Answer(
            words=f"{DO_NOT_RIDE}: a clamp force of {NEWTON.from_si(terms.clamp.force):.0f} N does not hold the wheel",
            why=f"Against the {NEWTON.from_si(REMOVAL_FORCE):.0f} N a standard pulls at it with, friction alone needs "
            f"{NEWTON.from_si(float(needed)):.0f} N even on faces that grip well.",
            act=scenario.clamp.traits.see_to,
            unsafe=True,
        ),
    )
