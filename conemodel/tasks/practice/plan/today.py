"""What is to be practised today, why, and how long it takes; a pure function of what was done and of the date."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from conemodel.parts.exercise import Exercise
from conemodel.tasks.practice.plan.bench_clock import Pace, pace_of
from conemodel.tasks.practice.plan.mixing import mix
from conemodel.tasks.practice.plan.spacing import Due, Round, by_exercise, due_after

MOST = 600.0
"""How long a day's hubs may take together [s]; one exercise comes however long it takes. Assumed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """One round of today.

    Attributes:
        exercise: name of its file; training: it is the coached round; hubs: how many they are.
        pace: how long each takes.
        due: since when it is due and what was missed, None where the exercise is new.
    """

    exercise: str
    training: bool
    hubs: int
    pace: Pace
    due: Due | None

    @property
    def seconds(self) -> float:
        """How long it takes [s]."""
        return self.hubs * self.pace.seconds


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """A day's practice.

    Attributes:
        day: which day.
        planned: every round of the day in order; left: those not done yet.
        waiting: names of exercises that are due too, but for which the day is too short.
        next_day: when the next exercise is due after today, or None.
    """

    day: date
    planned: tuple[Planned, ...]
    left: tuple[Planned, ...]
    waiting: tuple[str, ...]
    next_day: date | None

    @property
    def hubs(self) -> int:
        """How many hubs are left today."""
        return sum(one.hubs for one in self.left)

    @property
    def seconds(self) -> float:
        """How long they take [s]."""
        return sum(one.seconds for one in self.left)

    def next_after(self, exercise: str | None) -> Planned | None:
        """Return the next round after one of `exercise`: of another one while another is left; None if none is."""
        others = (one for one in self.left if one.exercise != exercise)
        return next(others, next(iter(self.left), None))


def plan_today(exercises: Mapping[str, Exercise], rounds: Sequence[Round], today: date) -> Today:
    """Return the practice of a day.

    What is due comes first, what was missed before the rest, then what has been due for longest; last a new exercise,
    the next of the ladder, and only while nothing is missed: as hard as one can just manage. What was missed and is
    one hub comes twice, coached and then assessed; what is new is coached. The rounds are mixed.

    The plan follows from what was done before today, so that it stays what it was while it is worked through; what
    is done today is struck off it.

    Args:
        exercises: the ladder by the names of its files, in order.
        rounds: what this person has done, oldest first; of other exercises too, which are left out.
        today: the day.

    Source: [Spruit2014] for spacing and adapted difficulty, [Sattelmayer2016] for mixed order
    """
    planable = {name: each for name, each in exercises.items() if each.number and each.assessed}
    known = [one for one in rounds if one.exercise in planable]
    before = [one for one in known if one.day < today]
    found = list(_candidates(planable, before, today))
    taken, waiting = _fit_in_day(found)
    planned = mix((each for group in taken for each in group), of=lambda one: one.exercise)
    done = [one for one in known if one.day == today]
    waits = [group[0].exercise for group in waiting if group[0].exercise not in by_exercise(done)]
    later = [each.day for each in _dues([*before, *done]) if each.day > today]
    return Today(
        day=today,
        planned=planned,
        left=_strike_off(planned, done),
        waiting=tuple(waits),
        next_day=min([*later, *([today + timedelta(1)] if waits else [])], default=None),
    )


def _dues(rounds: Sequence[Round]) -> list[Due]:
    """Return when each exercise is due, in the order in which they are to be done."""
    dues = [due_after(done) for done in by_exercise(rounds).values()]
    return sorted(dues, key=lambda due: (due.missed is None, due.day, due.exercise))


def _candidates(
    exercises: Mapping[str, Exercise], rounds: Sequence[Round], today: date
) -> Iterator[tuple[Planned, ...]]:
    """Yield the rounds of each exercise that is due or new, the most needed first."""
    dues = _dues(rounds)
    for due in dues:
        if due.day <= today:
            yield tuple(_rounds_of(exercises, due, rounds))
    tried = {due.exercise for due in dues}
    new = next((name for name in exercises if name not in tried), None)
    if new is not None and not any(due.missed for due in dues):
        pace = pace_of(new, exercises, rounds)
        yield (Planned(exercise=new, training=True, hubs=exercises[new].hubs, pace=pace, due=None),)


def _rounds_of(exercises: Mapping[str, Exercise], due: Due, rounds: Sequence[Round]) -> Iterator[Planned]:
    hubs, pace = exercises[due.exercise].hubs, pace_of(due.exercise, exercises, rounds)
    coached_first = due.missed is not None and hubs == 1
    for training in (True, False) if coached_first else (False,):
        yield Planned(exercise=due.exercise, training=training, hubs=hubs, pace=pace, due=due)


Group = tuple[Planned, ...]


def _fit_in_day(groups: Sequence[Group]) -> tuple[list[Group], list[Group]]:
    """Return what fits in a day, in order, and what has to wait; the first always fits, what is new never waits."""
    spent, taken, waiting = 0.0, list[Group](), list[Group]()
    for group in groups:
        needed = sum(one.seconds for one in group)
        if taken and spent + needed > MOST:
            waiting.append(group)
        else:
            taken.append(group)
            spent += needed
    return taken, [group for group in waiting if group[0].due is not None]


def _strike_off(planned: Sequence[Planned], done: Sequence[Round]) -> tuple[Planned, ...]:
    """Return the rounds that are left: each one done takes one of its exercise and kind away."""
    left = list(planned)
    for one in done:
        same = (p for p in left if (p.exercise, p.training) == (one.exercise, one.training))
        if (struck := next(same, None)) is not None:
            left.remove(struck)
    return tuple(left)
