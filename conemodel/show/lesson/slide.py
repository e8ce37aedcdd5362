"""The steps of a story as pictures for a file.

All of it is drawn from a `View`, which holds nothing that is still to be guessed; scales too come from what is shown.
"""

import textwrap
from typing import TYPE_CHECKING, Any

from conemodel.base.plain_text import for_picture
from conemodel.show.lesson.rows import reach, rows_told
from conemodel.show.lesson.wording import (
    answer_words,
    bar_words,
    below_words,
    certainty_words,
    known_words,
    options_words,
    reading_words,
    step_words,
)
from conemodel.show.palette import Tones, tones
from conemodel.show.waterfall.paper import draw_on_slide
from conemodel.tasks.lesson.lesson import SideView, View

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

SMALLEST = 24
"""Smallest text on the wall at 1280 × 720 [px]."""

WIDTH, HEIGHT, DPI = 1280, 720, 100
"""Of a step's picture [px], and how many of them make an inch."""

MOST_ROWS = 8
"""Rows of the waterfall of a full story."""


def step_figure(view: View, *, dark: bool = False) -> "Figure":
    """Return one step as it stands on the wall, 1280 × 720 px at 100 dots an inch; no text smaller than 24 px."""
    from matplotlib.figure import Figure

    look = tones(dark=dark)
    figure = Figure(figsize=(WIDTH / DPI, HEIGHT / DPI), dpi=DPI, facecolor=look.paper)
    _write(figure, 30, 22, view.title, look, size=30, weight="bold")
    _write(figure, WIDTH - 30, 22, step_words(view), look, size=SMALLEST, ha="right", color=look.faint)
    for place, side in enumerate(view.sides):
        left = 30 + place * (WIDTH / 2)
        _write(figure, left, 92, side.caption, look, size=27, weight="bold", va="baseline")
        answer = answer_words(side)
        if answer:
            colour = look.forbidden if side.unsafe else look.good
            _write(
                figure,
                left,
                106,
                f"→ {answer}",
                look,
                size=26,
                weight="bold",
                color=colour if dark or side.unsafe else look.ink,
            )
            _write(figure, left, 134, textwrap.fill(certainty_words(side), 46), look, size=SMALLEST)
        _write(figure, left, 508, reading_words(view, side), look, size=SMALLEST)
        _write(figure, left, 536, textwrap.fill(known_words(side), 46), look, size=SMALLEST)
        box = (left / WIDTH, 1 - 500 / HEIGHT, 580 / WIDTH, 306 / HEIGHT)
        _waterfall(figure.add_axes(box), view, side, look)
    _write(figure, 30, 604, textwrap.fill(below_words(view), 92), look, size=SMALLEST)
    _write(figure, 30, 680, options_words(view), look, size=27, weight="bold")
    return figure


def _write(
    figure: "Figure", x: float, y: float, words: str, look: Tones, *, size: float, **more: Any
) -> None:
    """Write words with their top left corner at (x, y) [px from the top left], `size` in px."""
    style = {"color": look.ink, "va": "top", "linespacing": 1.25, **more}
    figure.text(x / WIDTH, 1 - y / HEIGHT, for_picture(words), fontsize=size * 72 / DPI, **style)


def _waterfall(axes: "Axes", view: View, side: SideView, look: Tones) -> None:
    """Draw the waterfall of one side: words above each bar, what is new in bold."""
    rows = rows_told(side)
    draw_on_slide(
        axes,
        rows,
        [bar_words(row) for row in rows],
        good=side.good,
        bold=[row.stage in side.new for row in rows],
        look=look,
        size=SMALLEST * 72 / DPI,
    )
    axes.set_ylim(MOST_ROWS, 0)
    axes.set_xlim(*reach(view))
