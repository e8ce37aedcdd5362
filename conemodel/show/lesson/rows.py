"""The rows of the waterfall that may be seen of a story, and the scale that both sides share."""

from dataclasses import replace

from conemodel.base.units import MM
from conemodel.show.waterfall.rows import Row, rows_of
from conemodel.tasks.lesson.lesson import SideView, View

ROOM = 0.12
"""Empty part of the scale beyond the longest bar on either side."""


def rows_told(side: SideView) -> tuple[Row, ...]:
    """Return every term up to the last stage shown, and the level it leaves; nothing before the first."""
    rows = rows_of(dict(side.terms), lead=side.lead)
    terms = [row for row in rows if row.kind != "level"]
    return (*terms, *(replace(level, words="now") for level in rows[-1:]))


def reach(view: View) -> tuple[float, float]:
    """Return the ends of the scale that both sides share [mm], from what is shown and nothing else."""
    ends = [0.0]
    for side in view.sides:
        ends += [end for row in rows_told(side) for end in (row.start, row.end)]
        ends += list(side.good or ())
    low, high = MM.from_si(min(ends)), MM.from_si(max(ends))
    span = max(high - low, 0.02)
    return low - ROOM * span, high + ROOM * span
