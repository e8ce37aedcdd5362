"""The visible state of the bench, in words, and which button the usual next step comes to."""

from conemodel.parts.exercise import Exercise
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.clamp import clamp_word
from conemodel.tasks.practice.actions.holding import AXLE, CONE
from conemodel.tasks.practice.next_step import next_step
from conemodel.tasks.practice.session import Bench, HubState
from conemodel.ui.setting.controls import SEATS

STEPS = {
    "cone": "Cone",
    "lock": "Lock",
    "clamp": "Clamp",
    "feel": "Feel",
    "look": "Look",
    "say": "Decide",
}
"""Parts of the work, in its order."""

_BY_BUTTON = (a.ScrewIn, a.Tighten, a.OpenClamp, a.CloseClamp, a.Finish)
"""Kinds of action that a button does."""


def looks(exercise: Exercise) -> bool:
    """Return whether an exercise has use for looking at the hub and putting it right."""
    asked = exercise.rides or not exercise.assessed or "protrusion first" in exercise.must
    return exercise.kind == "set" and asked


def says_place(exercise: Exercise) -> bool:
    """Return whether a hand says where on the line from loose to tight a hub stands: to name it, or in training."""
    return "name" in exercise.questions or (exercise.kind == "set" and not exercise.assessed)


def list_visible_states(bench: Bench) -> list[tuple[str, str]]:
    """Return what can be seen at the bench: names and states."""
    hub = bench.hub
    rows = [
        ("Axle", AXLE[hub.axle_held].standing),
        ("Cone, while the nut is turned", CONE[hub.cone_held].standing),
        ("Locknut", "tight" if hub.lock else "loose"),
        ("Pen line", "drawn" if hub.pen else "none"),
        (clamp_word(bench).capitalize(), _clamp(hub)),
    ]
    if len(bench.hubs) > 1:
        rows.insert(0, ("Hub", f"{bench.current + 1} of {len(bench.hubs)}"))
    return rows


def _clamp(hub: HubState) -> str:
    if hub.seat is None:
        return "not fitted"
    return f"{SEATS[hub.seat]}, {'closed' if hub.closed else 'open'}"


def advised_action(bench: Bench) -> type[a.Action] | None:
    """Return the kind of action that the next step comes to, where a button does it; None where a hand does."""
    acts = next_step(bench).acts
    last = type(acts[-1]) if acts else None
    return last if last in _BY_BUTTON else None
