"""The cone dial: a disc to print at full size, cut out and lay over the axle, with the lines that prove its scale."""

from typing import TYPE_CHECKING

from conemodel.base.units import DEG, MM
from conemodel.parts.scenario import Scenario
from conemodel.show.formatting import number
from conemodel.show.paper.dial import (
    TEST_LINE,
    Ticks,
    at_angle,
    draw_circle,
    draw_disc,
    draw_ticks,
    write_round,
)
from conemodel.show.paper.sheet import PAPERS, Point, Sheet, new_sheet
from conemodel.show.setting.text import CAUTION
from conemodel.tasks.wording import CLOCK_MINUTE, fraction_of_turn

if TYPE_CHECKING:
    from matplotlib.figure import Figure

DISC = 100.0
"""Diameter of the disc [mm]."""

ROOM, WIDEST_HOLE = 0.5, 20.0
"""How much wider than its axle the hole is, and the widest that leaves the words on the disc whole [mm]."""

MARGIN = 14.0
"""Of the sheet, which no printer needs for itself [mm]."""

SPARE_HEAD = 12.0
"""Room of the heading above discs that are drawn again [mm]."""

RINGS = ((50.0, 39.5), (34.0, 28.3))
"""Where the ticks of minutes and of degrees begin, and where their numbers stand, from the middle [mm]."""

TURNS = (1.0, 3.75, 7.5, 11.25, 15.0)
"""Turns of which it is said how far they move the cone [min]."""

DEGREES = (
    Ticks(range(0, 360, 10), RINGS[1][0], 2.8, 0.7),
    Ticks([angle for angle in range(0, 360, 2) if angle % 10], RINGS[1][0], 1.6, 0.35),
)
"""Ticks of the inner ring."""

SCALE_WORDS = (
    "Print at 100 % (“actual size”), not “fit to page”. Then measure both lines with a steel rule: each is "
    f"{TEST_LINE:.0f} mm long. Where one is not, print again: the hole would not fit, and where the two lines differ "
    "the minutes are wrong too."
)

USE = (
    "Cut out the disc and the hole, and slit it along the dashed line. Stiff card, or paper glued to card, lasts.",
    "Hold the axle so that it cannot turn. Lay the disc over it, flat on the locknut, and tape it to the axle, not to "
    "the locknut or the cone.",
    "Put the spanner on the cone, its handle at 0, and make a pen mark across cone and axle there.",
    "Turn the cone and read the handle at the rim: minutes of a clock face outside, degrees inside, to the right for "
    "in, to the left for out. Beyond 30 minutes, half a turn, move the disc on and count again from 0.",
    "To turn the locknut take the disc off through its slit. Back on, its 0 goes to the pen mark on the axle.",
)

SIDES = (
    "It is read from outside, looking at the cone, on whichever side of the hub that is: on a standard right-hand "
    "thread clockwise is in on both sides. Where a cone comes out clockwise, its thread is left-handed: in and out "
    "then change places, and the minutes hold."
)


def cone_dial_figure(scenario: Scenario, *, paper: str = "A4") -> "Figure":
    """Return the dial for the hub of a scenario on a sheet of `PAPERS`; every length is true at full size."""
    sheet = new_sheet(PAPERS[paper])
    room = sheet.width - 2 * MARGIN
    axle = MM.from_si(scenario.axle.thread_diameter)
    sheet.write((MARGIN, 20), "Cone dial", size=20, bold=True)
    hub = f"For axle thread {axle:g} mm, travel {MM.from_si(scenario.axle.thread_pitch):.3g} mm a turn: {scenario.name}"
    top = sheet.paragraph((MARGIN, 24), hub, room=room, most=2)
    middle = (MARGIN + DISC / 2, top + 6 + DISC / 2)
    _disc(sheet, middle, hole_for(scenario))
    _scale(sheet, (MARGIN + DISC + 12, top + 6), _hole_words(scenario))
    top = middle[1] + DISC / 2 + 7
    for place, step in enumerate(USE, start=1):
        top = sheet.paragraph((MARGIN, top), step, room=room, sign=f"{place}.") + 1.2
    top = sheet.paragraph((MARGIN, top + 1.5), SIDES, room=room) + 2.5
    top = _turns(sheet, top, scenario) + 4
    top = sheet.paragraph((MARGIN, top), CAUTION, room=room, bold=True)
    if sheet.height - MARGIN - top > DISC + SPARE_HEAD:
        _spares(sheet, top, hole_for(scenario))
    return sheet.figure


def _spares(sheet: Sheet, top: float, hole: float) -> None:
    """Draw as many more discs as stand beside each other below `top`."""
    room = sheet.width - 2 * MARGIN
    count = int(room // (DISC + 4))
    sheet.write((MARGIN, top + 8), "The same disc again, for others who set this hub", size=13, bold=True)
    for place in range(count):
        _disc(sheet, (MARGIN + room * (place + 0.5) / count, top + SPARE_HEAD + DISC / 2), hole)


def hole_for(scenario: Scenario) -> float:
    """Return the diameter of the hole for a hub's axle [mm]."""
    return min(MM.from_si(scenario.axle.thread_diameter) + ROOM, WIDEST_HOLE)


def _hole_words(scenario: Scenario) -> str:
    wanted, hole = MM.from_si(scenario.axle.thread_diameter) + ROOM, hole_for(scenario)
    told = f"The disc is {DISC:.0f} mm wide, its hole {hole:.1f} mm."
    return told if wanted <= hole else f"{told} Cut the hole out to {wanted:.1f} mm, for this axle."


def _turns(sheet: Sheet, top: float, scenario: Scenario) -> float:
    """Write what some turns come to on this axle, and return where the next may begin [mm]."""
    rows = [("turn of the cone", "minutes", "degrees", "along the axle, mm")]
    for turned in TURNS:
        angle = turned * CLOCK_MINUTE
        moved = number(MM.from_si(scenario.axle.lead_per_radian * angle), 3)
        words = "one minute" if turned == 1 else fraction_of_turn(angle)
        rows.append((words, f"{turned:g}", f"{DEG.from_si(angle):g}°", moved))
    for place, row in enumerate(rows):
        for left, words in zip((0.0, 45.0, 75.0, 105.0), row, strict=True):
            sheet.write((MARGIN + left, top + 4 + 5 * place), words, size=9.5, bold=place == 0)
    return top + 4 + 5 * len(rows)


def _disc(sheet: Sheet, middle: Point, hole: float) -> None:
    """Draw the disc: where to cut, both rings, the pen line and which way is which."""
    draw_disc(sheet, middle, disc=DISC, hole=hole)
    draw_circle(sheet, middle, 2 * RINGS[1][0], width=0.4)
    for ticks in DEGREES:
        draw_ticks(sheet, middle, ticks)
    minutes = {6 * minute: str(abs(minute)) for minute in range(-25, 31, 5)}
    write_round(sheet, middle, RINGS[0][1], minutes, size=11.5, bold=True)
    degrees = {angle: f"{abs(angle)}°" for angle in range(-150, 151, 30) if angle}
    write_round(sheet, middle, RINGS[1][1], degrees, size=7.5)
    sheet.line(at_angle(middle, hole / 2, 0), at_angle(middle, RINGS[1][0], 0), width=2.4)
    _ways(sheet, middle)


def _ways(sheet: Sheet, middle: Point) -> None:
    """Say and show with an arrow each which way is in and which is out."""
    x, y = middle
    for way, words in ((1, ("in", "(clockwise)")), (-1, ("out", "(anticlockwise)"))):
        sheet.write((x + way * 12.5, y - 14), words[0], size=13, bold=True, align="center")
        sheet.write((x + way * 12.5, y - 10.3), words[1], size=7.5, align="center")
        sheet.line(
            *(at_angle(middle, 35.6, way * DEG.to_si(degrees)) for degrees in range(8, 49, 2)), width=1.2
        )
        barbs = (at_angle(middle, radius, way * DEG.to_si(47)) for radius in (34.5, 36.7))
        sheet.fill(at_angle(middle, 35.6, way * DEG.to_si(53)), *barbs)
    sheet.write((x + 8, y + 18.5), "seen from outside", size=7.5, align="center")
    sheet.write((x + 8, y + 21.8), "0 at the pen mark", size=7.5, align="center")


def _scale(sheet: Sheet, corner: Point, hole: str) -> None:
    """Draw the lines that prove the scale, along and across, and say what they are for."""
    x, y = corner
    room = sheet.width - MARGIN - x
    foot = sheet.paragraph((x, y), SCALE_WORDS, room=room, bold=True, size=9.5)
    foot = sheet.paragraph((x, foot + 1.5), hole, room=room, size=9.5) + 6
    right, low = x + TEST_LINE, foot + TEST_LINE
    # no mark at the corner, which would make either line look longer than it is
    sheet.line((right, foot), (x, foot), (x, low), width=1.0)
    sheet.strokes([[(right, foot - 2), (right, foot + 2)], [(x - 2, low), (x + 2, low)]], width=1.0)
    words = f"{TEST_LINE:.0f} mm"
    sheet.write((x + TEST_LINE / 2, foot + 5), words, size=10, bold=True, align="center")
    sheet.write((x + 3, foot + TEST_LINE / 2), words, size=10, bold=True)
