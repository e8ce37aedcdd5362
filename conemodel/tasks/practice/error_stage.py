"""In which stage an adjustment went wrong."""

from typing import Literal

from conemodel.parts.exercise import Exercise
from conemodel.tasks.practice.hub_terms import in_frame, terms_of
from conemodel.tasks.practice.session import HiddenHub, HubState

ErrorStage = Literal["none", "touch", "slack", "drift", "clamp", "not checked", "judged"]

STAGES: tuple[ErrorStage, ...] = ("touch", "slack", "drift", "clamp", "not checked", "judged")
"""The stages in which it can go wrong, in the order of the work."""

KEYS: dict[ErrorStage, tuple[str, ...]] = {
    "slack": ("thread_slack", "cone_thread"),
    "drift": ("drift", "far_side"),
    "clamp": ("axle_shortening", "cone_thread_clamp", "nut_drag"),
}
"""The terms of end play that belong to each stage."""


def stage_of(
    exercise: Exercise, secret: HiddenHub, hub: HubState, *, off: float, passed: bool, unchecked: bool
) -> ErrorStage:
    """Return where it went wrong; `off` is how far outside the good range it ended [m].

    Too tight: the largest of slack, drift and clamp, if leaving it out would have kept the hub from being
    tight; else the cone was set too far in. Too loose: one of them was allowed for and did not come, or the
    cone was set too far out.
    """
    if passed:
        return "none"
    if exercise.kind == "name":
        return "judged"
    if exercise.kind == "touch":
        return "touch"
    if off < 0.0:
        sizes = {stage: part_of(secret, hub, stage) for stage in KEYS}
        largest = min(sizes, key=lambda stage: sizes[stage])
        return largest if off - sizes[largest] >= 0.0 else "touch"
    if off > 0.0:
        if hub.lock is not None and not any(term.key == "thread_slack" for term in hub.lock.terms):
            return "slack"
        return "clamp" if hub.felt.rocked_clamped is None else "touch"
    return "not checked" if unchecked else "judged"


def part_of(secret: HiddenHub, hub: HubState, stage: ErrorStage) -> float:
    """Return what a stage adds to end play, closed in the frame [m]."""
    terms = terms_of(secret, in_frame(secret, hub))
    return sum(term.length for term in terms if term.key in KEYS.get(stage, ()))
