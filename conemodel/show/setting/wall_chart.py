"""The wall chart of a hub: how far its cone is backed off under each clamp, what shifts that, and a picture of it.

All of it is laid out on A4 and drawn larger on A3. Words to be read across a bench are `FAR` large, the others `NEAR`.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor
from typing import TYPE_CHECKING

from conemodel.base.units import DEG, KILONEWTON, MINUTE, MM
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.joint import THREAD_SLACK
from conemodel.show.formatting import number
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.paints import GREYS
from conemodel.show.instrument.paper import name_on, paint_on
from conemodel.show.instrument.states import state_of
from conemodel.show.paper.sheet import PAPERS, Sheet, new_sheet
from conemodel.show.setting.text import CAUTION
from conemodel.solve.stages.locknut import slack_share
from conemodel.tasks.headline import Answer, of_ten
from conemodel.tasks.setting.by_clamp import BackOff, back_offs_by_clamp, in_its_frame
from conemodel.tasks.setting.outlook import Spread, outlook_of
from conemodel.tasks.setting.predict import predict
from conemodel.tasks.wording import clock_minutes, direction

if TYPE_CHECKING:
    from matplotlib.figure import Figure

FAR, NEAR = 23.0, 11.5
"""Sizes of type on A4 [point]: at two metres a capital of the larger fills 10 minutes of arc, of the smaller 5."""

LEFT, RIGHT = 14.0, 196.0
"""Margins [mm]."""

BARS = (82.0, 146.0)
"""Where bars begin and end [mm]."""

MOST_BARS = 4
"""Assumptions that have a bar of their own; the others are counted up in a line."""

NAMED = ("hub shell", "cup", "ball", "cone", "locknut", "axle")
"""What is named in the picture."""

TITLE = "Back-off from finger contact"
LEAD = (
    "Balls just pinched by finger, locknut loose: turn the cone {} this far, seen from outside. Hold it, lock it, "
    "clamp the wheel, feel it."
)


UNTIL_THEN = "Until that is put right no back-off is told for this hub."


@dataclass(frozen=True, slots=True)
class Ruler:
    """Minutes of a clock face over the width of the bars: from `low` to `high` [min]."""

    low: int
    high: int

    def at(self, angle: float) -> float:
        """Return where an angle [rad] lies on the sheet [mm]."""
        part = (MINUTE.from_si(angle) - self.low) / (self.high - self.low)
        return BARS[0] + part * (BARS[1] - BARS[0])


def wall_chart_figure(scenario: Scenario, *, paper: str = "A3") -> "Figure":
    """Return the chart of a hub on a sheet of `PAPERS`, as high at least as A4 or Letter.

    Raises:
        NotConverged: no balance of forces was found.
    """
    size = PAPERS[paper]
    sheet = new_sheet(size, scale=size[0] / PAPERS["A4"][0])
    hub, room = in_its_frame(scenario), RIGHT - LEFT
    stops = _stops(hub)
    title = stops[0].words.split(":")[0] if stops else TITLE
    sheet.write((LEFT, 23), title, size=FAR, bold=True, room=room)
    top = sheet.paragraph((LEFT, 27), scenario.name, room=room, size=NEAR, bold=True, most=1)
    if stops:
        for words in (*(answer.sentence for answer in stops), UNTIL_THEN):
            top = sheet.paragraph((LEFT, top + 4), words, room=room, size=16)
    else:
        _back_offs(sheet, top + 0.5, hub)
    sheet.paragraph((LEFT, sheet.height - 21), CAUTION, room=room, size=NEAR, bold=True)
    return sheet.figure


def _stops(hub: Scenario) -> Sequence[Answer]:
    """Return what comes before any turn of the cone, the most serious first; usually nothing."""
    outlook = outlook_of(hub)
    return (*outlook.unsafe, *outlook.unsound, *((outlook.obstacle,) if outlook.obstacle else ()))


def _back_offs(sheet: Sheet, top: float, hub: Scenario) -> None:
    """Write and draw what is to be done under each clamp, what shifts it, and the bearing."""
    rows, lead = back_offs_by_clamp(hub), hub.axle.lead_per_radian
    spreads = outlook_of(hub).spreads(0.0)
    ruler = _ruler(rows, spreads, lead)
    way = " or ".join(dict.fromkeys(direction(row.first) for row in rows))
    top = sheet.paragraph((LEFT, top), LEAD.format(way), room=RIGHT - LEFT, size=NEAR)
    measured = " ".join(_measured_words(hub))
    top = sheet.paragraph((LEFT, top + 1), measured, room=RIGHT - LEFT, size=NEAR, bold=True)
    top = _rows(sheet, top + 3, rows, ruler)
    top = _scale(sheet, top, ruler)
    top = _chances(sheet, top, rows, measured=bool(measured))
    top = _shifts(sheet, top + 4, spreads, lead, ruler)
    _picture(sheet, top + 2, hub, rows[len(rows) // 2].first)


def _measured_words(hub: Scenario) -> Iterator[str]:
    """Yield what was measured of a hub, so that nobody takes the chart for another, and how far that would be out."""
    force, share = hub.clamp.force, abs(slack_share(hub.setting))
    if hub.axle.thread_clearance is not None and share > 0.0:
        low, high = (MM.from_si(end) for end in hub.axle.backlash_range)
        error = f" ±{(high - low) / 2:.1g}" if high > low else ""
        least, most = (THREAD_SLACK.unit.to_si(end) for end in THREAD_SLACK.span)
        shift = clock_minutes(share * (most - least) / hub.axle.lead_per_radian)
        yield f"For a measured thread slack of {MM.from_si(hub.axle.backlash):.2g}{error} mm only."
        yield f"Other hubs have {THREAD_SLACK.range_in_words(MM)}, which shifts it by {shift}: measure yours first."
    if force is not None:
        yield f"Clamp force measured: {number(KILONEWTON.from_si(force), 1)} kN."


def _ruler(rows: Sequence[BackOff], spreads: Sequence[Spread], lead: float) -> Ruler:
    """Return the ruler on which every bar finds room, in whole fives of minutes."""
    angles = [0.0, *(row.first for row in rows), *(end for row in rows for end in row.good or ())]
    angles += [end / lead for spread in spreads for end in (spread.low, spread.high)]
    low, high = MINUTE.from_si(min(angles)), MINUTE.from_si(max(angles))
    return Ruler(5 * floor(low / 5), 5 * ceil(high / 5))


def _rows(sheet: Sheet, top: float, rows: Sequence[BackOff], ruler: Ruler) -> float:
    """Write each clamp with its back-off, draw its good range and the first try, and return the foot [mm]."""
    for row in rows:
        middle, foot = top + 7.5, top + 9.5
        words = row.kind.words.capitalize()
        sheet.write((LEFT, top + 6.5), words, size=NEAR, bold=True, room=40)
        force = f"{KILONEWTON.from_si(row.force):g} kN"
        sheet.write((LEFT, top + 14.5), force, size=FAR, bold=True)
        if row.good is not None:
            start, end = (ruler.at(angle) for angle in row.good)
            sheet.box((start, middle - 3.5), (end - start, 7), fill="0.75", width=1.2)
        x = ruler.at(row.first)
        sheet.fill((x, middle - 5), (x + 3, middle), (x, middle + 5), (x - 3, middle))
        sheet.write(
            (RIGHT, foot), clock_minutes(row.first).removesuffix("utes"), size=FAR, bold=True, align="right"
        )
        way = f"{number(abs(DEG.from_si(row.first)), 0)}° {direction(row.first).split()[0]}"
        sheet.write((RIGHT, top + 15.3), way, size=NEAR, align="right")
        top += 17
    return top


def _scale(sheet: Sheet, top: float, ruler: Ruler) -> float:
    """Draw the ruler below the rows, say what is drawn on it, and return the foot [mm]."""
    places = [(minute, ruler.at(MINUTE.to_si(minute))) for minute in range(ruler.low, ruler.high + 1)]
    sheet.line((BARS[0], top), (BARS[1], top), width=1.0)
    sheet.strokes([[(x, top), (x, top + (3 if minute % 5 == 0 else 1.5))] for minute, x in places], width=1.0)
    for minute, x in places:
        if minute % 5 == 0:
            sheet.write((x, top + 7.5), number(minute, 0), size=NEAR, align="center")
    sheet.write((LEFT, top + 7.5), "minutes, clock face", size=NEAR)
    sheet.write((RIGHT, top + 7.5), "minute = 6°", size=NEAR, align="right")
    sheet.fill((LEFT + 2, top + 10.5), (LEFT + 4, top + 13), (LEFT + 2, top + 15.5), (LEFT, top + 13))
    sheet.write((LEFT + 7, top + 14.5), "try this first", size=NEAR)
    sheet.box((BARS[0], top + 11.2), (8, 3.8), fill="0.75", width=1.0)
    sheet.write(
        (BARS[0] + 11, top + 14.5),
        "good range, if the hub is as described",
        size=NEAR,
        room=RIGHT - BARS[0] - 11,
    )
    return top + 17


def _chances(sheet: Sheet, top: float, rows: Sequence[BackOff], *, measured: bool) -> float:
    """Say how far a first try carries, and return where the next may begin [mm]."""
    right, tight = min(row.right for row in rows), max(row.tight for row in rows)
    why = f"nobody measured on yours what {'else ' if measured else ''}shifts it"
    words = (
        f"A first try ends right {of_ten(right)}, too tight {of_ten(tight)}: {why}. "
        "Feel it clamped, and go on from there."
    )
    return sheet.paragraph((LEFT, top), words, room=RIGHT - LEFT, size=NEAR)


def _shifts(sheet: Sheet, top: float, spreads: Sequence[Spread], lead: float, ruler: Ruler) -> float:
    """Draw between which back-offs each assumption alone leads, widest first, and return the foot [mm]."""
    sheet.write((LEFT, top + 6), "What shifts it", size=16, bold=True)
    sheet.write((RIGHT, top + 6), "by, minutes", size=NEAR, align="right")
    top += 9
    for spread in spreads[:MOST_BARS]:
        start, end = (ruler.at(length / lead) for length in (spread.low, spread.high))
        sheet.write((LEFT, top + 4), spread.label, size=NEAR, bold=True, room=BARS[0] - LEFT - 2)
        sheet.write((LEFT, top + 9), spread.span, size=NEAR, room=BARS[0] - LEFT - 2)
        sheet.box((start, top + 3), (end - start, 4), fill="white", width=1.2, hatch="////")
        sheet.write((RIGHT, top + 6.5), _by(spread, lead), size=16, bold=True, align="right")
        top += 11
    rest = [f"{spread.label} {_by(spread, lead)}" for spread in spreads[MOST_BARS:]]
    words = f"Less, minutes: {', '.join(rest)}." if rest else ""
    return sheet.paragraph((LEFT, top), words, room=RIGHT - LEFT, size=NEAR, most=3)


def _by(spread: Spread, lead: float) -> str:
    return number(MINUTE.from_si(spread.width / lead), 1)


def _picture(sheet: Sheet, top: float, hub: Scenario, back_off: float) -> None:
    """Draw the bearing that is adjusted, clamped, its cone backed off as far as is to be tried first."""
    prediction, stage = predict(hub.with_setting(back_off=back_off)), "clamped"
    window = prediction.window
    drawing = drawing_of(prediction.scenario, good=(window.tight_edge, window.loose_edge))
    plate, state = drawing.plates["close"], state_of(prediction, stage, factor=drawing.factor)
    high = sheet.height - 23 - top
    wide = min(high * plate.view[2] / plate.view[3], 120)
    axes = sheet.inset((LEFT, top), (wide, high))
    paint_on(axes, plate, state, stage=stage, colours=GREYS)
    named = replace(plate, labels=tuple(label for label in plate.labels if label.text in NAMED))
    name_on(axes, named, state, stage=stage, size=sheet.scale * NEAR, colours=GREYS)
    words = (
        f"Clamped. Movement {drawing.factor} times larger, the thread {drawing.thread_coarser} times coarser."
    )
    sheet.paragraph((LEFT + wide + 4, top + 4), words, room=RIGHT - LEFT - wide - 4, size=NEAR)
