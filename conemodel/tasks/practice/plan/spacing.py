"""When an exercise comes up again: 1, 3 or 10 days later, by what was missed."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

DAYS = (1, 3, 10)
"""Days until an exercise comes again: after it was missed, was right once, was right again [d].

That practice in sittings with pauses between them holds better than the same practice in one is the review's finding,
[Spruit2014]; these three pauses are nobody's measurement but the choice of those this is made for.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """One exercise, done once.

    Attributes:
        exercise: name of its file; day: when, where the trainee is.
        passed: as marked; training: it was the coached round; stage: where it went wrong.
        hubs: how many they were; seconds: how long they took together [s], None where that is not known.
    """

    exercise: str
    day: date
    passed: bool
    training: bool = False
    stage: str = "none"
    hubs: int = 1
    seconds: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """When an exercise comes again.

    Attributes:
        exercise: name of its file; day: on which it is due, or since when.
        rights: how often in a row it was right when it was due, assessed, at most as often as there are pauses for.
        missed: the stage it went wrong in, if it was missed last, else None.
    """

    exercise: str
    day: date
    rights: int
    missed: str | None


def due_after(rounds: Sequence[Round]) -> Due:
    """Return when an exercise comes again after these rounds of it, not empty, oldest first.

    Missed, coached or not, it comes again the next day. Right in an assessed round it comes after three days, right
    again when it was due after ten. Right before it was due it stays due when it was: it is the pause that is tested. A
    coached round that was right says no more than that an assessed one may follow.

    Source: [Spruit2014] for pauses between sittings; their lengths are a choice (`DAYS`).

    >>> first = Round(exercise="04-locknut", day=date(2026, 3, 1), passed=True)
    >>> str(due_after([first]).day)
    '2026-03-04'
    """
    state = _State(day=rounds[0].day, rights=0, missed=None)
    for one in rounds:
        state = _after(state, one)
    return Due(exercise=rounds[0].exercise, day=state.day, rights=state.rights, missed=state.missed)


@dataclass(frozen=True, slots=True, kw_only=True)
class _State:
    """What is so after some rounds of an exercise, as in `Due`."""

    day: date
    rights: int
    missed: str | None


def _after(before: _State, one: Round) -> _State:
    if not one.passed:
        return _State(day=one.day + timedelta(DAYS[0]), rights=0, missed=one.stage)
    fresh = before.rights == 0 and before.missed is None
    if one.training:
        return _State(day=one.day + timedelta(DAYS[0]), rights=0, missed=None) if fresh else before
    if one.day < before.day and not fresh:
        return before
    rights = min(before.rights + 1, len(DAYS) - 1)
    return _State(day=one.day + timedelta(DAYS[rights]), rights=rights, missed=None)


def by_exercise(rounds: Sequence[Round]) -> dict[str, list[Round]]:
    """Return rounds, oldest first, by the exercise they were of."""
    found: dict[str, list[Round]] = {}
    for one in rounds:
        found.setdefault(one.exercise, []).append(one)
    return found
