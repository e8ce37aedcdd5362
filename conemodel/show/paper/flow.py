"""Paragraphs one below the other in a column of a sheet, as large as all of them fit; what does not fit is counted."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from conemodel.show.paper.sheet import INDENT, LEADING, POINT, Point, Sheet, wrap

SHRINKS = (1.0, 0.93, 0.86, 0.8)
"""How much smaller the type of a column may become before something is left out."""

LEFT_OUT = "… and {} more, for which there is no room here."


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """One paragraph: `size` of its type [point], `gap` above it [mm], `most` of its lines, a `sign` hung before it."""

    words: str
    size: float = 9.0
    bold: bool = False
    gap: float = 0.8
    most: int | None = None
    sign: str = ""

    def height(self, room: float, shrink: float) -> float:
        """Return how high it is in `room` [mm], its type `shrink` as large, with the gap above it [mm]."""
        size = self.size * shrink
        inner = room - (INDENT if self.sign else 0.0)
        lines = wrap(self.words, room=inner, size=size, bold=self.bold, most=self.most)
        return self.gap * shrink + len(lines) * LEADING * size * POINT


def write_blocks(sheet: Sheet, at: Point, blocks: Iterable[Block], *, room: float, foot: float) -> float:
    """Write blocks below `at` in `room`, none below `foot`, and return where the next may begin [mm]."""
    given = [block for block in blocks if block.words]
    left, top = at
    for shrink in SHRINKS:
        if sum(block.height(room, shrink) for block in given) <= foot - top:
            break
    else:
        given = _those_that_fit(given, room=room, high=foot - top, shrink=shrink)
    for block in given:
        top = sheet.paragraph(
            (left, top + block.gap * shrink),
            block.words,
            room=room,
            size=block.size * shrink,
            bold=block.bold,
            most=block.most,
            sign=block.sign,
        )
    return top


def _those_that_fit(blocks: Sequence[Block], *, room: float, high: float, shrink: float) -> list[Block]:
    """Return the first of the blocks and how many were left out, together no higher than `high` [mm]."""
    for kept in range(len(blocks) - 1, -1, -1):
        last = Block(words=LEFT_OUT.format(len(blocks) - kept))
        if sum(block.height(room, shrink) for block in (*blocks[:kept], last)) <= high:
            return [*blocks[:kept], last]
    return []
