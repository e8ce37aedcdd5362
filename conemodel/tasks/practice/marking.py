"""Marking: where each hub ended, in which stage it went wrong, and what was done on the way."""

from dataclasses import dataclass
from itertools import pairwise

from conemodel.parts.exercise import Exercise
from conemodel.parts.setting import State
from conemodel.solve.stages.terms import Term
from conemodel.tasks.headline import Headline
from conemodel.tasks.practice.actions import ACTIONS, TakeBack
from conemodel.tasks.practice.criteria import Criterion, checks_of, critical_reasons, touch_within
from conemodel.tasks.practice.error_stage import ErrorStage
from conemodel.tasks.practice.hints import hint_on
from conemodel.tasks.practice.history import History
from conemodel.tasks.practice.hub_headline import hub_headline
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame, terms_of, window_for
from conemodel.tasks.practice.outcome import how_far_from_touch, how_far_off, state_as_it_came, state_off
from conemodel.tasks.practice.session import Bench, Event, HiddenHub, HubState
from conemodel.tasks.setting.good_range import Window

MOVES = (*(name for name, kind in ACTIONS.items() if kind.moves_cone), TakeBack.__name__)
"""Names of the moves that can shift the cone; taking one back is one more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HubMark:
    """One hub marked.

    Attributes:
        hub: its number, from 0; passed: everything that had to be was.
        state: loose, right or tight, closed in the frame; said: the word the trainee gave it, or None.
        end_play: closed in the frame [m]; window: the good range; terms: what end play is made of.
        off_by: how far outside the good range it is, or from first touch where that is asked [m]: positive loose,
            negative tight, 0 where no careful hand could tell.
        off_turn: the same as a turn of the cone [rad].
        headline: what it was, in the order of the three questions: safe, sound, adjustment.
        stage: where it went wrong: touch, slack, drift, clamp, not checked; judged; none.
        unchecked: it was not rocked, or not twirled, clamped since the cone was last moved.
        critical: reasons it must never be ridden like this; empty if none.
        checks: everything that was looked at; locks, moves: how often something was moved; hint: one sentence.
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
    headline: Headline
    stage: ErrorStage
    unchecked: bool
    critical: tuple[str, ...]
    checks: tuple[Criterion, ...]
    locks: int
    moves: int
    hint: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseMark:
    """An exercise marked.

    Attributes:
        passed: enough hubs are right, nothing critical.
        hubs: each hub's mark; right: how many passed, of `needed`.
        false_right: hubs called right that are not; false_wrong: right ones called something else.
        tight_as_right: numbers of tight hubs that were called right: no number of right ones makes up for that.
        unchecked: some hub was not checked; critical: everything critical.
        stage: of the worst hub, or none: what is critical, then, of hubs that were done, tight called right, then what
            is farthest off; hint: the one on it, or empty.
        locks, moves: of all hubs together, what was taken back included.
        worded: what hands feel was told in words, as was asked for.
        rank: smaller is better: critical, hubs wrong, checks failed, locks, moves.
    """

    passed: bool
    hubs: tuple[HubMark, ...]
    right: int
    needed: int
    false_right: int
    false_wrong: int
    tight_as_right: tuple[int, ...]
    unchecked: bool
    critical: tuple[str, ...]
    stage: ErrorStage
    hint: str
    locks: int
    moves: int
    worded: bool
    rank: tuple[int, int, int, int, int]

    @property
    def verdict(self) -> str:
        """Whether it passed, in the largest words: a pass with words is another one than a pass by feel alone."""
        if not self.passed:
            return "Not yet: a tight hub was called right" if self.tight_as_right else "Not yet"
        return "Passed, told in words" if self.worded else "Passed"


def mark(bench: Bench) -> ExerciseMark:
    """Return the mark of an exercise as it stands; a pure function of the bench."""
    hubs = tuple(_hub_mark(bench, number) for number in range(len(bench.hubs)))
    right = sum(hub.passed for hub in hubs)
    critical = tuple(reason for hub in hubs for reason in hub.critical)
    locks, moves = sum(hub.locks for hub in hubs), sum(hub.moves for hub in hubs)
    # a right hub said to be done may still have missed a check: that is no false word about the hub
    called = [
        (hub.said, state_as_it_came(bench.hidden[hub.hub]), hub.hub) for hub in hubs if hub.said is not None
    ]
    tight_as_right = tuple(number for said, true, number in called if said == "right" and true == "tight")
    wrong = sorted(
        (hub for hub in hubs if not hub.passed),
        key=lambda hub: (
            not hub.critical,
            bench.hubs[hub.hub].done is None,
            hub.hub not in tight_as_right,
            -abs(hub.off_turn),
        ),
    )
    failed = sum(not check.passed for hub in hubs for check in hub.checks)
    return ExerciseMark(
        passed=right >= bench.exercise.needed and not critical and not tight_as_right,
        hubs=hubs,
        right=right,
        needed=bench.exercise.needed,
        false_right=sum(said == "right" != true for said, true, _ in called),
        false_wrong=sum(true == "right" != said for said, true, _ in called),
        tight_as_right=tight_as_right,
        unchecked=any(hub.unchecked for hub in hubs),
        critical=critical,
        stage=wrong[0].stage if wrong else "none",
        hint=_first_hint((wrong or hubs)[0], bench.exercise, of=len(hubs)),
        locks=locks,
        moves=moves,
        worded=any(event.kind == "InWords" for event in bench.log),
        rank=(len(critical), len(wrong), failed, locks, moves),
    )


def _first_hint(hub: HubMark, exercise: Exercise, *, of: int) -> str:
    """Return the hint of the hub that matters first, and which it was where there were several.

    It is empty where that was named as it was, and sound: the headline has said all of it.
    """
    if exercise.kind == "name" and hub.passed and hub.headline.question == "adjustment":
        return ""
    return hub.hint if of == 1 else f"Hub {hub.hub + 1}: {hub.hint}"


def _how_far_off(exercise: Exercise, secret: HiddenHub, hub: HubState) -> float:
    if exercise.kind != "touch":
        return how_far_off(secret, hub)
    return how_far_from_touch(hub, within=touch_within(exercise) * secret.scenario.axle.lead_per_radian)


def _count_moves(secret: HiddenHub, events: tuple[Event, ...]) -> int:
    """Return how many acts moved cone or locknut: one that left everything where it stood does not count."""
    states = (secret.start, *(event.after or secret.start for event in events))
    moved = (after.setting != before.setting for before, after in pairwise(states))
    return sum(event.kind in MOVES and changed for event, changed in zip(events, moved, strict=True))


def _hub_mark(bench: Bench, number: int) -> HubMark:
    """Return the mark of one hub."""
    exercise, secret, hub = bench.exercise, bench.hidden[number], bench.hubs[number]
    framed = hub if exercise.kind == "touch" else in_frame(secret, hub)
    off = _how_far_off(exercise, secret, hub)
    events = tuple(event for event in bench.log if event.hub == number and not event.refused)
    locks = sum(event.kind == "Tighten" for event in events)
    moves = _count_moves(secret, events)
    critical = tuple(critical_reasons(exercise, secret, hub, off=off)) if hub.done == "done" else ()
    checks = tuple(checks_of(exercise, secret, hub, off=off, locks=locks, moves=moves))
    passed = hub.done is not None and all(check.passed for check in checks) and not critical
    history = History(
        exercise=exercise,
        secret=secret,
        hub=hub,
        events=tuple(event for event in events if not event.undone),
        off=off,
        missed=tuple(check.name for check in checks if not check.passed),
        locks=locks,
        moves=moves,
    )
    stage, hint = hint_on(history, critical=critical, passed=passed)
    return HubMark(
        hub=number,
        passed=passed,
        state=state_off(off),
        said=hub.answer("name"),
        end_play=end_play_of(secret, framed),
        window=window_for(secret, hub),
        terms=terms_of(secret, framed),
        off_by=off,
        off_turn=off / secret.scenario.axle.lead_per_radian,
        headline=hub_headline(exercise, secret, hub, off=off, critical=critical),
        stage=stage,
        unchecked=hub.felt.rocked_clamped is None or hub.felt.twirled_clamped is None,
        critical=critical,
        checks=checks,
        locks=locks,
        moves=moves,
        hint=hint,
    )
