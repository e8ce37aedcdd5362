"""Scripted players at the bench. None of them looks at a hidden number, but for the one called the oracle."""

from collections.abc import Callable
from math import radians

from conemodel.tasks.practice.actions import (
    Answer,
    CloseClamp,
    Finish,
    FitClamp,
    HoldAxle,
    HoldCone,
    Look,
    Mark,
    OpenClamp,
    PutRight,
    Rock,
    ScrewIn,
    Take,
    Tighten,
    Trim,
    TurnCone,
    TurnWheel,
    Undo,
    Wiggle,
)
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice.hands import do, feel, known, lead, said

WANTED = -5e-6
"""Where a careful player aims [m]: the middle of the good range of such hubs, as anyone can compute it."""

USUAL_DRIFT = radians(3)
"""How far a held cone is known to turn in [rad]."""

UNEVEN = 1.01
"""Ratio of the most to the least play round the wheel from which a hand that felt each often calls it uneven."""

FAR, STILL_FELT = 70e-6, 25e-6
"""Play beyond which it is brought in by halves, and where to [m]."""

Player = Callable[[Bench], Bench]


def lock(bench: Bench, effort: str = "firm") -> Bench:
    return do(bench, HoldCone(), Tighten(effort))  # type: ignore[arg-type]


def judge(bench: Bench) -> tuple[Bench, float]:
    """Clamp on spacers, rock and twirl; the correction that seems needed [m], 0 if it feels right."""
    seat = bench.hub.seat
    if not bench.hub.closed:
        bench = do(bench, HoldAxle("nothing"))
        if seat is None:
            bench = do(bench, FitClamp("spacers on locknuts"))
        bench = do(bench, CloseClamp())
    bench, hand = feel(bench)
    if hand.loose:
        loose = hand.end_play
        # from far out, first to where play can still be felt: a small one is felt more exactly
        return bench, (STILL_FELT if loose > FAR else WANTED) - loose
    return bench, radians(9) * lead(bench) if hand.stiff else 0.0


def unclamp(bench: Bench) -> Bench:
    if bench.hub.closed:
        bench = do(bench, OpenClamp())
    if bench.hub.seat is not None:
        bench = do(bench, FitClamp(None))
    return do(bench, HoldAxle("vice"))


def adjust(bench: Bench, *, out: float, effort: str = "firm", locks: int = 4) -> Bench:
    """From loosely put together: finger tight, well out, lock, clamp, feel, correct from there."""
    bench = do(bench, HoldAxle("vice"), ScrewIn())
    bench = do(bench, TurnCone(bench.hub.shown + radians(out)), Mark())
    before = bench.hub.shown
    return correct(lock(bench, effort), effort=effort, locks=locks - 1, before=before)


def correct(
    bench: Bench, *, effort: str = "firm", locks: int = 3, first: float = 0.0, before: float | None = None
) -> Bench:
    """Feel, and correct from where the cone stood before it was locked, until it feels right.

    `before` is that place on the clock [rad], None where someone else locked it; `first` the first step out if
    tight [rad].
    """
    for _ in range(locks):
        bench, wanted = judge(bench)
        if wanted == 0.0 and "clearly" not in last_lock(bench):
            return bench
        if wanted > 0.0 and first:
            wanted, first = first * lead(bench), 0.0
        bench = unclamp(bench)
        bench = do(bench, HoldCone(), Undo())
        if not bench.hub.pen:
            bench = do(bench, Mark())
        if before is None:
            before = bench.hub.shown + USUAL_DRIFT
        before += wanted / lead(bench)
        bench = lock(do(bench, TurnCone(before)), effort)
    return judge(bench)[0]


def last_lock(bench: Bench) -> str:
    told = [event.told for event in bench.log if event.kind == "Tighten" and event.hub == bench.current]
    wants = "drift held" in bench.exercise.must
    return told[-1] if told and wants else ""


def into_the_frame(bench: Bench) -> Bench:
    bench = do(bench, OpenClamp())
    if bench.hub.seat is not None:
        bench = do(bench, FitClamp(None))
    return do(bench, Rock(), HoldAxle("nothing"), FitClamp("dropouts"), CloseClamp(), Rock())


def careful(bench: Bench) -> Bench:
    """Play any exercise of the ladder by what hands, eyes and ears are told."""
    play = {"touch": _touch, "name": _name}.get(bench.exercise.kind, _set)
    for hub in range(len(bench.hubs)):
        bench = play(do(bench, Take(hub)))
    return bench


def _touch(bench: Bench) -> Bench:
    bench = do(bench, HoldAxle("vice"))
    while "freely" in said(bench) or bench.log[-1].kind != "TurnCone":
        bench = do(bench, TurnCone(bench.hub.shown - radians(5)))
    return do(bench, Finish())


def _name(bench: Bench) -> Bench:
    question = bench.exercise.questions[0]
    if question == "flex":
        bench, hand = feel(bench, twirl=False)
        return do(bench, Answer("flex", "play" if hand.loose else "flex"))
    bench, hand = feel(bench)
    if question == "name":
        return do(bench, Answer("name", hand.says))
    bench, uneven = _all_round(do(bench, OpenClamp()))
    cues = {"scratchy": "dry grease", "every turn": "bent axle", "notchy": "dents", "": "only the adjustment"}
    fault = next(fault for cue, fault in cues.items() if hand.found(cue))
    return do(bench, Answer("fault", "odd ball" if uneven and fault == "only the adjustment" else fault))


def _all_round(bench: Bench) -> tuple[Bench, bool]:
    """Rock a hub that has play in eight positions of the wheel; whether it has more in one than in another."""
    felt = []
    for _ in range(8):
        bench, hand = feel(bench, twirl=False)
        felt.append(hand.play)
        bench = do(bench, TurnWheel())
    return bench, max(felt) > UNEVEN * min(felt)


def _set(bench: Bench) -> Bench:
    exercise = bench.exercise
    if exercise.seat == "spacer on axle end":
        return do(_trim(bench), Finish())
    bench = _before(bench)
    if bench.hub.done is not None:
        return bench
    if bench.hub.lock is not None:
        bench = do(bench, Mark())
        by_drift = "why" in exercise.questions
        bench = correct(bench, first=radians(44 if by_drift else 33), locks=8 if by_drift else 2)
    else:
        far = 150.0 if exercise.last_differs else 115.0
        effort = "hard" if known(exercise.scenario).clamp.kind == "nuts" else "firm"
        bench = adjust(bench, out=far, effort=effort, locks=exercise.most_locks or 4)
    if exercise.rides:
        bench = into_the_frame(bench)
    if exercise.brake_loose:
        bench = do(bench, Look("brake"), PutRight("brake"), Answer("recheck", RECHECK))
    return do(bench, Finish())


RECHECK = "after the first ride and within about 100 km"


def _before(bench: Bench) -> Bench:
    """What is done before the cone is touched."""
    exercise = bench.exercise
    if "foretell" in exercise.questions:
        bench = do(bench, Answer("foretell", "tighter"))
    if "why" in exercise.questions:
        bench = do(bench, Answer("why", "the cone turned in with the locknut"))
    if "refuse" in exercise.questions:
        bench = do(bench, Wiggle())
        if "rattles" in said(bench):
            return do(bench, Answer("refuse", "the thread is worn out"), Finish(refuse=True))
    if "protrusion first" in exercise.must:
        bench = do(bench, Look("protrusion"))
        if "past" in said(bench):
            bench = do(bench, PutRight("axle"), Look("protrusion"))
        bench = do(bench, Look("balls"))
        if not said(bench).startswith("9 on the left, 9 on the right"):
            bench = do(bench, PutRight("balls"), Look("balls"))
    return bench


def _trim(bench: Bench) -> Bench:
    bench, wanted = judge(bench)
    if wanted == 0.0:
        return bench
    turn = radians(12) if wanted > 0 else max(wanted / lead(bench), -radians(12))
    bench = do(bench, HoldAxle("far spanners"), HoldCone(), Trim(turn))
    return judge(bench)[0]


def quarter_turn(bench: Bench) -> Bench:
    """Back off a quarter turn from finger tight, whatever the hub; check as taught, but never correct."""
    answers = {"foretell": "tighter", "why": "the cone turned in with the locknut"}
    for word, answer in answers.items():
        if word in bench.exercise.questions:
            bench = do(bench, Answer(word, answer))
    bench = do(bench, Mark())
    if bench.hub.closed:
        bench = do(bench, OpenClamp(), FitClamp(None))
    bench = do(bench, HoldAxle("vice"))
    if bench.hub.lock is not None:
        bench = do(bench, HoldCone(), Undo())
    bench = do(bench, ScrewIn())
    bench = lock(do(bench, TurnCone(bench.hub.shown + radians(90))))
    bench, _ = judge(bench)
    if bench.exercise.rides:
        bench = into_the_frame(bench)
    return do(bench, Finish())
