"""Outlines as points, and points as paths. Points of one side of a hub are (u, v): outboard, and out from the axis."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import cos, radians, sin

from conemodel.show.instrument.drawing import Part, Point


def arc(centre: Point, radius: float, start: float, end: float, *, steps: int = 28) -> list[Point]:
    """Return points on an arc, angles in degrees from outboard towards out."""
    turns = (radians(start + (end - start) * i / steps) for i in range(steps + 1))
    return [(centre[0] + radius * cos(a), centre[1] + radius * sin(a)) for a in turns]


def ring(centre: Point, radius: float, *, steps: int = 48, start: float = 0.0) -> list[Point]:
    """Return the corners of a circle's polygon, the first at an angle [°]."""
    return arc(centre, radius, start, start + 360.0, steps=steps)[:-1]


def block(low: Point, high: Point, *, bevel: float = 0.0) -> list[Point]:
    """Return a box between two corners, its two corners at the higher v bevelled."""
    (u0, v0), (u1, v1) = low, high
    if not bevel:
        return [(u0, v0), (u0, v1), (u1, v1), (u1, v0)]
    return [(u0, v0), (u0, v1 - bevel), (u0 + bevel, v1), (u1 - bevel, v1), (u1, v1 - bevel), (u1, v0)]


def wave(start: float, end: float, v: float, *, step: float = 1.5, height: float = 0.16) -> list[Point]:
    """Return a wavy line along u, as where a part is broken off; it has whole waves."""
    half_waves = max(2, round(abs(end - start) / step))
    pitch = (end - start) / half_waves
    points = [(start, v)]
    for i in range(half_waves):
        bent = height * (1 if i % 2 else -1)
        points += [(start + (i + t) * pitch, v + bent * sin(3.14159265 * t)) for t in (1 / 3, 2 / 3, 1.0)]
    return points


def path(points: Iterable[Point], *, closed: bool = True, digits: int = 2) -> str:
    """Return points as a path, in mm to `digits` after the point; points that fall together are one."""
    told: list[str] = []
    for x, y in points:
        text = f"{_number(x, digits)} {_number(y, digits)}"
        if not told or told[-1] != text:
            told.append(text)
    if closed and len(told) > 1 and told[0] == told[-1]:
        told.pop()
    return "M" + "L".join(told) + ("Z" if closed else "")


def _number(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


@dataclass(frozen=True, slots=True)
class Place:
    """Where points of one side stand on a plate.

    Attributes:
        at: x of u = 0; out: which way x goes outboard; up: 1 above the axis, -1 below.
        digits: of a path's coordinates after the point.
        lean: how far everything is turned about (at, 0), clockwise on the plate [°].
    """

    at: float
    out: int
    up: int = 1
    digits: int = 2
    lean: float = 0.0

    def point(self, point: Point) -> Point:
        """Return one point on the plate."""
        x, y = self.out * point[0], -self.up * point[1]
        if self.lean:
            c, s = cos(radians(self.lean)), sin(radians(self.lean))
            x, y = x * c - y * s, x * s + y * c
        return self.at + x, y

    def path(self, points: Iterable[Point], *, closed: bool = True) -> str:
        """Return points as a path on the plate."""
        return path(map(self.point, points), closed=closed, digits=self.digits)

    def part(
        self, name: str, points: Iterable[Point], paint: str, *, title: str = "", closed: bool = True
    ) -> Part:
        """Return an outline as a part."""
        return Part(name=name, d=self.path(points, closed=closed), paint=paint, title=title)

    def strokes(self, name: str, lines: Iterable[Sequence[Point]], paint: str, *, title: str = "") -> Part:
        """Return several open lines as one part."""
        return Part(
            name=name, d="".join(self.path(line, closed=False) for line in lines), paint=paint, title=title
        )
