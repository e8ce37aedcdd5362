"""One job card: a hub in hand, and every answer given of it, the later ones beside those they correct."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

Value = str | int | float | None
"""An answer, in everyday units; None where it was taken back."""


class Place(NamedTuple):
    """Where an answer stands: the name of its step, and `where` on it, a side or a round, or empty."""

    step: str
    where: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One answer, as it was given.

    Attributes:
        at: when, UTC, ISO 8601; by: the mechanic, as typed, None where no name was.
        place: of the answer; value: the answer.
    """

    at: str
    by: str | None
    place: Place
    value: Value


@dataclass(frozen=True, kw_only=True)
class Card:
    """A job card. Nothing on it is ever changed: an answer given again is added.

    Attributes:
        id: a random word of its own, on any machine; begun_at: when, UTC, ISO 8601.
        entries: every answer, in the order in which it was given.
    """

    id: str
    begun_at: str
    entries: tuple[Entry, ...] = ()

    @cached_property
    def answers(self) -> Mapping[Place, Value]:
        """The answer that stands, by its place; one that was taken back is not there."""
        last = {entry.place: entry.value for entry in self.entries}
        return {place: value for place, value in last.items() if value is not None}

    def answer(self, step: str, where: str = "") -> Value:
        """Return the answer that stands at a place, None where there is none."""
        return self.answers.get(Place(step, where))

    def text(self, step: str, where: str = "") -> str:
        """Return the same as text, empty where there is none."""
        value = self.answer(step, where)
        return "" if value is None else str(value)

    def corrected(self, step: str, where: str = "") -> tuple[Entry, ...]:
        """Return every answer given at a place, in order."""
        return tuple(entry for entry in self.entries if entry.place == Place(step, where))

    def with_entry(self, entry: Entry) -> "Card":
        """Return the card with one more answer."""
        return replace(self, entries=(*self.entries, entry))
