"""The steps of a story as pictures for a file.

All of it is drawn from a `View`, which holds nothing that is still to be guessed; scales too come from what is shown.
"""

import textwrap
from typing import TYPE_CHECKING, Any

from conemodel.base.plain_text import for_picture
from conemodel.base.units import MM
from conemodel.show.lesson.wording import (
    answer_words,
    bar_words,
    below_words,
    options_words,
    reading_words,
    step_words,
)
from conemodel.show.palette import Tones, tones
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

ROOM = 0.12
"""Empty part of the scale beyond the longest bar on either side."""


def reach(view: View) -> tuple[float, float]:
    """Return the ends of the scale that both sides share [mm], from what is shown and nothing else."""
    ends = [0.0]
    for side in view.sides:
        ends += [end for bar in side.bars for end in (bar.start, bar.end)]
        ends += list(side.good or ())
    low, high = MM.from_si(min(ends)), MM.from_si(max(ends))
    span = max(high - low, 0.02)
    return low - ROOM * span, high + ROOM * span


def step_figure(view: View, *, dark: bool = False) -> "Figure":
    """Return one step as it stands on the wall, 1280 × 720 px at 100 dots an inch; no text smaller than 24 px."""
    from matplotlib.figure import Figure

    look = tones(dark=dark)
    figure = Figure(figsize=(WIDTH / DPI, HEIGHT / DPI), dpi=DPI, facecolor=look.ground)
    _write(figure, 30, 22, view.title, look, size=30, weight="bold")
    _write(figure, WIDTH - 30, 22, step_words(view), look, size=SMALLEST, ha="right", color=look.faint)
    for place, side in enumerate(view.sides):
        left = 30 + place * (WIDTH / 2)
        _write(figure, left, 92, side.caption, look, size=27, weight="bold", va="baseline")
        answer = answer_words(side)
        if answer:
            colour = look.warning if side.unsafe else look.good
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
        _write(figure, left, 520, reading_words(side), look, size=SMALLEST)
        box = (left / WIDTH, 1 - 512 / HEIGHT, 580 / WIDTH, 370 / HEIGHT)
        _waterfall(figure.add_axes(box), view, side, look)
    _write(figure, 30, 566, textwrap.fill(below_words(view), 84), look, size=26)
    _write(figure, 30, 672, options_words(view), look, size=27, weight="bold")
    return figure


def _write(
    figure: "Figure", x: float, y: float, words: str, look: Tones, *, size: float, **more: Any
) -> None:
    """Write words with their top left corner at (x, y) [px from the top left], `size` in px."""
    style = {"color": look.ink, "va": "top", "linespacing": 1.25, **more}
    figure.text(x / WIDTH, 1 - y / HEIGHT, for_picture(words), fontsize=size * 72 / DPI, **style)


def _waterfall(axes: "Axes", view: View, side: SideView, look: Tones) -> None:
    """Draw the waterfall of one side: words above each bar, what is new in bold."""
    axes.set_facecolor(look.ground)
    if side.good:
        ends = [MM.from_si(edge) for edge in side.good]
        axes.axvspan(ends[0], ends[1], facecolor=look.good, alpha=0.3, hatch="..", edgecolor=look.good)
    from matplotlib.patheffects import withStroke

    halo = [withStroke(linewidth=5, foreground=look.ground)]
    axes.plot([0, 0], [0, len(side.bars)], color=look.ink, linewidth=1.2)
    for index, bar in enumerate(side.bars):
        colour = getattr(look, bar.kind)
        style: dict[str, Any] = {"facecolor": colour, "edgecolor": look.ground}
        if bar.assumed:
            style = {
                "facecolor": look.ground,
                "edgecolor": colour,
                "linestyle": (0, (3, 1.5)),
                "linewidth": 1.6,
            }
        hatch = {"opens": "///", "closes": "\\\\\\", "level": ""}[bar.kind]
        axes.barh(
            index + 0.84,
            MM.from_si(bar.end - bar.start),
            left=MM.from_si(bar.start),
            height=0.26,
            hatch=hatch,
            **style,
        )
        axes.text(
            0.005,
            index + 0.62,
            for_picture(bar_words(bar)),
            transform=axes.get_yaxis_transform(),
            fontsize=SMALLEST * 72 / DPI,
            color=look.ink,
            fontweight="bold" if bar.new else "normal",
            va="bottom",
            path_effects=halo,
        )
    axes.set_ylim(MOST_ROWS, 0)
    axes.set_xlim(*reach(view))
    axes.set_axis_off()
