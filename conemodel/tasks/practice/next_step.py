"""The usual next step at the bench, from what its trainee did and saw; what is hidden or only felt decides nothing."""

from typing import NamedTuple

from conemodel.parts.clamp_kinds import ON_LOCKNUTS
from conemodel.parts.setting import ClampSeat
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.clamp import clamp_word
from conemodel.tasks.practice.actions.cone import AT_TOUCH
from conemodel.tasks.practice.actions.look import looks_wrong
from conemodel.tasks.practice.actions.obstacles import CONE_FREE, IN_FRAME
from conemodel.tasks.practice.session import Bench, Felt, HubState

SPACERS: ClampSeat = "spacers on locknuts"
LET_GO = "Let go of the axle first"


class Next(NamedTuple):
    """What is usually next: the part of the work, in words, and the acts that do it, where words name them."""

    step: str
    words: str
    acts: tuple[a.Action, ...] = ()


def next_step(bench: Bench) -> Next:
    """Return the step that is usually next.

    The later exercises ask for the checks themselves, so there it does not name them.
    """
    kind = bench.exercise.kind
    if kind == "touch":
        return _next_touch(bench.hub)
    return _next_name(bench) if kind == "name" else _next_set(bench)


def _next_touch(hub: HubState) -> Next:
    if hub.axle_held == "nothing":
        return _hold_axle()
    if not hub.touched:
        return Next("cone", f"Turn the cone in until {AT_TOUCH}.")
    return Next("say", f"Is it where {AT_TOUCH}? Then say done. If not, turn on.", (a.Finish(),))


def _hold_axle() -> Next:
    return Next("cone", "Hold the axle, or it turns with the cone.", (a.HoldAxle("vice"),))


def _next_name(bench: Bench) -> Next:
    hub, asked = bench.hub, bench.exercise.questions
    twirl = hub.felt.twirled_clamped is None and asked != ("flex",)
    if not hub.closed and asked != ("fault",) and (hub.felt.rocked_clamped is None or twirl):
        words = f"Close the {clamp_word(bench)}: a hub felt open is not as it is when ridden."
        return Next("clamp", words, (a.CloseClamp(),))
    if hub.felt.rocked_clamped is None:
        return Next("feel", "Rock the rim. Does it move freely and then stop, or spring from the start?")
    if twirl:
        return _twirl_by_hand(hub, "Twirl the axle a full turn.")
    if "name" in asked:
        return Next("feel", "Felt enough? Mark on the line what it is, and say how sure you are.")
    return Next("say", "Say what it is.")


def _twirl_by_hand(hub: HubState, words: str) -> Next:
    if hub.axle_held == "vice":
        return Next("feel", f"{LET_GO}: in the vice it cannot be twirled.", (a.HoldAxle("nothing"),))
    return Next("feel", words, (a.Twirl(),))


def _next_set(bench: Bench) -> Next:
    hub, exercise = bench.hub, bench.exercise
    if asks_first(bench):
        return Next("say", "First say what locking will do to the play.")
    if look := _next_look(bench):
        return look
    if hub.lock is None:
        return _next_loose(bench)
    if not hub.touched and exercise.start == "locked":
        if hub.felt != Felt():
            return _last_word(bench, "Felt all you need? Right as it is:")
        return Next("feel", "Someone set it before you. Feel it as it is, then decide.")
    return _next_locked(bench)


def asks_first(bench: Bench) -> bool:
    """Return whether the exercise asks what locking will do, before it is done."""
    hub = bench.hub
    return "foretell" in bench.exercise.questions and hub.answer("foretell") is None and hub.locks == 0


def _next_look(bench: Bench) -> Next | None:
    """Return what the exercise wants looked at and was not yet, or what was seen to be wrong and is not put right."""
    seen, must = bench.hub.seen, bench.exercise.must
    if "protrusion first" in must and "protrusion" not in seen:
        return Next("look", "Look at the axle ends.", (a.Look("protrusion"),))
    if "balls counted" in must and "balls" not in seen:
        return Next("look", "Count the balls.", (a.Look("balls"),))
    if "protrusion" in seen and looks_wrong(bench, "protrusion"):
        words = "The axle end stands out past the dropout: fit an axle of the right length."
        return _mend(bench, words, a.PutRight("axle"))
    if "balls" in seen and looks_wrong(bench, "balls"):
        return _mend(bench, "A ball is missing: make up the balls.", a.PutRight("balls"))
    return None


def _mend(bench: Bench, words: str, put_right: a.PutRight) -> Next:
    if put_right.cannot(bench) is None:
        return Next("look", words, (put_right,))
    apart = _take_clamp_off(bench.hub)
    undo = () if bench.hub.lock is None else (a.Undo(),)
    return Next("look", f"{words} For that, take the clamp off and undo the locknut.", (*apart, *undo))


def _take_clamp_off(hub: HubState) -> tuple[a.Action, ...]:
    off = () if hub.seat is None else (a.FitClamp(None),)
    return (a.OpenClamp(), *off) if hub.closed else off


def _next_loose(bench: Bench) -> Next:
    hub = bench.hub
    if hub.closed and hub.seat in ON_LOCKNUTS:
        return Next("clamp", "Open the clamp: it presses on the locknut.", (a.OpenClamp(),))
    if hub.axle_held == "nothing":
        return _hold_axle()
    last = _last_move(bench)
    if last in ("", a.PutRight.__name__):
        return Next("cone", "Screw the cone in by finger, then back it off.", (a.ScrewIn(),))
    if last == a.ScrewIn.__name__:
        words = "Back the cone off by what you reckon thread, locknut and clamp take up."
        return Next("cone", words)
    if last == a.Undo.__name__:
        return Next(
            "cone", "Turn the cone by what you felt it is off: out if it was stiff, in if it had play."
        )
    return Next("lock", "Is the cone where you want it? Then tighten the locknut.", (a.Tighten(),))


def _last_move(bench: Bench) -> str:
    """Return the kind of the last act that moved the cone of the hub on the bench; empty where none did."""
    moved = (
        event.kind
        for event in reversed(bench.log)
        if event.hub == bench.current and not event.refused and not event.undone
        if a.ACTIONS[event.kind].moves_cone
    )
    return next(moved, "")


def _next_locked(bench: Bench) -> Next:
    hub, exercise = bench.hub, bench.exercise
    if exercise.assessed and exercise.number > 4:
        if hub.felt != Felt():
            return _last_word(bench, "Checked all you were taught to? Right:")
        return Next("feel", "It is locked. Check it as you were taught, then decide.")
    if "play felt open" in exercise.must and hub.felt.rocked_open is None:
        words = "Rock it open: the play you feel there is what the clamp takes up."
        return Next("feel", words, (*((a.OpenClamp(),) if hub.closed else ()), a.Rock()))
    if not (hub.closed or hub.felt.rocked_clamped) or hub.felt.twirled_clamped is None:
        return _next_checks(bench)
    return _last_word(bench, "No play, smooth, not stiff?")


def _next_checks(bench: Bench) -> Next:
    """Return how the hub comes to be rocked and twirled clamped from where it stands."""
    hub, what = bench.hub, clamp_word(bench)
    if not hub.closed and hub.felt.rocked_clamped is None:
        return Next(
            "clamp", f"Close the {what} on spacers, as it will press in the frame.", close_on(hub, SPACERS)
        )
    if hub.felt.rocked_clamped is None:
        return Next("feel", "Rock the rim while it is clamped.", (a.Rock(),))
    if hub.seat in IN_FRAME:
        words = f"In the frame no axle can be twirled: take the wheel out, and close the {what} on spacers."
        return Next("clamp", words, close_on(hub, SPACERS))
    if not hub.closed:
        words = f"Close the {what} on spacers first: twirled open, even a hub too tight may turn free."
        return Next("clamp", words, close_on(hub, SPACERS))
    return _twirl_by_hand(hub, "Rocking cannot tell right from too tight: twirl the axle a full turn.")


def close_on(hub: HubState, seat: ClampSeat) -> tuple[a.Action, ...]:
    """Return the acts that close the clamp on a seat."""
    where: tuple[a.Action, ...] = ()
    if hub.seat != seat:
        where = (*((a.OpenClamp(),) if hub.closed else ()), a.FitClamp(seat))
    return (*where, a.CloseClamp()) if where or not hub.closed else ()


def _last_word(bench: Bench, asked: str) -> Next:
    """Return what comes after the checks: what riding still needs, one thing after another, then the last word."""
    left = _before_riding(bench) if bench.exercise.rides else None
    if left is None:
        left = Next("say", "say done", (a.Finish(),))
    elif bench.hub.seat == "dropouts":
        return left._replace(words=f"{left.words[:1].upper()}{left.words[1:]}.")
    then = "Then " if asked.endswith("stiff?") else ""
    words = f"{asked} {then}{left.words}. If not: {_set_again(bench)}."
    return left._replace(words=words)


def _before_riding(bench: Bench) -> Next | None:
    """Return what is still in the way of riding, whatever the setting; None where nothing is."""
    hub, exercise, what = bench.hub, bench.exercise, clamp_word(bench)
    if hub.seat != "dropouts" and hub.axle_held == "vice":
        return Next(
            "clamp", "let go of the axle, so that the wheel can go in the frame", (a.HoldAxle("nothing"),)
        )
    if hub.seat != "dropouts":
        return Next("clamp", f"put the wheel in the frame and close the {what}", close_on(hub, "dropouts"))
    if not hub.closed:
        return Next("clamp", f"close the {what}: it stands open in the frame", (a.CloseClamp(),))
    if hub.felt.rocked_clamped is None:
        return Next("feel", "rock it again, now that it is clamped in the frame", (a.Rock(),))
    if exercise.brake_loose and not hub.brake_connected:
        return Next("look", "connect the brake", (a.PutRight("brake"),))
    if "recheck" in exercise.questions and hub.answer("recheck") is None:
        return Next("say", "say when it must be looked at again")
    return None


def _set_again(bench: Bench) -> str:
    """Return how a locked cone is set again: trimmed where the clamp leaves it free."""
    if bench.exercise.seat == CONE_FREE:
        return "trim it"
    return f"{'open the clamp, ' if bench.hub.closed else ''}undo it, turn the cone, lock it again"
