"""In which stage of the work an adjustment went wrong."""

from typing import Literal

from conemodel.tasks.practice.hub_terms import in_frame, terms_of, window_for
from conemodel.tasks.practice.session import HiddenHub, HubState

ErrorStage = Literal["none", "touch", "slack", "drift", "clamp", "not checked", "judged"]

STAGES: tuple[ErrorStage, ...] = ("touch", "slack", "drift", "clamp", "not checked", "judged")
"""The stages in which it can go wrong, in the order of the work."""

STAGES_BY_KIND: dict[str, tuple[ErrorStage, ...]] = {
    "touch": ("touch", "not checked"),
    "name": ("not checked", "judged"),
    "set": STAGES,
}
"""Those in which an exercise of a kind can go wrong, but for what it must besides."""

STAGE_OF_TERM: dict[str, ErrorStage] = {
    "thread_slack": "slack",
    "cone_thread": "slack",
    "drift": "drift",
    "far_side": "drift",
    "axle_shortening": "clamp",
    "cone_thread_clamp": "clamp",
    "dropouts": "clamp",
    "nut_drag": "clamp",
}
"""The stage a term of end play belongs to; what is not named here is how the cone was set."""


def stage_past(secret: HiddenHub, hub: HubState) -> ErrorStage:
    """Return the stage that took a hub, closed in the frame, past the tight edge of its good range.

    Of the stages without which it would not be past it, that is the one that took most; where no stage took so much,
    the cone was set too far in for any of them.
    """
    took: dict[ErrorStage, float] = {}
    for term in terms_of(secret, in_frame(secret, hub)):
        stage = STAGE_OF_TERM.get(term.key, "touch")
        took[stage] = took.get(stage, 0.0) + term.length
    past = sum(took.values()) - window_for(secret, hub).tight_edge
    enough = [stage for stage in took if stage != "touch" and took[stage] <= past]
    return min(enough, key=lambda stage: took[stage], default="touch")


def part_of(secret: HiddenHub, hub: HubState, key: str) -> float:
    """Return what one term adds to end play, closed in the frame [m]."""
    return sum(term.length for term in terms_of(secret, in_frame(secret, hub)) if term.key == key)
