"""The workshop's half of a printed job card: a row for each step that applies, a line for a pen where none answered."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

from conemodel.parts.hub import SIDES
from conemodel.show.formatting import number
from conemodel.show.paper.sheet import LEADING, POINT, Point, Sheet, wrap
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.step import Amount, Step
from conemodel.tasks.job_card.steps import SECTIONS, STEPS, Section, rounds_of

LOOKS = ((8.5, 3), (8.0, 3), (7.5, 3), (7.0, 2), (6.5, 2), (6.0, 2), (6.0, 1), (5.5, 1), (5.0, 1), (4.5, 1))
"""Sizes of type [point], each with the most lines of one answer: the first in which all rows fit."""

GAP = 4.0
"""What lies between two columns [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: its `words`, and a cell for each answer; an empty one is filled in by pen.

    `share` of the row is the words'. A `head` stands above a section, with what its cells are called. Nothing of a
    row that is to be `whole` is cut: a turn without its risk is another turn.
    """

    words: str
    cells: tuple[str, ...] = ()
    share: float = 0.5
    head: bool = False
    whole: bool = False

    def widths(self, room: float) -> tuple[float, ...]:
        """Return how wide words and cells are, each with the gap after it [mm]."""
        share = self.share if self.cells else 1.0
        return (share * room, *((1 - share) * room / len(self.cells) for _ in self.cells))

    def lines(self, *, room: float, size: float, most: int) -> Sequence[Sequence[str]]:
        """Return words and cells in lines."""
        told = zip((self.words, *self.cells), self.widths(room), strict=True)
        return [
            wrap(
                words,
                room=width - 1,
                size=size,
                bold=self.head or place > 0,
                most=None if self.whole else most,
            )
            for place, (words, width) in enumerate(told)
        ]

    def height(self, *, room: float, size: float, most: int) -> int:
        """Return of how many lines it is high."""
        return max(map(len, self.lines(room=room, size=size, most=most)))


def rows_of(card: Card) -> Iterator[Row]:
    """Yield what stands on a card and what is open on it, in the order of the bench."""
    for section in SECTIONS:
        found = list(_section_rows(section, card))
        if found:
            sided = any(step.each == "side" for step in section.steps)
            yield Row(words=section.name, cells=SIDES if sided else (), head=True)
            yield from found


def answer_words(card: Card, step: Step, where: str = "") -> str:
    """Return the answer that stands with its unit, empty where there is none."""
    value = card.answer(step.name, where)
    if value is None:
        return ""
    if isinstance(step, Amount):
        return f"{number(float(value), _digits(float(value)))} {step.unit.symbol}".rstrip()
    return str(value)


def _digits(value: float) -> int:
    return next((digits for digits in range(3) if round(value, digits) == value), 3)


def _section_rows(section: Section, card: Card) -> Iterator[Row]:
    """Yield the rows of one section; its rounds stand together where the first of them would."""
    rounds_told = False
    for step in section.steps:
        if not step.applies(card) or (step.written and step.each == "card"):
            continue
        if step.each == "round":
            yield from () if rounds_told else _round_rows(card)
            rounds_told = True
            continue
        wheres = SIDES if step.each == "side" else ("",)
        cells = tuple(answer_words(card, step, where) for where in wheres)
        if any(cells) or not step.optional:
            yield Row(words=step.words, cells=cells)


def _round_rows(card: Card) -> Iterator[Row]:
    """Yield each round of setting the cone, and below it what was advised."""
    for place in map(str, range(1, rounds_of(card) + 1)):
        turn, outcome = (STEPS[step].said(card.answer(step, place)) for step in ("turn", "outcome"))
        if turn:
            yield Row(words=f"Round {place}: {turn}", cells=(outcome,), share=0.76)
        else:
            yield Row(words=f"Round {place}", cells=(turn, outcome), share=0.28)
        if advice := card.text("advice", place):
            yield Row(words=f"advised: {advice}", whole=True)


def write_rows(sheet: Sheet, corner: Point, rows: Sequence[Row], *, room: float, foot: float) -> bool:
    """Write rows in two columns below a corner, none below `foot`, and return whether all of them found room."""
    wide = (room - GAP) / 2
    for tried, (size, most) in product((rows, _last_whole(rows)), LOOKS):
        high = LEADING * size * POINT
        columns = _columns(tried, wide=wide, size=size, most=most, lines=int((foot - corner[1]) / high))
        if len(columns) <= 2:
            break
    for place, column in enumerate(columns[:2]):
        left, top = corner[0] + place * (wide + GAP), corner[1]
        for row in column:
            top = _write_row(sheet, (left, top), row, wide=wide, size=size, most=most)
    return len(columns) <= 2


def _last_whole(rows: Sequence[Row]) -> Sequence[Row]:
    """Return rows of which the last alone of those to be whole is: what was advised before is past."""
    last = max((place for place, row in enumerate(rows) if row.whole), default=-1)
    return [replace(row, whole=place == last) for place, row in enumerate(rows)]


def _columns(
    rows: Sequence[Row], *, wide: float, size: float, most: int, lines: int
) -> Sequence[Sequence[Row]]:
    """Return rows in as many columns of so many `lines` as they need; no heading stands alone at a foot."""
    columns: list[list[Row]] = [[]]
    used = 0
    for row in rows:
        high = row.height(room=wide, size=size, most=most)
        if used + high + row.head > lines:
            columns.append([])
            used = 0
        columns[-1].append(row)
        used += high
    return columns


def _write_row(sheet: Sheet, at: Point, row: Row, *, wide: float, size: float, most: int) -> float:
    """Write one row and return where the next begins [mm]."""
    left, top = at
    high = LEADING * size * POINT
    told = row.lines(room=wide, size=size, most=most)
    for place, (lines, width) in enumerate(zip(told, row.widths(wide), strict=True)):
        for down, line in enumerate(lines):
            foot = top + (down + 0.8) * high
            if line:
                sheet.write((left, foot), line, size=size, bold=row.head or place > 0)
            else:
                sheet.line((left, foot + 0.3), (left + width - 1, foot + 0.3), width=0.4)
        left += width
    top += high * max(map(len, told))
    if row.head:
        sheet.line((at[0], top), (at[0] + wide, top), width=0.6)
    return top
