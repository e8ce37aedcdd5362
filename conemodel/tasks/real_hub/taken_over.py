"""What a measured hub is worth elsewhere: the hub as chosen with what was measured, and a record for a job card."""

from typing import Any

from scipy.special import ndtri

from conemodel.base.units import MINUTE, MM
from conemodel.parts.distributions import BELL_REACH
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.real_hub import State
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import MOST_CLAMP_FORCE
from conemodel.parts.toml_files import write_part
from conemodel.physics.thread import clearance_for_backlash
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.hand.estimate import HELD, Interval
from conemodel.tasks.real_hub.fit import Fitted
from conemodel.tasks.real_hub.next_reading import Measuring
from conemodel.tasks.real_hub.told import QUANTITIES_AT_MARKS, QuantityName

MEASURED = ", measured"
"""What the name of a measured hub ends with."""

TELLING: dict[QuantityName, tuple[State, ...]] = {
    "slack": ("locked", "clamped"),
    "clamp_give": ("clamped",),
    "contact": ("nut loose",),
}
"""The states of which one must be read before a quantity is told rather than assumed."""


def measured_scenario(measuring: Measuring, scenario: Scenario) -> Scenario:
    """Return the scenario of a hub with what was measured on it, see `with_measured`."""
    slack, give = _slack_and_give(measuring)
    return with_measured(scenario, slack, give if is_read(measuring.fitted, "clamp_give") else None)


def with_measured(scenario: Scenario, slack: Interval, give: Interval | None) -> Scenario:
    """Return a scenario with thread slack and clamp as measured, each with its error; no `give`: the clamp stays.

    The force is the one that takes off end play what was measured: it takes in proportion, the axle being a spring.

    Raises:
        InputProblems: the hub cannot have so much.
    """
    clearance = slack.through(lambda length: float(clearance_for_backlash(axial_backlash=length)))
    axle = scenario.axle.replace(thread_clearance=clearance.value, thread_clearance_error=_error(clearance))
    measured = scenario.replace(name=f"{scenario.name.removesuffix(MEASURED)}{MEASURED}", axle=axle)
    force = None if give is None else _force_that_takes(give, measured)
    if isinstance(measured, KnownScenario):
        return _as_known(measured, slack, force)
    if force is None:
        return measured
    low, high = force.value - _error(force), min(force.value + _error(force), MOST_CLAMP_FORCE)
    return measured.replace(
        clamp=measured.clamp.replace(force=force.value, pick_up=None, torque=None),
        assumed=measured.assumed.replace(clamp_force_low=low, clamp_force_high=high),
    )


def _as_known(measured: KnownScenario, slack: Interval, force: Interval | None) -> KnownScenario:
    """Return a hub by what is known of it with slack and force [N] among that."""
    sizes = {"thread_slack": slack.value, "thread_slack_error": _error(slack)}
    if force is not None:
        sizes |= {"clamp_force": force.value, "clamp_force_error": _error(force)}
    known = measured.known.replace(**sizes)
    plain = KnownScenario.of(known)
    changes: dict[str, Any] = {
        "axle": measured.axle.replace(
            thread_clearance=plain.axle.thread_clearance,
            thread_clearance_error=plain.axle.thread_clearance_error,
        )
    }
    if force is not None:
        ends = {name: getattr(plain.assumed, name) for name in ("clamp_force_low", "clamp_force_high")}
        changes["clamp"] = measured.clamp.replace(force=plain.clamp.force, pick_up=None, torque=None)
        changes["assumed"] = measured.assumed.replace(**ends)
    return measured.replace(known=known, **changes)


def _force_that_takes(give: Interval, scenario: Scenario) -> Interval:
    """Return the force of a clamp that takes so much off end play [N]."""
    terms = setting_terms(scenario)
    stiffness = terms.clamp.force / (terms.end_play("locked") - terms.end_play("clamped"))
    return give.through(lambda taken: float(stiffness * taken))


def _error(span: Interval) -> float:
    """Return how far a measured value may be out, either way: where a bell that holds `HELD` in the span is cut off."""
    half = max(span.value - span.low, span.high - span.value)
    return min(half * BELL_REACH / float(ndtri((1 + HELD) / 2)), span.value)


def is_read(fitted: Fitted, name: QuantityName) -> bool:
    """Return whether a play that fits was read in a state that tells a quantity; else it is only assumed."""
    return any(
        each.reading.state in TELLING[name] and not each.left_out and place not in fitted.clash
        for place, each in enumerate(fitted.readings)
    )


def measured_summary(measuring: Measuring) -> dict[str, Any]:
    """Return what a job card keeps of a measured hub: plain values, lengths in mm, the turn in minutes of a clock face.

    ``turn_minutes`` is positive out; it and the chances are None where there is no turn yet, or it was made:
    ``turned_to_minutes`` is where the cone then stands, and nothing was read there. ``clamp_read`` is whether the clamp
    was measured.
    """
    turn, turned_to = measuring.turn, measuring.turned_to
    slack, give = _slack_and_give(measuring)
    return {
        "readings": write_part(measuring.found),
        **_ends("slack", slack),
        **_ends("clamp_give", give),
        "clamp_read": is_read(measuring.fitted, "clamp_give"),
        "next": measuring.next.what,
        "turn_minutes": MINUTE.from_si(turn.turn) if turn else None,
        "turned_to_minutes": None if turned_to is None else MINUTE.from_si(turned_to),
        "chance_right": turn.right if turn else None,
        "chance_tight": turn.tight if turn else None,
    }


def _slack_and_give(measuring: Measuring) -> tuple[Interval, Interval]:
    slack, give = (
        measuring.fitted.interval(QUANTITIES_AT_MARKS[name].of) for name in ("slack", "clamp_give")
    )
    return slack, give


def _ends(name: str, span: Interval) -> dict[str, float]:
    """Return a length and its range by names in mm."""
    ends = {"mm": span.value, "low80_mm": span.low, "high80_mm": span.high}
    return {f"{name}_{end}": MM.from_si(value) for end, value in ends.items()}
