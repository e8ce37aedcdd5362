"""The dial: the adjustable side from outside, two spanners in a ring of sixty minutes. Out is anticlockwise."""

from collections.abc import Iterable, Iterator
from math import atan2, copysign, cos, pi, radians, sin

from conemodel.show.instrument import paths
from conemodel.show.instrument.drawing import Group, Label, Part, Plate, Point
from conemodel.show.instrument.measures import Half
from conemodel.show.instrument.paths import ring
from conemodel.show.instrument.spanner import spanner

RING = 100.0
"""Radius of the ring; its width and everything on it are shares of it."""
INSIDE = 87.5
NUT_SPANNER = (58.0, 42.0)
"""Where the locknut's spanner stands before it is tightened, and how far it is turned [°]."""
VIEW = (-134.0, -119.0, 246.0, 232.0)
"""Left, top, width and height of what is seen: out on the left there is room for words beside the ring."""
UPPER = (26.0, 100.0)
"""Where beside the ring the words of the good range stand if they can, from finger contact [°]."""
ALONG = 8.0
"""How far along the ring they may stand from the good range [°]."""
NUMBERED = {-5: "5", 0: "0", 5: "5", 10: "10", 15: "15", 20: "20"}
"""Minutes out from finger contact that are written."""

Arc = tuple[float, float]
"""Two angles of the cone, out from finger contact [°]."""


def path(points: Iterable[Point], *, closed: bool = True) -> str:
    """Return points of the dial as a path."""
    return paths.path(points, closed=closed, digits=1)


def dial_plate(half: Half, *, balls: tuple[int, int], good: Arc | None) -> Plate:
    """Return the dial.

    Args:
        half: the adjustable side.
        balls: how many are in the row, and how many places there are for them.
        good: between which angles of the cone the setting is right once clamped, or None where it may not be seen.
    """
    scale = scale_of(half)
    groups = [
        Group(name="ring", parts=tuple(_ring())),
        *_good_arc(good),
        _advised(half, scale),
        _cone(half, scale),
        _nut(half, scale),
        *_balls(half, scale, balls),
        Group(name="axle", parts=tuple(_axle(half, scale))),
    ]
    return Plate(view=VIEW, groups=tuple(groups), labels=tuple(_labels(good)))


def scale_of(half: Half) -> float:
    """Return how many units of the dial a millimetre of the hub is."""
    return 23.6 / half.washer


def on_ring(angle: float, radius: float) -> Point:
    """Return a point of the dial at an angle clockwise from the top [°]."""
    return radius * sin(radians(angle)), -radius * cos(radians(angle))


def _ring() -> Iterator[Part]:
    yield Part(name="ring", d=path(ring((0, 0), RING, steps=54)), paint="seen-1")
    yield Part(name="face", d=path(ring((0, 0), INSIDE, steps=54)), paint="face")
    minor = (minute for minute in range(60) if minute % 5)
    yield Part(name="minutes", d=_ticks(minor, 4.4), paint="thin")
    yield Part(name="fives", d=_ticks(range(0, 60, 5), 7.5), paint="edge")


def _ticks(minutes: Iterator[int] | range, length: float) -> str:
    return "".join(
        path([on_ring(6 * minute, RING), on_ring(6 * minute, RING - length)], closed=False)
        for minute in minutes
    )


def _good_arc(good: Arc | None) -> Iterator[Group]:
    """Yield the good range engraved on the ring."""
    if good is None:
        return
    low, high = sorted(good)
    turns = [-low - (high - low) * i / 24 for i in range(25)]
    outline = [on_ring(a, RING) for a in turns] + [on_ring(a, INSIDE) for a in reversed(turns)]
    yield Group(
        name="good arc",
        parts=(Part(name="good", d=path(outline), paint="engraved", title="good range, once clamped"),),
    )


def _balls(half: Half, scale: float, balls: tuple[int, int]) -> Iterator[Group]:
    """Yield the balls beside the place where one is missing, and that place."""
    count, places = balls
    if count >= places:
        return
    radius, size = half.pitch * scale, half.ball / 2 * scale
    spots = [on_ring(180 + 360 * i / places, radius) for i in (-2, -1, 1, 2, 0)]
    row, gone = (
        "".join(path(ring(spot, size, steps=14)) for spot in some) for some in (spots[:-1], spots[-1:])
    )
    yield Group(
        name="balls",
        parts=(
            Part(name="balls", d=row, paint="hidden", title="balls"),
            Part(name="ball-missing", d=gone, paint="missing", title="a ball is missing here"),
        ),
    )


def _cone_spanner(half: Half, scale: float) -> str:
    return path(spanner(half.neck * scale, length=65.0, wide=5.5, head=10.0))


def _advised(half: Half, scale: float) -> Group:
    """Return where the cone's spanner should stand."""
    outline = Part(
        name="spanner-advised", d=_cone_spanner(half, scale), paint="advised", title="turn it to here"
    )
    return Group(name="advised", turn={"advised": -1.0}, fade="advising", parts=(outline,))


def _cone(half: Half, scale: float) -> Group:
    """Return the cone with its seat and flats, and the spanner that turns it."""
    seat, flat = half.seat * scale, half.neck * scale
    edge = (max(half.neck + 0.6, min(half.washer, half.seat)) * scale) ** 2
    wide = max(edge - flat * flat, 0.0) ** 0.5
    return Group(
        name="cone",
        turn={"angle": -1.0},
        parts=(
            Part(name="cone-seat", d=path(ring((0, 0), seat, steps=36)), paint="seen-2", title="cone"),
            Part(name="pointer", d=path([(0, -RING), (-3.6, -INSIDE - 1), (3.6, -INSIDE - 1)]), paint="dark"),
            Part(
                name="cone-spanner", d=_cone_spanner(half, scale), paint="cone-spanner", title="cone spanner"
            ),
            Part(name="hole", d=path(ring((0, -56.5), 2.4, steps=20)), paint="paper"),
            Part(
                name="flats",
                d="".join(path([(x, -wide), (x, wide)], closed=False) for x in (-flat, flat)),
                paint="edge",
                title="flats of the cone",
            ),
        ),
    )


def _nut(half: Half, scale: float) -> Group:
    """Return the locknut with its spanner."""
    at, turn = NUT_SPANNER
    flat = half.washer * scale
    turned = [_turned(point, at) for point in spanner(flat, length=83.0, wide=6.0, head=10.0)]
    corners = [_turned(on_ring(60 * i + 30, flat / cos(pi / 6)), at + 30) for i in range(6)]
    return Group(
        name="nut",
        turn={"nut": turn},
        parts=(
            Part(name="nut-spanner", d=path(turned), paint="nut-spanner", title="locknut spanner"),
            Part(name="locknut", d=path(corners), paint="seen-3", title="locknut"),
            Part(name="bevel", d=path(ring((0, 0), 0.95 * flat, steps=36)), paint="fine"),
        ),
    )


def _turned(point: Point, angle: float) -> Point:
    c, s = cos(radians(angle)), sin(radians(angle))
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c


def _axle(half: Half, scale: float) -> Iterator[Part]:
    """Yield the end of the axle, its thread, its keyway and its bore."""
    crest = half.thread * scale
    root, wide = 0.87 * crest, 0.17 * crest
    if half.keyed:
        deep, edge = (crest * crest - wide * wide) ** 0.5, 0.8 * crest
        rim = [
            point for point in ring((0, 0), crest, steps=36) if not (abs(point[0]) < wide and point[1] < 0)
        ]
        rim.sort(key=lambda point: (pi / 2 - _angle(point)) % (2 * pi))
        outline = [(wide, -edge), (wide, -deep), *rim, (-wide, -deep), (-wide, -edge)]
    else:
        outline = ring((0, 0), crest, steps=36)
    yield Part(name="axle", d=path(outline), paint="seen-4", title="axle")
    below = [on_ring(a, root) for a in range(25, 336, 10)]
    yield Part(name="thread", d=path(below, closed=False), paint="thin")
    if half.bore:
        yield Part(
            name="bore",
            d=path(ring((0, 0), half.bore * scale, steps=36)),
            paint="paper",
            title="bore of the axle",
        )


def _angle(point: Point) -> float:
    return atan2(-point[1], point[0])


def _labels(good: Arc | None) -> Iterator[Label]:
    for minute, words in NUMBERED.items():
        yield Label(text=words, at=on_ring(-6.0 * minute, 75.5), group="ring")
    yield Label(text="finger contact", at=(0.0, -110.0), group="ring")
    yield Label(
        text="\N{ANTICLOCKWISE OPEN CIRCLE ARROW} out", at=(-106.0, -109.0), anchor="start", group="ring"
    )
    yield Label(text="in \N{CLOCKWISE OPEN CIRCLE ARROW}", at=(106.0, -109.0), anchor="end", group="ring")
    if good is not None:
        middle = -_beside(good)
        anchor = "end" if sin(radians(middle)) < 0 else "start"
        at = on_ring(middle, 106 + 5 * abs(cos(radians(middle))))
        yield Label(text="\N{CHECK MARK} good", at=at, anchor=anchor, group="good arc", ink="good")


def _beside(good: Arc) -> float:
    """Return where beside a range the words for it stand, out from finger contact [°]."""
    middle, (low, high) = sum(good) / 2, sorted(good)
    wanted = copysign(min(max(abs(middle), UPPER[0]), UPPER[1]), middle)
    return min(max(wanted, low - ALONG), high + ALONG)
