"""What cannot be done at the bench just now, and why, in plain words."""

from collections.abc import Callable
from typing import Any

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.locknut import HAND, MOST_TRIM, effort_torque, trim_torque
from conemodel.tasks.practice.session import Bench, HubState

ON_LOCKNUTS = ("dropouts", "spacers on locknuts")
"""Seats on which the clamp presses on the locknut of the adjustable side."""

IN_FRAME = ("dropouts", "one side in frame")
"""Seats on which the axle is in the frame."""

OUTERMOST = 9.5
"""Angle on the clock beyond which a cone is nearly off its thread [rad], one and a half turns."""

MOVES_CONE = (a.ScrewIn, a.TurnCone, a.Tighten, a.Undo, a.Trim, a.PutRight)


def why_not(bench: Bench, action: a.Action) -> str | None:
    """Return why an action cannot be done now, or None where it can."""
    if isinstance(action, a.TakeBack):
        return _take_back(bench)
    if isinstance(action, a.Take):
        return None if 0 <= action.hub < len(bench.hubs) else "There is no such hub here."
    if bench.hub.done is not None:
        return "You have said your last word on this hub."
    if bench.exercise.kind == "name" and isinstance(action, MOVES_CONE):
        return "This hub is to be judged, not adjusted."
    if bench.exercise.kind == "touch" and isinstance(action, a.ScrewIn):
        return "Find it with the spanner: turn in until it stops turning freely."
    check = _CHECKS.get(type(action))
    return check(bench, action) if check else None


def _take_back(bench: Bench) -> str | None:
    if bench.hub.done is not None:
        return "You have said your last word on this hub."
    if bench.exercise.assessed:
        return "Nothing can be taken back in an assessed exercise."
    return None if bench.past else "There is nothing to take back."


def _clamped_tight(hub: HubState) -> str | None:
    if hub.closed and hub.seat in ON_LOCKNUTS:
        return "The clamp presses on the locknut: open it first."
    return None


def _loose_cone(bench: Bench, _: Any) -> str | None:
    if bench.hub.lock is not None:
        return "The locknut is tight against the cone: undo it first."
    return _clamped_tight(bench.hub)


def _turn(bench: Bench, action: a.TurnCone) -> str | None:
    if abs(action.angle) > OUTERMOST:
        return (
            "The cone would come off its thread." if action.angle > 0 else "The cone does not go in so far."
        )
    return _loose_cone(bench, action)


def _tighten(bench: Bench, action: a.Tighten) -> str | None:
    hub = bench.hub
    if reason := _clamped_tight(hub):
        return reason
    if hub.axle_held == "nothing" and not hub.cone_held:
        return "Nothing is held: axle, cone and locknut turn together."
    if action.technique != "nut turned" and not hub.cone_held:
        return "That needs a spanner on the cone, and it is left free."
    if hub.lock and effort_torque(bench.secret.now(hub), action.effort) <= hub.lock.torque * (1 + 1e-9):
        return "It is tight already: only a harder hand turns it further."
    return None


def _undo(bench: Bench, _: Any) -> str | None:
    if bench.hub.lock is None:
        return "The locknut is loose already."
    return _clamped_tight(bench.hub)


def _trim(bench: Bench, action: a.Trim) -> str | None:
    hub = bench.hub
    if hub.lock is None:
        return "Cone and locknut must be tight against each other."
    if reason := _clamped_tight(hub):
        return reason
    if hub.axle_held == "nothing":
        return "The axle turns with them: hold it."
    if not hub.cone_held:
        return "It takes a spanner on the cone as well, and it is left free."
    if abs(action.angle) > MOST_TRIM:
        return "So far is more than a trim: undo the locknut."
    scenario = bench.secret.now(hub)
    if trim_torque(bench.secret, hub) > 2 * HAND["hard"] * scenario.assumed.spanner_length:
        return "They are too tight on the axle to be turned together."
    return None


def _twirl(bench: Bench, _: Any) -> str | None:
    hub = bench.hub
    if hub.seat in IN_FRAME:
        return "In the frame the axle cannot be twirled: open the clamp and take the wheel out for that, or spin it."
    if hub.axle_held == "vice":
        return "The axle is still in the vice: let go of it first (nothing holds it)."
    return None


def _rock(bench: Bench, action: a.Rock) -> str | None:
    return _twirl(bench, action) if action.grip == "axle end" else None


def _wiggle(bench: Bench, _: Any) -> str | None:
    return "The locknut is tight against the cone." if bench.hub.lock is not None else None


def _fit(bench: Bench, action: a.FitClamp) -> str | None:
    hub = bench.hub
    if hub.closed:
        return "The clamp is closed: open it first."
    if action.seat in IN_FRAME and hub.axle_held == "vice":
        return "The axle is still in the vice: let go of it first (nothing holds it)."
    nuts = bench.secret.scenario.clamp.kind == "nuts"
    if nuts and action.seat in ("spacer on axle end", "one side in frame"):
        return "Axle nuts press on the locknuts: there is no such seat for them."
    return None


def _close(bench: Bench, _: Any) -> str | None:
    hub = bench.hub
    if hub.seat is None:
        return "No clamp is fitted."
    if hub.closed:
        return "The clamp is closed already."
    if hub.seat in ON_LOCKNUTS and hub.lock is None:
        return "The locknut is loose: the clamp would only drive it against the cone."
    return None


def _open(bench: Bench, _: Any) -> str | None:
    return None if bench.hub.closed else "The clamp is not closed."


def _hold_axle(bench: Bench, action: a.HoldAxle) -> str | None:
    if action.by == "vice" and bench.hub.seat in IN_FRAME:
        return "The axle is in the frame: there is no vice to be got at it."
    return None


def _look(bench: Bench, action: a.Look) -> str | None:
    if action.at == "lever" and bench.hub.seat is None:
        return "No clamp is fitted."
    if action.at == "brake" and bench.hub.seat != "dropouts":
        return "The wheel is not in the frame."
    return None


def _put_right(bench: Bench, action: a.PutRight) -> str | None:
    if action.what == "brake":
        return None if bench.hub.seat == "dropouts" else "The wheel is not in the frame."
    if bench.hub.lock is not None or bench.hub.seat is not None:
        return "Take the clamp off and undo the locknut first."
    return None


def _answer(bench: Bench, action: a.Answer) -> str | None:
    if action.question not in QUESTIONS:
        return "That is not asked here."
    if action.word not in QUESTIONS[action.question]:
        return "That is not one of the answers."
    if action.question == "foretell" and bench.hub.locks:
        return "It has been locked: it is too late to foretell that."
    felt = bench.hub.felt
    rocked = any(word is not None for word in (felt.rocked_open, felt.rocked_clamped, felt.at_axle_end))
    if action.question == "name" and not (rocked and felt.twirled):
        return "Rock it and twirl it through a full turn first: rocking cannot tell right from too tight."
    if action.question == "flex" and not rocked:
        return "Rock it first."
    return None


def _finish(bench: Bench, action: a.Finish) -> str | None:
    if bench.exercise.kind == "touch" and not bench.hub.touched:
        return "The cone has not been turned yet."
    return None


QUESTIONS: dict[str, tuple[str, ...]] = {
    "name": ("loose", "right", "tight"),
    "flex": ("play", "flex"),
    "foretell": ("tighter", "looser", "the same"),
    "why": ("the cone turned in with the locknut", "the thread slack was taken up", "the clamp took it up"),
    "fault": ("bent axle", "dents", "dry grease", "odd ball", "only the adjustment"),
    "refuse": ("the thread is worn out", "the axle is bent", "the races are dented"),
    "recheck": (
        "after the first ride and within about 100 km",
        "at the next yearly service",
        "only if it makes a noise",
    ),
}
"""The questions there are and the answers to choose from."""

_CHECKS: dict[type, Callable[[Bench, Any], str | None]] = {
    a.ScrewIn: _loose_cone,
    a.TurnCone: _turn,
    a.Tighten: _tighten,
    a.Undo: _undo,
    a.Trim: _trim,
    a.Twirl: _twirl,
    a.Rock: _rock,
    a.Wiggle: _wiggle,
    a.FitClamp: _fit,
    a.CloseClamp: _close,
    a.OpenClamp: _open,
    a.HoldAxle: _hold_axle,
    a.Look: _look,
    a.PutRight: _put_right,
    a.Answer: _answer,
    a.Finish: _finish,
}
