"""The page to print: steps, a dial of minutes to count by, boxes to fill. One sheet of A4, readable in grey."""

import textwrap
from math import cos, pi, sin
from typing import TYPE_CHECKING

from conemodel.show.setting.setting_sheet import A4
from conemodel.show.setting.text import CAUTION

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

WIDTH, HEIGHT = 210.0, 297.0
"""The sheet, upright [mm]. ISO 216."""

LEFT, RIGHT = 14.0, 196.0
"""Margins [mm]."""

DIAL, HOLE, TEST_LINE = 72.0, 12.0, 50.0
"""Diameters of the dial and of the hole in it, and the length of the line that proves the scale [mm]."""

STEPS = (
    "Wheel out of the frame, rider's load off, bearing clean, greased and sound. Hold the axle in soft jaws by its "
    "far side. Run the locknut back.",
    "Screw the cone in by finger until the balls are just pinched. Lay the dial round the axle, spanner on the cone, "
    "its handle at 0. Mark cone and axle with a pen. A minute is 6 degrees. Out is anticlockwise, looking at the cone. "
    "Before a locknut is turned the dial comes off through its slit; then back, its 0 at the mark on the axle.",
    "LOCKNUT LOOSE. Back the cone off a minute at a time. At each count rock the rim lightly and turn the axle with "
    "two fingers. Write the smallest count at which you feel play, and the largest at which it turns stiffer than "
    "further out. What you never feel stays empty.",
    "LOCKED. Begin loose: back off 24 minutes, hold the cone, tighten the locknut as you always do, rock and turn. "
    "Undo it, come in 4 minutes at a time, then single minutes where play goes. Stop at the first drag.",
    "CLAMPED. At each of those counts, before you undo the locknut, clamp the wheel in its frame as you ride it. Rock "
    "it and turn it; open the clamp, go on. Stop at the first drag, as before.",
    "Allow an hour, two for twice through (a guess): two numbers tell more than one. Then fill in the screen "
    "A real hub.",
)
"""What is done, in order."""

CAUTIONS = (
    "Never force it. A hub that is hard to turn is not turned: it can dent its races. Undo the locknut and go out.",
    "Keep fingers out of the spokes. Do not ride the wheel as it stands: set it afresh when you have done.",
    CAUTION,
)
"""What stands at the foot."""

ROWS = ("Locknut loose", "Locked, not clamped", "Locked and clamped")
COLUMNS = ("Play from", "again", "Drag up to", "again")


def page_figure() -> "Figure":
    """Return the sheet; every length on it is true when it is printed at full size."""
    from matplotlib.figure import Figure

    figure = Figure(figsize=A4[::-1], facecolor="white")
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set(xlim=(0, WIDTH), ylim=(0, HEIGHT))
    axes.axis("off")
    axes.text(LEFT, 284, "A real hub: what your hand finds", fontsize=17, fontweight="bold", va="top")
    axes.text(LEFT, 274, "Back the cone off in counted minutes of a clock face. Say when play appears and when drag "
              "changes.", fontsize=10, va="top")  # fmt: skip
    top = 267.0
    for place, step in enumerate(STEPS, start=1):
        top = _write(axes, top, f"{place}.", step, characters=92)
    _boxes(axes, 165.0)
    _dial(axes, (LEFT + DIAL / 2, 80.0))
    _notes(axes, (LEFT + DIAL + 12, 114.0))
    top = 37.0
    for caution in CAUTIONS:
        top = _write(axes, top, "⚠", caution, characters=92)
    return figure


def _write(axes: "Axes", top: float, sign: str, words: str, *, characters: int) -> float:
    """Write a paragraph after its sign, and return where the next may begin [mm]."""
    lines = textwrap.wrap(words, characters)
    axes.text(LEFT, top, sign, fontsize=9.5, fontweight="bold", va="top", family="DejaVu Sans")
    axes.text(LEFT + 7, top, "\n".join(lines), fontsize=9.5, va="top", linespacing=1.25)
    return top - len(lines) * 4.2 - 2.2


def _boxes(axes: "Axes", top: float) -> None:
    """Draw the boxes to fill: three states, play and drag, each twice."""
    from matplotlib.patches import Rectangle

    first, wide, high = 66.0, 33.0, 13.0
    for left, words in ((LEFT, "Name"), (78.0, "Date"), (116.0, "Hub and wheel")):
        axes.text(left, top + 9, words, fontsize=9.5)
    axes.plot([LEFT, RIGHT], [top + 7, top + 7], color="black", linewidth=0.7)
    for column, words in enumerate(COLUMNS):
        axes.text(
            first + wide * column + wide / 2, top + 1.5, words, fontsize=9.5, ha="center", fontweight="bold"
        )
    for row, words in enumerate(ROWS):
        bottom = top - (row + 1) * high
        axes.text(LEFT, bottom + high / 2, words, fontsize=10.5, va="center", fontweight="bold")
        for column in range(len(COLUMNS)):
            corner = (first + wide * column, bottom)
            axes.add_patch(Rectangle(corner, wide - 3, high - 2, fill=False, linewidth=1.1))
            axes.text(corner[0] + wide - 4.5, bottom + 1, "min", fontsize=7, ha="right", color="0.35")


def _dial(axes: "Axes", centre: tuple[float, float]) -> None:
    """Draw the dial: sixty minutes anticlockwise from the top, a hole for the axle, a slit to lay it round."""
    from matplotlib.patches import Circle

    x, y = centre
    axes.add_patch(Circle(centre, DIAL / 2, fill=False, linewidth=1.2))
    axes.add_patch(Circle(centre, HOLE / 2, fill=False, linewidth=1.0, linestyle="--"))
    for minute in range(60):
        angle = pi / 2 + minute * pi / 30
        length = 7.0 if minute % 5 == 0 else 4.0
        ends = [DIAL / 2 - length, DIAL / 2]
        axes.plot([x + end * cos(angle) for end in ends], [y + end * sin(angle) for end in ends], color="black",
                  linewidth=1.4 if minute % 5 == 0 else 0.6)  # fmt: skip
        if minute % 5 == 0:
            reach = DIAL / 2 - 11
            axes.text(
                x + reach * cos(angle),
                y + reach * sin(angle),
                f"{minute}",
                fontsize=9,
                ha="center",
                va="center",
            )
    slit = pi / 2 + 27.5 * pi / 30
    ends = [HOLE / 2, DIAL / 2]
    axes.plot([x + end * cos(slit) for end in ends], [y + end * sin(slit) for end in ends], color="black",
              linewidth=0.9, linestyle="--")  # fmt: skip
    axes.text(x, y + 11, "out: anticlockwise", fontsize=7.5, ha="center")
    axes.text(x - 10.5, y - 14, "slit", fontsize=7)


def _notes(axes: "Axes", corner: tuple[float, float]) -> None:
    """Write beside the dial how to use it, the line that proves its scale, and lines for what was measured."""
    x, y = corner
    words = (
        "Cut it out and slit it along the dashed line; the numbers count out of finger contact. Print at full size: "
        f"this line is {TEST_LINE:.0f} mm long."
    )
    axes.text(x, y, textwrap.fill(words, 50), fontsize=9.5, va="top", linespacing=1.25)
    axes.plot([x, x + TEST_LINE], [y - 17, y - 17], color="black", linewidth=1.4)
    for end in (x, x + TEST_LINE):
        axes.plot([end, end], [y - 18.5, y - 15.5], color="black", linewidth=1.4)
    axes.text(
        x, y - 25, "Measured, if you have a dial gauge or a ruler", fontsize=9.5, fontweight="bold", va="top"
    )
    for row, line in enumerate(("at            min      state", "along the axle, by dial             mm",
                                "at the rim, by                             mm")):  # fmt: skip
        below = y - 35 - 10 * row
        axes.text(x, below, line, fontsize=9.5, va="bottom")
        axes.plot([x, RIGHT], [below - 1, below - 1], color="0.5", linewidth=0.6, linestyle=":")
