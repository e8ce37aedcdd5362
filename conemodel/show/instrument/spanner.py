"""The outline of an open spanner, wherever one is drawn."""

from math import cos, radians, sin

from conemodel.show.instrument.drawing import Point


def spanner(flat: float, *, length: float, wide: float, head: float) -> list[Point]:
    """Return an open spanner that points up, its jaw round flats.

    Args:
        flat: from the middle to a flat [mm drawn].
        length: from the middle to its end [mm drawn].
        wide: half its handle's width [mm drawn].
        head: how much further than the flats its jaw reaches [mm drawn].
    """
    jaw = flat + head
    tip = [(wide * cos(radians(a)), -length + wide - wide * sin(radians(a))) for a in range(180, -1, -15)]
    neck = (1.15 * wide, -1.5 * jaw)
    right = [
        neck,
        *_bend(neck, (1.3 * wide, -1.05 * jaw), (jaw, -0.9 * jaw), (jaw, -0.2 * flat)),
        (0.98 * jaw, 0.72 * flat),
        (flat, 0.55 * flat),
        (flat, -0.62 * flat),
    ]
    left = [(-x, y) for x, y in reversed(right)]
    return [*tip, *right, (0.0, -1.18 * flat), *left]


def _bend(a: Point, b: Point, c: Point, d: Point) -> list[Point]:
    """Return points of a curve from `a` to `d` that leaves towards `b` and comes from `c`."""
    points = []
    for i in range(1, 9):
        t = i / 8
        s = 1 - t
        weights = (s**3, 3 * s * s * t, 3 * s * t * t, t**3)
        points.append(
            (
                sum(w * p[0] for w, p in zip(weights, (a, b, c, d), strict=True)),
                sum(w * p[1] for w, p in zip(weights, (a, b, c, d), strict=True)),
            )
        )
    return points
