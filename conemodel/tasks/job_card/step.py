"""One step of a job card: what it asks, what can be answered, and when it applies."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Literal

from conemodel.base.errors import Problem
from conemodel.base.plain_text import visible
from conemodel.base.units import ONE, Unit
from conemodel.parts.hub import SIDES
from conemodel.tasks.job_card.card import Card, Place, Value
from conemodel.tasks.wording import direction

Each = Literal["card", "side", "round"]

MOST_ROUNDS = 8
"""Most settings of the cone on one card: a hub that is not right by then has something else the matter. Judgement."""


def always(card: Card) -> bool:
    """Return that a step applies, whatever was answered."""
    return True


def when(step: str, *answers: str) -> Callable[[Card], bool]:
    """Return what tells whether a step that is asked once was answered by one of some answers."""
    return lambda card: card.answer(step) in answers


@dataclass(frozen=True, kw_only=True)
class Step:
    """A step.

    Attributes:
        name: in the record, never changed once released; words: as asked; hint: how, in a line, perhaps empty.
        each: asked once for the card, for each side, or for each round of setting the cone.
        applies: whether it is a step of this card at all.
        optional: a card is whole without it; written: by the program, and not asked.
        caution: said where the step is done, empty where there is none.
    """

    name: str
    words: str
    hint: str = ""
    each: Each = "card"
    applies: Callable[[Card], bool] = always
    optional: bool = False
    written: bool = False
    caution: str = ""

    def places(self, rounds: int) -> tuple[Place, ...]:
        """Return where it is answered on a card with so many rounds."""
        wheres = {"card": ("",), "side": SIDES, "round": tuple(str(number + 1) for number in range(rounds))}
        return tuple(Place(self.name, where) for where in wheres[self.each])

    def problems(self, value: Value, where: str = "") -> Iterator[Problem]:
        """Yield what is wrong with an answer at a place; None takes an answer back, and nothing is wrong with that."""
        if Place(self.name, where) not in self.places(MOST_ROUNDS):
            limits = {
                "card": "has no place",
                "side": "must be left or right",
                "round": f"must be 1 to {MOST_ROUNDS}",
            }
            yield Problem(where=f"{self.name}.where", value=visible(where), limit=limits[self.each])
        if value is not None and (limit := self.limit(value)):
            yield Problem(where=self.name, value=visible(str(value))[:60], limit=limit)

    def limit(self, value: str | int | float) -> str:
        """Return what an answer must be and is not, empty where nothing is wrong."""
        raise NotImplementedError

    def said(self, value: Value) -> str:
        """Return an answer in words, with its unit; empty for none."""
        return "" if value is None else str(value)


@dataclass(frozen=True, kw_only=True)
class Choice(Step):
    """One of several answers; `choices` are its words, which are also what is kept."""

    choices: tuple[str, ...]

    def limit(self, value: str | int | float) -> str:
        """Return the choices, where the answer is none of them."""
        return "" if value in self.choices else f"must be one of {', '.join(self.choices)}"


@dataclass(frozen=True, kw_only=True)
class Amount(Step):
    """A number, in `unit`, `least` to `most`, by steppers of `step`.

    A stepper begins at `usual` where nothing better is offered.
    """

    unit: Unit = ONE
    least: float
    most: float
    step: float
    usual: float | None = None

    @property
    def whole(self) -> bool:
        """Whether it is a count."""
        return self.step == 1 and self.unit is ONE

    def limit(self, value: str | int | float) -> str:
        """Return the range, where the answer is no number within it."""
        number = isinstance(value, int if self.whole else int | float) and not isinstance(value, bool)
        if number and self.least <= float(value) <= self.most:
            return ""
        kind = "whole number" if self.whole else "number"
        return f"must be a {kind} of {self.least:g} to {self.most:g} {self.unit.symbol}".rstrip()

    def said(self, value: Value) -> str:
        """Return a number with its unit; a turn of the cone by its way, out being above 0."""
        if value is None or isinstance(value, str):
            return value or ""
        if self.least >= 0 or value == 0:
            return f"{value:g} {self.unit.symbol}".rstrip()
        return f"{abs(value):g} {self.unit.symbol} {direction(value)}"


@dataclass(frozen=True, kw_only=True)
class Text(Step):
    """Free text of at most `longest` characters."""

    longest: int = 200

    def limit(self, value: str | int | float) -> str:
        """Return the length, where the answer is no text within it."""
        good = (
            isinstance(value, str) and 0 < len(value) <= self.longest and value.strip() and _is_whole(value)
        )
        return "" if good else f"must be text of 1 to {self.longest} characters"


def _is_whole(text: str) -> bool:
    """Return whether there is no half of a letter in a text: such a text cannot be shown or written to a file."""
    return not re.search("[\ud800-\udfff]", text)


@dataclass(frozen=True, kw_only=True)
class Day(Step):
    """A day, ISO 8601."""

    def limit(self, value: str | int | float) -> str:
        """Return how a day is written, where the answer is none."""
        wrong = "must be a day as 2026-03-31"
        if not isinstance(value, str) or not re.fullmatch(r"\d{4}-\d\d-\d\d", value):
            return wrong
        try:
            date.fromisoformat(value)
        except ValueError:
            return wrong
        return ""
