"""Both rings of balls with what each ball carries: the hub from its two ends, as it is held in the hands."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, sin
from typing import Literal

import numpy as np

from conemodel.base.units import MM, MPA
from conemodel.parts.bearing import RowGeometry
from conemodel.parts.scenario import Scenario
from conemodel.show.formatting import newtons
from conemodel.show.palette import Tones, tones
from conemodel.show.svg import LINE, Point, Sheet, wrap_text
from conemodel.tasks.bearing.ball_loads import Loads, RowLoads
from conemodel.tasks.bearing.load_cases import CASES

CUP_WALL = 1.6
"""Thickness the cup is drawn with [mm]."""

LENGTH = 44.0
"""Length of the pointer on the hardest pressed ball [units of the picture]; the others in proportion."""

UNLOADED = 0.5
"""A ball that carries less counts as carrying nothing [N]."""

Told = tuple[str, bool, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ring:
    """One row as drawn: its shape and loads, where its middle lies in mm on the sheet, and which way it is seen."""

    side: Literal["left", "right"]
    shape: RowGeometry
    loads: RowLoads
    middle: Point

    def place(self, azimuth: float, radius: float) -> Point:
        """Return a place of the ring in mm on the sheet; y is up, z to the right seen from the left."""
        across = sin(azimuth) if self.side == "left" else -sin(azimuth)
        return self.middle[0] + radius * across, self.middle[1] + radius * cos(azimuth)

    @property
    def outside(self) -> float:
        """Outer radius of its cup as drawn [mm]."""
        return MM.from_si(self.shape.pitch_diameter + self.shape.ball_diameter) / 2 + CUP_WALL


def rings_svg(loads: Loads, scenario: Scenario, *, dark: bool = False, compact: bool = False) -> str:
    """Return both rows with the load of every ball, where the wheel stands so that one is pressed hardest, as SVG.

    `compact`: one ring above the other, for a screen of 390 px.
    """
    colours = tones(dark=dark)
    width, text = (390.0, 13.5) if compact else (720.0, 14.5)
    told = [
        (line, bold, colour)
        for words, bold, colour in _caption_of(loads, colours)
        for line in wrap_text(words, width=width - text, size=text)
    ]
    reach = LENGTH + 2.2 * text
    radius = (width if compact else width / 2) / 2 - reach - 1.2 * text
    outside = max(MM.from_si(row.pitch_diameter + row.ball_diameter) / 2 for row in _shapes(scenario))
    scale = radius / (outside + CUP_WALL)
    above = reach if _carries_above_axle(loads) else 0.6 * text
    ring = 2 * radius + reach + above + LINE * text
    foot = LINE * text * len(told) + text
    sheet = Sheet(
        scale=scale,
        centre=(width / 2, text * (1 + LINE) + above + radius + (ring / 2 if compact else 0.0)),
        width=width,
        height=(2 * ring if compact else ring) + text + foot,
        text_size=text,
        tones=colours,
    )
    away = ring / 2 / scale if compact else width / 4 / scale
    middles = ((0.0, away), (0.0, -away)) if compact else ((-away, 0.0), (away, 0.0))
    most = max(float(loads.left.ball_load.max()), float(loads.right.ball_load.max()))
    for side, shape, row, middle in zip(
        ("left", "right"), _shapes(scenario), (loads.left, loads.right), middles, strict=True
    ):
        ring_ = _Ring(side=side, shape=shape, loads=row, middle=middle)  # type: ignore[arg-type]
        _draw(sheet, ring_, most=most, above=above)
    sheet.lines(told)
    return sheet.svg(
        title=f"{scenario.name}: what the balls carry under the {CASES[loads.case]}",
        desc=rings_words(loads),
        case=loads.case,
        left=" ".join(f"{load:.1f}" for load in loads.left.ball_load),
        right=" ".join(f"{load:.1f}" for load in loads.right.ball_load),
    )


def rings_words(loads: Loads) -> str:
    """Return the loads of both rows in words, for those who do not see the picture."""
    said = [f"What the balls carry under the {CASES[loads.case]}, the hub seen from its two ends."]
    for side, row in (("left", loads.left), ("right", loads.right)):
        each = [f"{load:.0f}" for load in _from_the_top(row, side)]
        said.append(f"{side.capitalize()} row, clockwise from the top: {', '.join(each)} N.")
    return " ".join(said)


def place_words(azimuth: float) -> str:
    """Return where a ball stands round the axle.

    Args:
        azimuth: from up, towards either side [rad].

    >>> place_words(3.1)
    'below the axle'
    """
    up = cos(azimuth)
    if up > 0.75:
        return "above the axle"
    return "below the axle" if up < -0.75 else "beside the axle"


def _from_the_top(row: RowLoads, side: str) -> list[float]:
    """Return the ball loads of a row in the order in which it is read, clockwise from the top as seen."""
    turn = row.azimuth if side == "left" else -row.azimuth
    order = np.argsort(np.round(turn % (2 * np.pi), 9))
    return [float(load) for load in row.ball_load[order]]


def _shapes(scenario: Scenario) -> tuple[RowGeometry, RowGeometry]:
    return scenario.hub.left, scenario.hub.right


def _caption_of(loads: Loads, colours: Tones) -> Iterator[Told]:
    """Yield the caption: words, whether in bold, colour."""
    yield f"Under the {CASES[loads.case]}: {_load_words(loads)}", True, ""
    yield "Numbers and pointers: what each ball carries, in N. A dashed ball carries nothing.", False, ""
    worst = max(float(row.cone_pressure.max()) for row in (loads.left, loads.right))
    if worst > 0:
        yield f"Ringed twice: the ball pressed hardest, {MPA.from_si(worst):.0f} MPa on the cone.", False, ""
    yield "Balls and circles to scale; the wheel stands where it is worst for one ball.", False, ""


def _load_words(loads: Loads) -> str:
    """Return the load on the wheel in words."""
    across, up = loads.load[0], loads.load[1]
    if not any(loads.load):
        return "no load on the wheel."
    words = f"the road pushes up with {newtons(up)}"
    if across:
        words += f" and to the {'right' if across > 0 else 'left'} with {newtons(abs(across))}"
    return f"{words}."


def _draw(sheet: Sheet, ring: _Ring, *, most: float, above: float) -> None:
    """Draw one row: cup, balls, cone, axle, and a pointer on every ball that carries."""
    tones_, shape = sheet.tones, ring.shape
    pitch, ball = MM.from_si(shape.pitch_diameter), MM.from_si(shape.ball_diameter)
    # the groove's bottoms stand nearly a ball radius either side of the pitch circle, seen from the end
    race = ball * cos(shape.contact_angle)
    sheet.disc(ring.middle, 2 * ring.outside, fill=tones_.shell, name="cup")
    sheet.disc(ring.middle, pitch + ball, fill=tones_.paper, name="race")
    sheet.disc(ring.middle, pitch - race, fill=tones_.steel, name="cone")
    sheet.disc(ring.middle, 0.5 * (pitch - race), fill=tones_.dark_steel, name="axle")
    hardest = _hardest_ball_of(ring, most)
    for index, (azimuth, load) in enumerate(zip(ring.loads.azimuth, ring.loads.ball_load, strict=True)):
        centre = ring.place(float(azimuth), pitch / 2)
        if load < UNLOADED:
            _dashed_ball(sheet, centre, ball)
            continue
        sheet.disc(centre, ball, fill=tones_.ball, name="ball")
        if index == hardest:
            sheet.disc(centre, 0.72 * ball, fill=tones_.ball, name="hardest")
        _pointer(sheet, ring, float(azimuth), float(load), most=most, bold=index == hardest)
    x, y = sheet.at(ring.middle)
    sheet.text(
        (x, y - sheet.scale * ring.outside - above),
        f"{ring.side.capitalize()} row, seen from the {ring.side}",
        anchor="middle",
        bold=True,
        name="row",
    )


def _carries_above_axle(loads: Loads) -> bool:
    """Return whether a ball in the upper half of either row carries anything."""
    rows = (loads.left, loads.right)
    return any(bool(((row.ball_load >= UNLOADED) & (np.cos(row.azimuth) > 0.2)).any()) for row in rows)


def _hardest_ball_of(ring: _Ring, most: float) -> int | None:
    """Return which ball of a row carries most in the whole hub, None where it is in the other row."""
    at = int(np.argmax(ring.loads.ball_load))
    return at if most >= UNLOADED and float(ring.loads.ball_load[at]) == most else None


def _dashed_ball(sheet: Sheet, centre: Point, ball: float) -> None:
    around = np.linspace(0, 2 * np.pi, 40, endpoint=False)
    points = [(centre[0] + ball / 2 * cos(float(t)), centre[1] + ball / 2 * sin(float(t))) for t in around]
    sheet.shape(points, fill=sheet.tones.paper, stroke=sheet.tones.faint, dash="3 3", width=1.0, name="idle")


def _pointer(sheet: Sheet, ring: _Ring, azimuth: float, load: float, *, most: float, bold: bool) -> None:
    """Draw what a ball carries as a pointer on the cup, its point towards the ball, its number at the tail."""
    length = LENGTH * load / most
    tip, tail = (ring.outside + way / sheet.scale for way in (1.5, 1.5 + length))
    half = (6.0 if bold else 4.5) / sheet.scale / tail
    sheet.shape(
        [ring.place(azimuth, tip), ring.place(azimuth - half, tail), ring.place(azimuth + half, tail)],
        fill=sheet.tones.ink if bold else sheet.tones.petrol,
        width=0.8,
        name="load",
    )
    # figures are wider than high: beside the ring they need more room than above it
    room = (0.95 + 0.45 * abs(sin(azimuth))) * sheet.text_size / sheet.scale
    x, y = sheet.at(ring.place(azimuth, tail + room))
    sheet.text((x, y + 0.35 * sheet.text_size), f"{load:.0f}", anchor="middle", bold=bold, name="number")
