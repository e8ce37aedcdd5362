"""The steps of a story as pictures for a file.

All of it is drawn from a `View`, which holds nothing that is still to be guessed; scales too come from what is shown.
"""

import textwrap
from typing import TYPE_CHECKING, Any

from conemodel.base.plain_text import for_picture
from conemodel.show.instrument.paints import COLOURS
from conemodel.show.instrument.paper import name_on, paint_on
from conemodel.show.lesson.hub_picture import WHOLE, HubPicture, hub_picture
from conemodel.show.lesson.wording import (
    answer_words,
    below_words,
    certainty_words,
    known_words,
    options_words,
    reading_parts,
    step_words,
)
from conemodel.show.palette import Tones, tones
from conemodel.tasks.lesson.lesson import Played, SideView, View

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

SMALLEST = 24
"""Smallest text on the wall at 1280 × 720 [px]."""

WIDTH, HEIGHT, DPI = 1280, 720, 100
"""Of a step's picture [px], and how many of them make an inch."""

TOP, WIDE = 92, 565
"""Top and width of a side's picture [px]."""


def step_figure(played: Played, view: View, *, dark: bool = False) -> "Figure":
    """Return one step as it stands on the wall, 1280 × 720 px at 100 dots an inch; no text smaller than 24 px."""
    from matplotlib.figure import Figure

    look = tones(dark=dark)
    figure = Figure(figsize=(WIDTH / DPI, HEIGHT / DPI), dpi=DPI, facecolor=look.paper)
    _write(figure, 30, 22, view.title, look, size=30, weight="bold")
    _write(figure, WIDTH - 30, 22, step_words(view), look, size=SMALLEST, ha="right", color=look.faint)
    for place, side in enumerate(view.sides):
        left = 30 + place * (WIDTH / 2)
        _write(figure, left, 84, side.caption, look, size=27, weight="bold", va="baseline")
        if side.stage is not None:
            _hub(figure, left, hub_picture(played, view, side), dark=dark)
        part, words = reading_parts(view, side)
        right = getattr(played, side.side).scenario.hub.adjustable_side == "right"
        edge, align = (left + WIDE, "right") if right else (left, "left")
        _write(figure, edge, 92, part, look, size=44, weight="bold", ha=align)
        narrow = 15 if side.stage == "ridden" else 24
        _write(figure, edge, 140, textwrap.fill(words, narrow), look, size=SMALLEST, ha=align)
        _write(figure, left, 468, textwrap.fill(known_words(side), 46), look, size=SMALLEST)
        _answer(figure, left, side, look)
    _write(figure, 30, 620, textwrap.fill(below_words(view), 92), look, size=SMALLEST)
    _write(figure, 30, 680, options_words(view), look, size=27, weight="bold")
    return figure


def _write(
    figure: "Figure", x: float, y: float, words: str, look: Tones, *, size: float, **more: Any
) -> None:
    """Write words with their top left corner at (x, y) [px from the top left], `size` in px."""
    style = {"color": look.ink, "va": "top", "linespacing": 1.25, **more}
    figure.text(x / WIDTH, 1 - y / HEIGHT, for_picture(words), fontsize=size * 72 / DPI, **style)


def _answer(figure: "Figure", left: float, side: SideView, look: Tones) -> None:
    """Write what was right to commit to and how sure it is, where it may be said."""
    answer = answer_words(side)
    if not answer:
        return
    colour = look.forbidden if side.unsafe else look.good
    _write(figure, left, 526, f"→ {answer}", look, size=26, weight="bold", color=colour)
    _write(figure, left, 558, textwrap.fill(certainty_words(side), 46), look, size=SMALLEST)


def _hub(figure: "Figure", left: float, picture: HubPicture, *, dark: bool) -> None:
    """Paint the close view with its rule and names, and the whole hub in its corner."""
    box, colours = picture.close.view, COLOURS["dark" if dark else "light"]
    axes = _axes(figure, left, TOP, WIDE, WIDE * box[3] / box[2])
    paint_on(axes, picture.close, picture.state, stage=picture.stage, colours=colours)
    name_on(
        axes, picture.close, picture.state, stage=picture.stage, size=SMALLEST * 72 / DPI, colours=colours
    )
    width = WHOLE * WIDE
    height = width * picture.whole[3] / picture.whole[2]
    corner = left if picture.drawing.out < 0 else left + WIDE - width
    small = _axes(figure, corner, TOP + WIDE * box[3] / box[2] - height, width, height)
    whole = picture.drawing.plates["whole"]
    paint_on(small, whole, picture.state, stage=picture.stage, box=picture.whole, colours=colours)


def _axes(figure: "Figure", left: float, top: float, width: float, height: float) -> "Axes":
    """Return axes at a place [px from the top left]."""
    return figure.add_axes((left / WIDTH, 1 - (top + height) / HEIGHT, width / WIDTH, height / HEIGHT))
