"""What every dial on paper is made of: a disc with minutes on its edge, slit to be laid round an axle."""

from collections.abc import Iterable, Mapping
from math import cos, pi, sin
from typing import NamedTuple

from conemodel.base.units import DEG
from conemodel.show.paper.sheet import Point, Sheet

TEST_LINE = 50.0
"""Length of a line that proves the scale [mm]."""

SLIT = 27.5 * pi / 30
"""Where a disc is slit, anticlockwise from nought [rad]: between two numbers."""


class Ticks(NamedTuple):
    """Ticks that are alike: where [°], from where they go inwards, how far [mm], how wide they are [point]."""

    angles: Iterable[int]
    start: float
    length: float
    width: float


def at_angle(middle: Point, radius: float, angle: float) -> Point:
    """Return the place [mm] so far from the middle at an angle [rad], clockwise from the top.

    >>> at_angle((10.0, 10.0), 4.0, 0.0)
    (10.0, 6.0)
    """
    return middle[0] + radius * sin(angle), middle[1] - radius * cos(angle)


def draw_disc(sheet: Sheet, middle: Point, *, disc: float, hole: float) -> None:
    """Draw where a disc is cut out, its hole and its slit, and a tick at each minute; diameters in mm."""
    draw_circle(sheet, middle, disc)
    draw_circle(sheet, middle, hole)
    edge = disc / 2
    draw_ticks(sheet, middle, Ticks([0], edge, 7.0, 2.4))
    draw_ticks(sheet, middle, Ticks(range(30, 360, 30), edge, 7.0, 1.3))
    draw_ticks(sheet, middle, Ticks([angle for angle in range(0, 360, 6) if angle % 30], edge, 4.0, 0.6))
    ends = (at_angle(middle, diameter / 2, -SLIT) for diameter in (hole, disc))
    sheet.line(*ends, width=1.0, dash=(0, (5, 3)))


def draw_circle(sheet: Sheet, middle: Point, diameter: float, *, width: float = 1.0) -> None:
    """Draw a circle of a diameter [mm], its line `width` [point] wide."""
    from matplotlib.patches import Circle

    sheet.axes.add_patch(Circle(middle, diameter / 2, fill=False, linewidth=width))


def draw_ticks(sheet: Sheet, middle: Point, ticks: Ticks) -> None:
    """Draw ticks about the middle."""
    ends = ticks.start, ticks.start - ticks.length
    turns = map(DEG.to_si, ticks.angles)
    sheet.strokes(([at_angle(middle, end, turn) for end in ends] for turn in turns), width=ticks.width)


def write_round(
    sheet: Sheet, middle: Point, radius: float, words: Mapping[int, str], *, size: float, bold: bool = False
) -> None:
    """Write words about the middle, each at its angle [°], clockwise from the top."""
    for angle, word in words.items():
        place = at_angle(middle, radius, DEG.to_si(angle))
        sheet.write(place, word, size=size, bold=bold, align="center", va="center")
