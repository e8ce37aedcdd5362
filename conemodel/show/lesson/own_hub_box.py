"""The box at the foot of a handout, in which the class writes what it finds on its own hub."""

import textwrap
from typing import TYPE_CHECKING, Any

from conemodel.base.plain_text import for_picture

if TYPE_CHECKING:
    from matplotlib.figure import Figure

A4 = (8.27, 11.69)
"""A4 sheet, upright [inch], ISO 216."""

LEFT, WIDE = 0.07, 0.86
"""Margin and width of what is printed on a handout, as shares of the sheet's width."""

INK = "black"
"""Grey is all there is."""

OWN_HUB = "Now on your own hub"
"""Heading of the box."""


def draw_own_hub_box(figure: "Figure", lines: tuple[str, ...], tight: float) -> float:
    """Draw the box at the foot, with lines to write on, and return where its top is."""
    from matplotlib.patches import Rectangle

    lines = lines or (
        "What I found before",
        "What I turned, and which way",
        "What I found after, in the frame",
    )
    line_height = 0.034 * tight**2
    height = 0.05 + line_height * len(lines)
    foot = 0.065
    figure.add_artist(
        Rectangle(
            (LEFT, foot), WIDE, height, fill=False, edgecolor=INK, linewidth=1.4, transform=figure.transFigure
        )
    )
    figure.text(LEFT + 0.015, foot + height - 0.012, OWN_HUB, fontsize=12, fontweight="bold", va="top")
    for index, line in enumerate(lines):
        y = foot + height - 0.045 - line_height * index
        figure.text(LEFT + 0.015, y, for_picture(textwrap.shorten(line, 100)), fontsize=9, va="top")
        figure.add_artist(_rule(figure, LEFT + 0.015, LEFT + WIDE - 0.015, y - 0.74 * line_height))
    return foot + height


def _rule(figure: "Figure", start: float, end: float, y: float) -> Any:
    from matplotlib.lines import Line2D

    return Line2D(
        [start, end], [y, y], color="0.5", linewidth=0.6, linestyle=":", transform=figure.transFigure
    )
