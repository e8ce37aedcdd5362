"""What clamps the hub, on the whole view from the side: quick release, axle nuts with their spanners, or thru-axle.

Everything is drawn where it stands once shut; how it turns is schematic.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import cos, radians, sin

from conemodel.parts.hub import SIDES, Side
from conemodel.show.instrument.drawing import Group, Part, Point
from conemodel.show.instrument.hub import WholeHub
from conemodel.show.instrument.measures import Half
from conemodel.show.instrument.paths import block, path, ring

FRAME = ("locked", "clamped", "ridden")
"""Stages in which the hub is held to be clamped."""
OPEN = 1.6
"""How far lever, nuts or head stand off before they are tightened [mm]; schematic."""
LEVER = 165.0
"""How far the lever of a quick release is turned [°]; schematic."""
REACH = 56.0
"""How far it reaches from its pivot, its outline's width included [mm]; schematic."""


@dataclass(frozen=True, slots=True)
class Swing:
    """How a handle is turned about the axle, clockwise from outside as a right-hand thread tightens; schematic.

    Attributes:
        start: where it stands before, from upright [°]; by: how far it is turned [°].
        long: how far it reaches from the axis [mm].
    """

    start: float
    by: float
    long: float


SPANNER = Swing(-100.0, 120.0, 32.0)
HANDLE = Swing(-150.0, 150.0, 36.0)
"""How the spanner of an axle nut and the handle of a thru-axle are turned."""


def clamp_groups(hub: WholeHub) -> Iterator[Group]:
    """Yield what clamps the hub."""
    kinds = {"quick release": _quick_release, "nuts": _nuts, "thru-axle": _thru_axle}
    yield from kinds[hub.scenario.clamp.kind](hub)


def _closing(
    hub: WholeHub, side: Side, name: str, parts: Iterable[Part], swing: Swing | None = None
) -> Group:
    """Return parts that come in by `OPEN` until they touch, and of which a handle's height shows how it is turned."""
    return Group(
        name=f"{name} {side}",
        when=FRAME,
        move={"apart": hub.end(side).out * OPEN},
        roll={"lever": swing.by} if swing else {},
        rolled=swing.start if swing else 0.0,
        parts=tuple(parts),
    )


def _quick_release(hub: WholeHub) -> Iterator[Group]:
    """Yield cam end with lever, nut end, and a conical spring in each."""
    for side, name in zip(SIDES, ("cam end", "rod nut"), strict=True):
        yield _closing(hub, side, name, _quick_end(hub, side))
    pivot = (lever_swing(hub)[0], 0.0)
    cam = path(ring((pivot[0] - 1.2, pivot[1] + 0.3), 0.8, steps=8), digits=1)
    yield Group(
        name="lever",
        parent="cam end left",
        turn={"lever": LEVER},
        about=pivot,
        parts=(
            Part(name="lever", d=path(_lever(pivot), digits=1), paint="handle", title="lever"),
            Part(name="pivot", d=path(ring(pivot, 3.2, steps=20), digits=1), paint="seen-3", title="cam"),
            Part(name="cam", d=cam, paint="dark"),
        ),
    )


def _quick_end(hub: WholeHub, side: Side) -> Iterator[Part]:
    half, above, below = hub.halves[side], hub.end(side), hub.end(side, up=-1)
    f = hub.clamp_face(side)
    inner, rim = half.thread + 1.6, max(half.thread + 4.5, half.face + 1.8)
    if side == "left":
        outside: list[Point] = [(f, rim), (f + 1.5, rim + 0.5), (f + 13.5, rim + 0.5), (f + 15.5, rim - 1.5)]
        outside.append((f + 15.5, 0))
        inside = [(f + 5.5, 0), (f + 5.5, inner), (f, inner)]
        words = "cam end"
    else:
        outside = [(f, rim), (f + 1.5, rim), (f + 9.5, rim - 2), (f + 11.5, rim - 3.5), (f + 11.5, 2.5)]
        inside = [(f + 5.5, 2.5), (f + 5.5, inner), (f, inner)]
        words = "nut of the quick release"
    last = outside[-1][0]
    yield below.part("clamp", [(f, 0), *outside[:-1], (last, 0)], "seen-2", title=words)
    yield above.part("clamp", [*outside, *inside], "clamp", title=words)
    wires = (ring((f + 0.9 + 1.75 * i, 3.2 + 0.75 * i), 0.55, steps=7) for i in range(3))
    yield Part(name="spring", d="".join(map(above.path, wires)), paint="dark", title="conical spring")


def lever_swing(hub: WholeHub) -> tuple[float, float]:
    """Return where on the axis the lever of a quick release turns, and how far it reaches from there [mm]."""
    return -hub.clamp_face("left") - 9.5, REACH


def _lever(pivot: Point) -> list[Point]:
    """Return the lever as it stands open: shut, it points up and is turned back from there."""
    shut = [
        (-5, 0),
        (-3.5, -3.5),
        (0, -5),
        (3.5, -3.5),
        (5, 0),
        (4.6, 8),
        (3.6, 15),
        (3.0, 24),
        (3.4, 33),
        (4.6, 42),
    ]
    shut += [
        (6, 50),
        (5.8, 52.4),
        (4.2, 54.2),
        (1.8, 54.4),
        (-0.2, 53.4),
        (-1, 52),
        (-3.2, 42),
        (-4.6, 30),
        (-5.2, 15),
    ]
    c, s = cos(radians(-LEVER)), sin(radians(-LEVER))
    return [(pivot[0] + x * c + y * s, pivot[1] + x * s - y * c) for x, y in shut]


def flat_of(half: Half) -> float:
    """Return how far the flats of an axle nut stand from the axis [mm]; schematic, after the axle."""
    return max(1.55 * half.thread, half.thread + 2.2)


def corner_of(half: Half) -> float:
    """Return how far the corners of an axle nut stand from the axis [mm]."""
    return flat_of(half) / cos(radians(30))


def washer_of(half: Half) -> float:
    """Return the radius of the washer under an axle nut [mm]."""
    return flat_of(half) + 1.6


def head_of(hub: WholeHub) -> float:
    """Return the radius of a thru-axle's head [mm]."""
    clamp = hub.scenario.clamp
    return max(1e3 * clamp.face_radius + 2.0, 500 * clamp.rod_diameter + 2.5)


def _nuts(hub: WholeHub) -> Iterator[Group]:
    """Yield a spanner and a nut on either end."""
    for side in SIDES:
        yield _closing(hub, side, "nut spanner", _nut_spanner(hub, side), SPANNER)
        yield _closing(hub, side, "axle nut", _axle_nut(hub, side))


def _nut_spanner(hub: WholeHub, side: Side) -> Iterator[Part]:
    """Yield an open spanner upright, seen edge on."""
    f = hub.clamp_face(side) + 3.5
    jaw = corner_of(hub.halves[side]) + 2.0
    outline = [(f, -jaw), (f, SPANNER.long - 1), (f + 1, SPANNER.long), (f + 4, SPANNER.long)]
    outline += [(f + 5, SPANNER.long - 1), (f + 5, -jaw)]
    yield hub.end(side).part("axle-spanner", outline, "handle", title="spanner on the axle nut")


def _axle_nut(hub: WholeHub, side: Side) -> Iterator[Part]:
    """Yield washer and nut on the axle's own thread."""
    half, above, below = hub.halves[side], hub.end(side), hub.end(side, up=-1)
    f, flat, corner, washer = hub.clamp_face(side), flat_of(half), corner_of(half), washer_of(half)
    under = block((f, 0), (f + 1.8, washer))
    cut = block((f, half.thread + 0.2), (f + 1.8, washer))
    yield below.part("clamp-washer", under, "seen-3", title="washer")
    yield above.part("clamp-washer", cut, "washer", title="washer")
    yield below.part("clamp", block((f + 1.8, 0), (f + 10, corner), bevel=0.6), "seen-2", title="axle nut")
    yield below.strokes("nut-edge", [[(f + 1.8, corner / 2), (f + 10, corner / 2)]], "thin")
    nut = block((f + 1.8, half.thread), (f + 10, flat), bevel=0.6)
    yield above.part("clamp", nut, "clamp", title="axle nut")


def _thru_axle(hub: WholeHub) -> Iterator[Group]:
    """Yield head and handle on the left; on the right the axle's thread holds in the dropout itself."""
    yield _closing(hub, "left", "thru-axle handle", (_thru_handle(hub),), HANDLE)
    yield _closing(hub, "left", "thru-axle", _thru_head(hub))


def _thru_head(hub: WholeHub) -> Iterator[Part]:
    f = hub.clamp_face("left")
    for place in (hub.end("left"), hub.end("left", up=-1)):
        outline = block((f, 0), (f + 4.5, head_of(hub)), bevel=0.8)
        yield place.part("clamp", outline, "seen-2", title="head of the thru-axle")


def _thru_handle(hub: WholeHub) -> Part:
    """Return the handle upright."""
    f, long = hub.clamp_face("left"), HANDLE.long
    outline = [(f + 4.5, -6), (f + 10, -6), (f + 11, 0), (f + 11, long - 16), (f + 9.5, long - 2)]
    outline += [(f + 7.5, long), (f + 6, long - 2), (f + 6.6, long - 16), (f + 6, 10), (f + 4.5, 6)]
    return hub.end("left").part("handle", outline, "handle", title="handle of the thru-axle")
