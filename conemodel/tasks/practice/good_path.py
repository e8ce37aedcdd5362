"""What a careful hand does with a hub, from how it came to its last word.

It has learnt this hub: it knows how much thread, locknut and clamp take up, and feels often enough not to be misled.
What happens by chance to any hand happens to it too: how far the cone drifts, where it is set beside its mark. So it
sets, feels, and corrects, in the order that is taught.
"""

from collections.abc import Callable
from dataclasses import replace

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.obstacles import CONE_FREE, IN_FRAME
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.cone_position import EYE
from conemodel.tasks.practice.criteria import DRIFT_HELD
from conemodel.tasks.practice.hub_terms import window_for
from conemodel.tasks.practice.locknut import MOST_TRIM
from conemodel.tasks.practice.outcome import MENDED_BY, how_far_off, is_sound
from conemodel.tasks.practice.questions import right_answer
from conemodel.tasks.practice.session import Bench
from conemodel.tasks.practice.settled import settled_end_play, usual_effort
from conemodel.tasks.wording import CLOCK_MINUTE

MOST_ROUNDS = 6
"""How often it sets and feels at most; chance has never asked for more than three."""

NEAR = 5
"""Minutes of the clock before first touch from which it goes minute by minute."""

AFTER_THE_LAST = ("recheck",)
"""Questions that are answered when all is done."""


def good_path(bench: Bench, number: int) -> Bench:
    """Return the bench of an exercise with one hub of it, from its start, done by a careful hand; `number` from 0."""
    starts = tuple(hidden.start for hidden in bench.hidden)
    fresh = replace(bench, hubs=starts, current=number, log=(), past=(), words=False)
    return _WAYS[bench.exercise.kind](fresh)


def _do(bench: Bench, *actions: a.Action) -> Bench:
    for action in actions:
        bench = act(bench, action)
    return bench


def _answer(bench: Bench, question: str) -> Bench:
    return _do(bench, a.Answer(question, right_answer(bench.secret, question)))


def _find_touch(bench: Bench) -> Bench:
    """Turn in to just short of first touch, then minute by minute, until the cone just begins to resist."""
    lead = bench.secret.scenario.axle.lead_per_radian
    bench = _do(bench, a.HoldAxle("vice"))
    while bench.hub.cone > CLOCK_MINUTE * lead / 2:
        left = bench.hub.cone / lead
        turn = left - NEAR * CLOCK_MINUTE if left > (NEAR + 1) * CLOCK_MINUTE else min(left, CLOCK_MINUTE)
        bench = _do(bench, a.TurnCone(bench.hub.shown - turn))
    return _do(bench, a.Finish())


def _name(bench: Bench) -> Bench:
    """Feel it as the question needs it, and answer."""
    for question in bench.exercise.questions:
        bench = _answer(_feel_all_round(bench) if question == "fault" else _feel(bench), question)
    return bench


def _feel(bench: Bench) -> Bench:
    """Rock it, and twirl it where the axle can be got at."""
    return _do(bench, a.Rock()) if bench.hub.seat in IN_FRAME else _do(bench, a.Rock(), a.Twirl())


def _feel_all_round(bench: Bench) -> Bench:
    bench = _feel(bench)
    for turn in (a.TurnWheel(), a.TurnAxle()):
        bench = _feel(_do(bench, turn))
    bench = _do(bench, a.OpenClamp(), a.Rock())
    return _do(bench, a.TurnWheel(), a.Rock(), a.TurnWheel(), a.Rock())


def _set(bench: Bench) -> Bench:
    """Look, set, feel, correct; then into the frame where it is ridden, and the last word."""
    exercise = bench.exercise
    for question in exercise.questions:
        if question not in ("refuse", *AFTER_THE_LAST):
            bench = _answer(bench, question)
    bench = _put_right(_look(bench))
    if not is_sound(bench.secret, bench.hub):
        return _refuse(bench)
    for _ in range(MOST_ROUNDS):
        if bench.hub.lock is not None:
            bench = _feel(_clamp(bench))
            if _is_as_wanted(bench):
                break
        bench = _trim(bench) if bench.hub.seat == CONE_FREE else _lock(bench)
    bench = _into_the_frame(bench) if exercise.rides else bench
    for question in exercise.questions:
        if question in AFTER_THE_LAST:
            bench = _answer(bench, question)
    return _do(bench, a.Finish())


def _look(bench: Bench) -> Bench:
    """Look at what can be seen before the cone is touched, where the exercise is about that."""
    asked = {"protrusion first": "protrusion", "balls counted": "balls"}
    sights = [sight for must, sight in asked.items() if must in bench.exercise.must]
    return _do(bench, *(a.Look(sight) for sight in sights))  # type: ignore[arg-type]


def _put_right(bench: Bench) -> Bench:
    """Put right what can be put right at the bench, and look again."""
    secret, hub = bench.secret, bench.hub
    if secret.fault not in MENDED_BY or getattr(hub, MENDED_BY[secret.fault]):
        return bench
    if hub.lock is not None or hub.seat is not None:
        bench = _do(_unclamp(bench), a.HoldCone(), a.Undo())
    if secret.fault == "proud axle":
        return _do(bench, a.PutRight("axle"), a.Look("protrusion"))
    return _do(bench, a.PutRight("balls"), a.Look("balls"))


def _refuse(bench: Bench) -> Bench:
    """Feel what no setting cures, say why, and leave it."""
    if bench.hub.lock is not None:
        bench = _feel(_clamp(bench))
    elif bench.secret.fault == "thread worn out":
        bench = _do(bench, a.Wiggle())
    if "refuse" in bench.exercise.questions:
        bench = _answer(bench, "refuse")
    return _do(bench, a.Finish(refuse=True))


def _clamp(bench: Bench) -> Bench:
    """Close the clamp on the seat it has, by default on spacers, the axle free to be twirled."""
    if bench.hub.axle_held != "nothing":
        bench = _do(bench, a.HoldAxle("nothing"))
    if bench.hub.seat is None:
        bench = _do(bench, a.FitClamp("spacers on locknuts"))
    return bench if bench.hub.closed else _do(bench, a.CloseClamp())


def _unclamp(bench: Bench) -> Bench:
    if bench.hub.closed:
        bench = _do(bench, a.OpenClamp())
    return _do(bench, a.FitClamp(None)) if bench.hub.seat else bench


def _is_as_wanted(bench: Bench) -> bool:
    """Return whether it is right, and the cone was held as the exercise asks for."""
    lock = bench.hub.lock
    asked = "drift held" in bench.exercise.must
    held = lock is not None and bench.hub.locks > 0 and lock.turned_in < DRIFT_HELD
    return how_far_off(bench.secret, bench.hub) == 0.0 and (held or not asked)


def _wanted_turn(bench: Bench) -> float:
    """Return how far the cone has to be turned for the middle of the good range, outward [rad], as an eye sets it."""
    secret, hub = bench.secret, bench.hub
    off = window_for(secret, hub).target - settled_end_play(secret, hub)
    return round(off / secret.scenario.axle.lead_per_radian / EYE[True]) * EYE[True]


def _trim(bench: Bench) -> Bench:
    """Turn cone and locknut together, under a clamp that leaves both free."""
    turn = max(-MOST_TRIM, min(_wanted_turn(bench), MOST_TRIM))
    return _do(bench, a.HoldAxle("far spanners"), a.HoldCone(), a.Trim(turn))


def _lock(bench: Bench) -> Bench:
    """Set the loose cone from a pen line, and lock it with the cone held."""
    bench = _do(_unclamp(bench), a.HoldAxle("vice"))
    bench = bench if bench.hub.cone_held else _do(bench, a.HoldCone())
    bench = _do(bench, a.ScrewIn()) if bench.hub.lock is None else _do(_mark(bench), a.Undo())
    bench = _do(bench, a.TurnCone(bench.hub.shown + _wanted_turn(bench)))
    return _do(_mark(bench), a.Tighten(usual_effort(bench.secret)))


def _mark(bench: Bench) -> Bench:
    return bench if bench.hub.pen else _do(bench, a.Mark())


def _into_the_frame(bench: Bench) -> Bench:
    """Rock it open, put it in the frame, close the clamp, rock it again, connect the brake."""
    bench = _do(_unclamp(bench), a.Rock())
    for _ in range(MOST_ROUNDS):
        if "play felt open" not in bench.exercise.must or bench.hub.felt.rocked_open != "none":
            break
        bench = _do(bench, a.Rock())
    bench = _do(bench, a.FitClamp("dropouts"), a.CloseClamp(), a.Rock())
    return bench if bench.hub.brake_connected else _do(bench, a.Look("brake"), a.PutRight("brake"))


_WAYS: dict[str, Callable[[Bench], Bench]] = {"touch": _find_touch, "name": _name, "set": _set}
