"""The errors this package raises on purpose.

Everything a caller may want to catch descends from `ConemodelError`. Mistakes in what a person typed are
collected: one `InputProblems` carries every `Problem` found, so that a file is mended in one go.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeVar

from conemodel.base.plain_text import one_line

T = TypeVar("T")


class ConemodelError(Exception):
    """Any error raised on purpose by this package."""


class OutOfDomain(ConemodelError, ValueError):
    """A physical formula was asked for a value outside the range in which it means anything."""


class NotConverged(ConemodelError, ArithmeticError):
    """An equilibrium was not found; no number is handed on in its place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One mistake in what was given.

    Attributes:
        where: file and field, as the person who wrote it knows them, e.g. ``hub.toml:12: axle.bore_mm``.
        value: what was given, as text.
        limit: what would have been accepted, as a clause: ``must be above 0 mm``.
        remedy: what to do about it; may be empty.
    """

    where: str
    value: str
    limit: str
    remedy: str = ""

    def __str__(self) -> str:
        """Return the mistake as one line of plain words.

        >>> str(Problem(where="axle.bore_mm", value="-3", limit="must be above 0 mm"))
        'axle.bore_mm = -3: must be above 0 mm'
        """
        given = f" = {self.value}" if self.value else ""
        remedy = f" ({self.remedy})" if self.remedy else ""
        return one_line(f"{self.where}{given}: {self.limit}{remedy}")


class InputProblems(ConemodelError, ValueError):
    """What was given cannot be used. `problems` holds every mistake found, in the order of the file."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        """Keep all `problems` (at least one)."""
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


def run_all(works: Iterable[Callable[[], T]]) -> list[T]:
    """Run every one of `works` and return their results, so that the mistakes of all are reported together.

    Raises:
        InputProblems: the mistakes of all together.
    """
    found: list[T] = []
    problems: list[Problem] = []
    for work in works:
        try:
            found.append(work())
        except InputProblems as error:
            problems += error.problems
    if problems:
        raise InputProblems(problems)
    return found
