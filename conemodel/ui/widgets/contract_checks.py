"""Checks of what goes to the widgets: each yields the mistakes it finds."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import isfinite

from conemodel.base.errors import InputProblems, Problem


class Checked:
    """What refuses its own values: all the mistakes that `_problems` yields, at once."""

    __slots__ = ()

    def __post_init__(self) -> None:
        """Check the values.

        Raises:
            InputProblems: there is a mistake.
        """
        found = tuple(self._problems())
        if found:
            raise InputProblems(found)

    def _problems(self) -> Iterator[Problem]:
        raise NotImplementedError


def check_columns(where: str, *columns: Sequence[float], least: int) -> Iterator[Problem]:
    """Yield columns that are not of one length, are too short, or hold what is not finite."""
    lengths = sorted({len(column) for column in columns})
    if len(lengths) > 1 or lengths[0] < least:
        yield Problem(
            where=where, value=str(lengths), limit=f"must be columns of one length, {least} or more"
        )
    if not all(isfinite(value) for column in columns for value in column):
        yield Problem(where=where, value="", limit="must hold finite numbers only")


def check_rising(where: str, column: Sequence[float], *, strictly: bool = False) -> Iterator[Problem]:
    """Yield a column that falls; `strictly`, one that does not rise."""
    if any(b < a or (strictly and b == a) for a, b in pairwise(column)):
        yield Problem(where=where, value="", limit="must rise" if strictly else "must not fall")


def check_positive(where: str, **values: float) -> Iterator[Problem]:
    """Yield each value that is not finite and above 0."""
    for name, value in values.items():
        if not (isfinite(value) and value > 0):
            yield Problem(where=f"{where}.{name}", value=str(value), limit="must be above 0")


def check_not_negative(where: str, **values: float) -> Iterator[Problem]:
    """Yield each value that is not finite or below 0."""
    for name, value in values.items():
        if not (isfinite(value) and value >= 0):
            yield Problem(where=f"{where}.{name}", value=str(value), limit="must not be below 0")


def check_share(where: str, value: float) -> Iterator[Problem]:
    """Yield a value that is not between 0 and 1."""
    if not 0 <= value <= 1:
        yield Problem(where=where, value=str(value), limit="must lie between 0 and 1")
