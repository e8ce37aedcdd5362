"""Marking: where each hub ended, in which stage it went wrong, and what was done on the way."""

from collections.abc import Iterator
from dataclasses import dataclass

from conemodel.base.units import DEG
from conemodel.parts.exercise import Exercise
from conemodel.solve.stages import Term
from conemodel.tasks.bench.can import MOVES_CONE
from conemodel.tasks.bench.feel import rock_feel
from conemodel.tasks.bench.fingers import END_PLAY_STEP
from conemodel.tasks.bench.hints import hint_on
from conemodel.tasks.bench.state import (
    Bench,
    HiddenHub,
    HubState,
    clamp_of,
    end_play_of,
    in_frame,
    terms_of,
    window_for,
)
from conemodel.tasks.bench.stray import Stage, stage_of
from conemodel.tasks.verdict import State
from conemodel.tasks.window import Window

MOVES = (*(kind.__name__ for kind in MOVES_CONE), "TakeBack")
"""Names of the moves that can shift the cone; taking one back is one more."""

DRIFT_HELD = DEG.to_si(5.0)
"""Turn of the cone at locking below which it was held [rad]."""

RIGHT_ANSWERS = {
    "foretell": "tighter",
    "why": "the cone turned in with the locknut",
    "refuse": "the thread is worn out",
    "recheck": "after the first ride and within about 100 km",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One thing that had to be: stable name, words, and whether it was."""

    name: str
    label: str
    passed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class HubMark:
    """One hub marked.

    Attributes:
        hub: its number, from 0; passed: everything that had to be was.
        state: loose, right or tight, closed in the frame; said: the word the trainee gave it, or None.
        end_play: closed in the frame [m]; window: the good range; terms: what end play is made of.
        off_by: how far outside the good range it is [m], positive loose, negative tight, 0 inside.
        off_turn: the same as a turn of the cone [rad].
        stage: where it went wrong: touch, slack, drift, clamp, not checked; judged; none.
        unchecked: it was not rocked clamped, or not twirled, since the cone was last moved.
        critical: reasons it must never be ridden like this; empty if none.
        checks: everything that was looked at; locks, moves: how often; hint: one sentence.
    """

    hub: int
    passed: bool
    state: State
    said: str | None
    end_play: float
    window: Window
    terms: tuple[Term, ...]
    off_by: float
    off_turn: float
    stage: Stage
    unchecked: bool
    critical: tuple[str, ...]
    checks: tuple[Check, ...]
    locks: int
    moves: int
    hint: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """An exercise marked.

    Attributes:
        passed: enough hubs are right, nothing critical.
        hubs: each hub's mark; right: how many passed, of `needed`.
        false_right: hubs called right that are not; false_wrong: right ones called something else.
        unchecked: some hub was not checked; critical: everything critical.
        stage: of the first hub that went wrong, or none; hint: the most useful one.
        locks, moves: of all hubs together, what was taken back included.
        rank: smaller is better: critical, hubs wrong, checks failed, locks, moves.
    """

    passed: bool
    hubs: tuple[HubMark, ...]
    right: int
    needed: int
    false_right: int
    false_wrong: int
    unchecked: bool
    critical: tuple[str, ...]
    stage: Stage
    hint: str
    locks: int
    moves: int
    rank: tuple[int, int, int, int, int]


def mark(bench: Bench) -> Mark:
    """Return the mark of an exercise as it stands; a pure function of the bench."""
    hubs = tuple(_hub_mark(bench, number) for number in range(len(bench.hubs)))
    right = sum(hub.passed for hub in hubs)
    critical = tuple(reason for hub in hubs for reason in hub.critical)
    wrong = [hub for hub in hubs if not hub.passed]
    locks, moves = sum(hub.locks for hub in hubs), sum(hub.moves for hub in hubs)
    called = [(hub.said, _true_name(bench.hidden[hub.hub])) for hub in hubs if hub.said is not None]
    # a right hub said to be done may still have missed a check: that is no false word about the hub
    tight_as_right = any(said == "right" and true == "tight" for said, true in called)
    failed = sum(not check.passed for hub in hubs for check in hub.checks)
    return Mark(
        passed=right >= bench.exercise.needed and not critical and not tight_as_right,
        hubs=hubs,
        right=right,
        needed=bench.exercise.needed,
        false_right=sum(said == "right" != true for said, true in called),
        false_wrong=sum(true == "right" != said for said, true in called),
        unchecked=any(hub.unchecked for hub in hubs),
        critical=critical,
        stage=wrong[0].stage if wrong else "none",
        hint=(wrong or hubs)[0].hint,
        locks=locks,
        moves=moves,
        rank=(len(critical), len(wrong), failed, locks, moves),
    )


def _true_name(secret: HiddenHub) -> str:
    return secret.state


def _hub_mark(bench: Bench, number: int) -> HubMark:
    """Return the mark of one hub."""
    exercise, secret, hub = bench.exercise, bench.hidden[number], bench.hubs[number]
    framed = hub if exercise.kind == "touch" else in_frame(secret, hub)
    window, end = window_for(secret, hub), end_play_of(secret, framed)
    off = end - window.loose_edge if end > window.loose_edge else min(end - window.tight_edge, 0.0)
    off = 0.0 if abs(off) <= END_PLAY_STEP / 2 else off  # no finer than what is felt
    events = [event for event in bench.log if event.hub == number and not event.refused]
    locks = sum(event.kind == "Tighten" for event in events)
    moves = sum(event.kind in MOVES for event in events)
    critical = tuple(_critical(exercise, secret, hub)) if hub.done == "done" else ()
    checks = tuple(_checks(exercise, secret, hub, off=off, locks=locks, moves=moves))
    unchecked = hub.felt.rocked_clamped is None or not hub.felt.twirled
    passed = hub.done is not None and all(check.passed for check in checks) and not critical
    stage = stage_of(exercise, secret, hub, off=off, passed=passed, unchecked=unchecked)
    return HubMark(
        hub=number,
        passed=passed,
        state="right" if off == 0.0 else "loose" if off > 0.0 else "tight",
        said=hub.answer("name"),
        end_play=end,
        window=window,
        terms=terms_of(secret, framed),
        off_by=off,
        off_turn=off / secret.scenario.axle.lead_per_radian,
        stage=stage,
        unchecked=unchecked,
        critical=critical,
        checks=checks,
        locks=locks,
        moves=moves,
        hint=hint_on(secret, framed, stage=stage, off=off, critical=critical),
    )


def _checks(
    exercise: Exercise, secret: HiddenHub, hub: HubState, *, off: float, locks: int, moves: int
) -> Iterator[Check]:
    """Yield everything that had to be on one hub."""
    for question in exercise.questions:
        if question == "refuse" and secret.fault != "thread worn out":
            continue
        right = hub.answer(question) == right_answer(secret, question)
        yield Check(name=question, label="the answer is right", passed=right)
    yield from _musts(exercise, secret, hub, locks)
    if exercise.kind == "name":
        return
    if exercise.kind == "touch":
        near = abs(hub.cone) <= exercise.touch_within * secret.scenario.axle.lead_per_radian
        yield Check(name="touch", label="the cone stands at first touch", passed=near)
        return
    worn_out = secret.fault == "thread worn out"
    refused = hub.done == "refuse"
    yield Check(
        name="refused", label="refused if, and only if, it cannot be adjusted", passed=worn_out == refused
    )
    if worn_out:
        return
    yield Check(name="range", label="ends in the good range, clamped", passed=off == 0.0)
    yield Check(name="locked", label="the locknut is tight", passed=hub.lock is not None)
    clamped = hub.felt.rocked_clamped is not None
    yield Check(name="clamped", label="rocked clamped after the last move", passed=clamped)
    yield Check(name="twirled", label="twirled a full turn after the last move", passed=hub.felt.twirled)
    if exercise.most_locks is not None:
        enough = locks <= exercise.most_locks
        yield Check(name="locks", label=f"locked at most {exercise.most_locks} times", passed=enough)
    if exercise.most_moves is not None:
        enough = moves <= exercise.most_moves
        yield Check(name="moves", label=f"at most {exercise.most_moves} moves of the cone", passed=enough)
    if secret.start.lock is not None and _was_right(secret):
        yield Check(name="left alone", label="what is right was left alone", passed=moves == 0)


def _was_right(secret: HiddenHub) -> bool:
    """Return whether the hub was right as it came to the bench."""
    end = end_play_of(secret, in_frame(secret, secret.start))
    return window_for(secret, secret.start).state(end) == "right"


def _musts(exercise: Exercise, secret: HiddenHub, hub: HubState, locks: int) -> Iterator[Check]:
    """Yield what the exercise asks for besides."""
    marked = hub.marked_at is not None and hub.locks - hub.marked_at <= 2
    drift = hub.lock is not None and hub.lock.turned_in < DRIFT_HELD
    in_time = "protrusion" in hub.seen and (secret.fault != "proud axle" or hub.axle_changed)
    found = {
        "play felt open": ("play was felt before clamping", hub.felt.rocked_open not in (None, "none")),
        "drift held": ("the cone hardly turned in at the last locking", drift and locks > 0),
        "three positions": ("felt in at least three positions", len(hub.positions) >= 3),
        "from the mark": ("set from a pen mark in at most two lockings", marked),
        "protrusion first": ("the axle's protrusion was looked at and is right", in_time),
        "balls counted": ("the balls were counted and are all there", _counted(secret, hub)),
    }
    for name in exercise.must:
        label, passed = found[name]
        yield Check(name=name, label=label, passed=passed)


def _counted(secret: HiddenHub, hub: HubState) -> bool:
    return "balls" in hub.seen and (secret.fault != "ball missing" or hub.balls_made_up)


def right_answer(secret: HiddenHub, question: str) -> str:
    """Return the right answer to a question about a hub."""
    if question == "name":
        return secret.state
    if question == "flex":
        return "play" if secret.state == "loose" else "flex"
    if question == "fault":
        return "only the adjustment" if secret.fault == "none" else secret.fault
    return RIGHT_ANSWERS[question]


def _critical(exercise: Exercise, secret: HiddenHub, hub: HubState) -> Iterator[str]:
    """Yield why a hub said to be done must not be ridden as it is; only where the exercise ends in riding."""
    if not exercise.rides:
        return
    scenario = secret.now(hub)
    if clamp_of(scenario, "dropouts", scenario.setting.lock_torque).proud:
        yield "the axle stands proud of the dropout: the wheel can come out"
    if hub.seat != "dropouts" or not hub.closed:
        yield "the wheel is not clamped in the frame: the wheel can come out"
    if hub.lock is None:
        yield "the locknut is loose: the cone turns as the wheel does"
    if rock_feel(secret, in_frame(secret, hub), "rim").word != "none":
        yield "the wheel has play when clamped"
    if not hub.brake_connected:
        yield "the brake is not connected"
