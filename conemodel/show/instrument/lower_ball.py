"""A ball below the axle in a small round inset: it carries the rider, whatever play is left."""

from collections.abc import Iterator

from conemodel.show.instrument import bearing
from conemodel.show.instrument.drawing import Group, Part, Point
from conemodel.show.instrument.measures import Half
from conemodel.show.instrument.paths import Place, ring

INSET = 2.2
"""Radius of the inset [mm of the close view]."""
ACROSS = 1.7
"""Ball diameters that its diameter shows."""


def lower_ball(half: Half, place: Place, *, middle: Point) -> Iterator[Group]:
    """Yield the inset, round `middle`: cone above, cup below, and the force from one to the other."""
    shrunk = 2 * INSET / (ACROSS * half.ball)

    def part(name: str, points: list[Point], paint: str, *, closed: bool = True) -> Part:
        """Return an outline of the row above the axle as it lies below, in the inset."""
        below = [(middle[0] + shrunk * u, middle[1] - shrunk * (v - half.pitch)) for u, v in points]
        return place.part(name, below, paint, closed=closed)

    cone = bearing.cone_top(half)
    inside = (
        part("cup", bearing.cup_outline(half), "cup"),
        part("ball", bearing.ball_outline(half, steps=30), "ball"),
        part("cone", [*cone, (cone[-1][0], 0.0), (half.nose, 0.0)], "cone"),
        part("line-of-contact", [half.cup_contact, half.contact], "axis", closed=False),
        *(part("push", arrow, "dark") for arrow in _arrows(half)),
    )
    frame = place.path(ring(middle, INSET, steps=28))
    when = ("ridden",)
    ground = Part(name="inset", d=frame, paint="paper")
    yield Group(name="lower ball", when=when, fade="load", clip=frame, parts=(ground, *inside))
    edge = Part(name="inset-edge", d=frame, paint="edge", title="a ball below the axle carries the rider")
    yield Group(name="lower ball edge", when=when, fade="load", parts=(edge,))


def _arrows(half: Half) -> Iterator[list[Point]]:
    """Yield the cone's push on the ball and the cup's against it, heads at the contacts."""
    (u, v), pitch, size = half.contact, half.pitch, 0.16
    along = (u / (half.ball / 2), (v - pitch) / (half.ball / 2))
    for way in (1, -1):
        tip = (way * u, pitch + way * (v - pitch))
        back, side = size * half.ball, 0.5 * size * half.ball
        foot = (tip[0] - way * back * along[0], tip[1] - way * back * along[1])
        across = (-along[1] * side, along[0] * side)
        yield [tip, (foot[0] + across[0], foot[1] + across[1]), (foot[0] - across[0], foot[1] - across[1])]
