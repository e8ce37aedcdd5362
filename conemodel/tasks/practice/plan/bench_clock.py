"""How long a hub takes: counted at the bench, then told from a person's own hubs."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from statistics import median

from conemodel.parts.exercise import Exercise, Kind
from conemodel.tasks.practice.plan.spacing import Round

LONGEST_PAUSE = 60.0
"""Most that counts between two acts [s]: whoever is away longer is not at the bench. Assumed."""

ASSUMED: dict[Kind, float] = {"touch": 60.0, "name": 40.0, "set": 150.0}
"""How long a hub takes somebody who has not done any yet, by what is asked of it [s]. Assumed, no source."""


@dataclass(frozen=True, slots=True)
class BenchClock:
    """Time spent on an exercise so far [s], and when it was last counted [s], None before the first act."""

    spent: float = 0.0
    last: float | None = None

    def at(self, now: float) -> "BenchClock":
        """Return the clock at a time [s] that does not run back.

        >>> BenchClock().at(100.0).at(130.0).at(1000.0).spent
        90.0
        """
        more = 0.0 if self.last is None else min(now - self.last, LONGEST_PAUSE)
        return replace(self, spent=self.spent + more, last=now)


@dataclass(frozen=True, slots=True)
class Pace:
    """How long one hub takes [s]; own: it is the median of this person's hubs, not an assumption."""

    seconds: float
    own: bool


def pace_of(name: str, exercises: Mapping[str, Exercise], rounds: Iterable[Round]) -> Pace:
    """Return how long a hub of the exercise of that name takes a person who has done these rounds.

    It is the median over this exercise; before it was done, over all of its kind; before any was, an assumption. The
    median, so that one interrupted hub says little.
    """
    kind = exercises[name].kind
    timed = [
        (one.exercise, one.seconds / one.hubs)
        for one in rounds
        if one.seconds is not None and one.exercise in exercises and exercises[one.exercise].kind == kind
    ]
    found = [each for exercise, each in timed if exercise == name] or [each for _, each in timed]
    return Pace(median(found), own=True) if found else Pace(ASSUMED[kind], own=False)
