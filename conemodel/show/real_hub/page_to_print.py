"""The page to print: steps, a dial of minutes to count by, boxes to fill. One sheet of A4, readable in grey."""

from typing import TYPE_CHECKING

from conemodel.show.paper.dial import TEST_LINE, draw_disc, write_round
from conemodel.show.paper.sheet import PAPERS, Point, Sheet, new_sheet
from conemodel.show.setting.text import CAUTION

if TYPE_CHECKING:
    from matplotlib.figure import Figure

LEFT, RIGHT = 14.0, 196.0
"""Margins [mm]."""

DIAL, HOLE = 72.0, 12.0
"""Diameters of the dial and of the hole in it [mm]."""

TYPE = 9.5
"""Size of most of the words [point]."""

LEAD = "Back the cone off in counted minutes of a clock face. Say when play appears and when drag changes."

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
    "Allow an hour, two for twice through (a guess): two numbers tell more than one. In a lesson do 1 to 4, half an "
    "hour; the clamp, 5, another day. Then fill in the screen A real hub.",
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

SCALE_WORDS = (
    "Cut out the disc and its hole, and slit it along the dashed line; the numbers count out of finger contact. "
    f"Print at full size: this line is {TEST_LINE:.0f} mm long."
)

MEASURED = (
    {0: "at", 16: "min", 30: "state"},
    {0: "along the axle, by dial", 52: "mm"},
    {0: "at the rim, by", 52: "mm"},
)
"""Words of the lines for what was measured, by how far in they stand [mm]."""


def page_figure() -> "Figure":
    """Return the sheet; every length on it is true when it is printed at full size."""
    sheet = new_sheet(PAPERS["A4"])
    room = RIGHT - LEFT
    sheet.write((LEFT, 18.5), "A real hub: what your hand finds", size=17, bold=True)
    top = sheet.paragraph((LEFT, 22), LEAD, room=room) + 2
    for place, step in enumerate(STEPS, start=1):
        top = sheet.paragraph((LEFT, top), step, room=room, size=TYPE, sign=f"{place}.") + 1.6
    _boxes(sheet, 132.0)
    _dial(sheet, (LEFT + DIAL / 2, 217.0))
    _notes(sheet, (LEFT + DIAL + 12, 183.0))
    top = 259.0
    for caution in CAUTIONS:
        top = sheet.paragraph((LEFT, top), caution, room=room, size=TYPE, sign="⚠") + 1.6
    return sheet.figure


def _boxes(sheet: Sheet, top: float) -> None:
    """Draw the boxes to fill: three states, play and drag, each twice."""
    first, wide, high = 66.0, 33.0, 13.0
    for left, words in ((LEFT, "Name"), (78.0, "Date"), (116.0, "Hub and wheel")):
        sheet.write((left, top - 9), words, size=TYPE)
    sheet.line((LEFT, top - 7), (RIGHT, top - 7), width=0.7)
    for column, words in enumerate(COLUMNS):
        middle = first + wide * column + (wide - 3) / 2
        sheet.write((middle, top - 1.5), words, size=TYPE, bold=True, align="center")
    for row, words in enumerate(ROWS):
        foot = top + (row + 1) * high
        sheet.write((LEFT, foot - (high - 2) / 2), words, size=10.5, bold=True, va="center")
        for column in range(len(COLUMNS)):
            left = first + wide * column
            sheet.box((left, foot - (high - 2)), (wide - 3, high - 2), width=1.1)
            sheet.write((left + wide - 4.5, foot - 1), "min", size=7, align="right", color="0.35")


def _dial(sheet: Sheet, middle: Point) -> None:
    """Draw the dial: sixty minutes anticlockwise from the top, a hole for the axle, a slit to lay it round."""
    x, y = middle
    draw_disc(sheet, middle, disc=DIAL, hole=HOLE)
    minutes = {-6 * minute: str(minute) for minute in range(0, 60, 5)}
    write_round(sheet, middle, DIAL / 2 - 11, minutes, size=9)
    sheet.write((x, y - 11), "out: anticlockwise", size=7.5, align="center")
    sheet.write((x - 10.5, y + 14), "slit", size=7)


def _notes(sheet: Sheet, corner: Point) -> None:
    """Write beside the dial how to use it, the line that proves its scale, and lines for what was measured."""
    x, y = corner
    foot = sheet.paragraph(corner, SCALE_WORDS, room=RIGHT - x, size=TYPE) + 3.5
    ends = (x, x + TEST_LINE)
    sheet.line(*((end, foot) for end in ends), width=1.4)
    sheet.strokes([[(end, foot - 1.5), (end, foot + 1.5)] for end in ends], width=1.4)
    sheet.write((x, y + 28), "Measured, if you have a dial gauge or a ruler", size=TYPE, bold=True)
    for row, pieces in enumerate(MEASURED):
        below = y + 38 + 10 * row
        for left, words in pieces.items():
            sheet.write((x + left, below), words, size=TYPE)
        sheet.line((x, below + 1.5), (RIGHT, below + 1.5), width=0.6, dash=":", colour="0.5")
