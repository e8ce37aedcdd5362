"""The visible state of the bench and the usual next step, in words; no hidden number is read here."""

from conemodel.parts.exercise import Exercise
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.clamp import clamp_word
from conemodel.tasks.practice.actions.holding import AXLE, CONE
from conemodel.tasks.practice.actions.obstacles import CONE_FREE, IN_FRAME, ON_LOCKNUTS
from conemodel.tasks.practice.session import Bench, Felt, HubState
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

_BY_BUTTON: dict[str, type[a.Action]] = {"cone": a.ScrewIn, "lock": a.Tighten, "say": a.Finish}
"""What is usually next at a step, where a button does it."""


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


def next_to_do(bench: Bench) -> tuple[str, str]:
    """Return the step that is usually next, and what to do there.

    The later exercises ask for the checks themselves, so there it does not name them.
    """
    kind = bench.exercise.kind
    if kind == "touch":
        return _next_touch(bench.hub)
    return _next_name(bench) if kind == "name" else _next_set(bench)


def advised_action(bench: Bench) -> type[a.Action] | None:
    """Return the kind of action that `next_to_do` comes to, where a button does it; None where a hand does."""
    step, _ = next_to_do(bench)
    if step == "clamp":
        return a.OpenClamp if bench.hub.closed else a.CloseClamp
    if step == "say" and (bench.exercise.kind == "name" or _is_asked_first(bench)):
        return None
    if step == "cone" and bench.hub.axle_held == "nothing":
        return None
    return _BY_BUTTON.get(step)


def _is_asked_first(bench: Bench) -> bool:
    """Return whether the exercise asks what locking will do, before it is done."""
    hub = bench.hub
    return "foretell" in bench.exercise.questions and hub.answer("foretell") is None and hub.locks == 0


def _next_touch(hub: HubState) -> tuple[str, str]:
    if hub.axle_held == "nothing":
        return "cone", "Hold the axle, or it turns with the cone."
    if not hub.touched:
        return "cone", "Turn the cone in until it stops turning freely."
    return "say", "Does it just touch? Then say done. If not, turn on."


def _next_name(bench: Bench) -> tuple[str, str]:
    felt, asked = bench.hub.felt, bench.exercise.questions
    twirl = felt.twirled_clamped is None and asked != ("flex",)
    if not bench.hub.closed and asked != ("fault",) and (felt.rocked_clamped is None or twirl):
        return "clamp", f"Close the {clamp_word(bench)}: a hub felt open is not as it is when ridden."
    if felt.rocked_clamped is None:
        return "feel", "Rock the rim. Does it move freely and then stop, or spring from the start?"
    if twirl:
        return "feel", "Twirl the axle a full turn."
    if "name" in asked:
        return "feel", "Felt enough? Mark on the line what it is, and say how sure you are."
    return "say", "Say what it is."


def _next_set(bench: Bench) -> tuple[str, str]:
    hub, exercise = bench.hub, bench.exercise
    if _is_asked_first(bench):
        return "say", "First say what locking will do to the play."
    if "protrusion first" in exercise.must and not hub.touched and not hub.seen:
        return "look", "Look before the cone is touched: at the axle ends, at the balls."
    if hub.lock is None:
        return _next_loose(hub)
    if not hub.touched and exercise.start == "locked":
        if hub.felt != Felt():
            return "say", f"Felt all you need? Right as it is: say done. If not: {_set_again(exercise)}."
        return "feel", "Someone set it before you. Feel it as it is, then decide."
    return _next_locked(bench)


def _next_loose(hub: HubState) -> tuple[str, str]:
    if hub.closed and hub.seat in ON_LOCKNUTS:
        return "clamp", "Open the clamp: it presses on the locknut."
    if hub.axle_held == "nothing":
        return "cone", "Hold the axle, or it turns with the cone."
    if not hub.touched:
        return "cone", "Screw the cone in by finger, then back it off."
    return "lock", "Is the cone where you want it? Then tighten the locknut."


def _next_locked(bench: Bench) -> tuple[str, str]:
    hub, exercise = bench.hub, bench.exercise
    if exercise.assessed and exercise.number > 4:
        if hub.felt != Felt():
            return "say", f"Checked all you were taught to? Right: say done. If not: {_set_again(exercise)}."
        return "feel", "It is locked. Check it as you were taught; say done when it is right."
    if not hub.closed and hub.felt.rocked_clamped is None:
        return "clamp", "Clamp it as it will be in the frame."
    if hub.felt.rocked_clamped is None:
        return "feel", "Rock the rim while it is clamped."
    if hub.felt.twirled_clamped is None:
        return _next_twirl(bench)
    return "say", "No play, smooth, not stiff? Then say done. If not: open, undo, turn the cone, lock again."


def _set_again(exercise: Exercise) -> str:
    """Return how a locked cone is set again: trimmed where the clamp leaves it free."""
    return "trim it" if exercise.seat == CONE_FREE else "undo it, turn the cone, lock it again"


def _next_twirl(bench: Bench) -> tuple[str, str]:
    """Return how the hub comes to be twirled clamped from where it stands."""
    hub, what = bench.hub, clamp_word(bench)
    if hub.seat in IN_FRAME:
        return (
            "clamp",
            f"In the frame no axle can be twirled: take the wheel out, and close the {what} on spacers.",
        )
    if not hub.closed:
        return (
            "clamp",
            f"Close the {what} on spacers first: twirled open, even a hub too tight may turn free.",
        )
    return "feel", "Rocking cannot tell right from too tight: twirl the axle a full turn."
