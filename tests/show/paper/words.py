"""Where the words of a figure stand, as its renderer draws them."""

from itertools import combinations

from matplotlib.figure import Figure
from matplotlib.text import Text
from matplotlib.transforms import Bbox

HAIR = 0.2
"""Words may come this near to touching: the boxes are wider than the ink [pixel at 300 dots an inch]."""


def boxes(figure: Figure) -> list[tuple[str, Bbox]]:
    """Return every text that is seen, with its box in pixels."""
    figure.set_dpi(300)
    figure.draw_without_rendering()
    return [
        (text.get_text(), text.get_window_extent())
        for text in figure.findobj(Text)
        if text.get_text().strip() and text.get_visible()
    ]


def off_the_sheet(figure: Figure, *, margin_mm: float = 0.0) -> list[str]:
    """Return the texts that come nearer to an edge of the sheet than `margin_mm`."""
    margin = margin_mm / 25.4 * figure.dpi
    return [
        words
        for words, box in boxes(figure)
        if box.x0 < margin or box.y0 < margin or box.x1 > figure.bbox.x1 - margin or box.y1 > figure.bbox.y1 - margin
    ]  # fmt: skip


def overlapping(figure: Figure) -> list[tuple[str, str]]:
    """Return every pair of texts of which one lies over the other."""
    return [
        (one, other)
        for (one, first), (other, second) in combinations(boxes(figure), 2)
        if min(first.x1, second.x1) - max(first.x0, second.x0) > HAIR
        and min(first.y1, second.y1) - max(first.y0, second.y0) > HAIR
    ]


def said(figure: Figure) -> str:
    """Return all words of a figure in the order in which they were written, with single blanks."""
    return " ".join(" ".join(words for words, _ in boxes(figure)).split())
