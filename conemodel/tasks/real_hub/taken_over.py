"""What a measured hub is worth elsewhere: the hub as chosen with what was measured, and a record for a job card."""

from typing import Any

from conemodel.base.units import MINUTE, MM
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import write_part
from conemodel.physics.thread import axial_backlash
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.next_reading import Measuring
from conemodel.tasks.real_hub.told import QUANTITIES_AT_MARKS


def measured_scenario(measuring: Measuring, scenario: Scenario) -> Scenario:
    """Return the scenario of a measured hub with its thread's slack and its clamp's force as they were measured.

    The force is the one that takes off end play what was measured: it takes in proportion, the axle being a spring.
    """
    slack, give = (
        measuring.fitted.interval(QUANTITIES_AT_MARKS[name].of) for name in ("slack", "clamp_give")
    )
    axle, clamp = scenario.axle, scenario.clamp
    known = scenario.replace(
        axle=axle.replace(thread_clearance=slack.value / float(axial_backlash(pitch_diameter_clearance=1.0)))
    )
    terms = setting_terms(known)
    takes = terms.end_play("locked") - terms.end_play("clamped")
    force = terms.clamp.force * give.value / takes
    return known.replace(
        name=f"{scenario.name}, measured",
        clamp=clamp.replace(force=force, pick_up=None, torque=None),
    )


def measured_summary(measuring: Measuring) -> dict[str, Any]:
    """Return what a job card keeps of a measured hub: plain values, lengths in mm, the turn in minutes of a clock face.

    ``turn_minutes`` is positive out; it and the chances are None where there is no turn yet.
    """
    turn = measuring.turn
    return {
        "readings": write_part(measuring.found),
        **_ends("slack", measuring.fitted.interval(QUANTITIES_AT_MARKS["slack"].of)),
        **_ends("clamp_give", measuring.fitted.interval(QUANTITIES_AT_MARKS["clamp_give"].of)),
        "next": measuring.next.what,
        "turn_minutes": MINUTE.from_si(turn.turn) if turn else None,
        "chance_right": turn.right if turn else None,
        "chance_tight": turn.tight if turn else None,
    }


def _ends(name: str, span: Interval) -> dict[str, float]:
    """Return a length and its range by names in mm."""
    ends = {"mm": span.value, "low80_mm": span.low, "high80_mm": span.high}
    return {f"{name}_{end}": MM.from_si(value) for end, value in ends.items()}
