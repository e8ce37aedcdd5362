"""What holds the hub on the whole view: the vice on the bench, then dropouts or spacers, and what clamps them."""

from collections.abc import Iterator
from math import cos, radians, sin

from conemodel.parts.hub import SIDES, Side
from conemodel.show.instrument.drawing import Group, Part, Point
from conemodel.show.instrument.hub import WholeHub
from conemodel.show.instrument.paths import block, path, ring

BENCH = ("contact", "backed_off")
FRAME = ("locked", "clamped", "ridden")
"""Stages in which the hub stands in the vice, and in which it is held to be clamped."""
OPEN = 1.6
"""How far lever, nuts or head stand off before they are tightened [mm]; schematic."""
LEVER = 165.0
"""How far the lever of a quick release is turned [°]; schematic."""


def behind_groups(hub: WholeHub) -> Iterator[Group]:
    """Yield what lies behind the hub: the rod."""
    if hub.scenario.clamp.traits.through_axle:
        yield Group(name="rod", when=FRAME, parts=(_rod(hub),))


def front_groups(hub: WholeHub) -> Iterator[Group]:
    """Yield what holds the hub, stage by stage, and what the rider puts on it."""
    if hub.scenario.setting.axle_held == "vice":
        yield Group(name="vice", when=BENCH, parts=tuple(_vice(hub)))
    for side in SIDES:
        yield Group(name=f"{hub.seat(side)} {side}", when=FRAME, parts=tuple(_seat(hub, side)))
    kinds = {"quick release": _quick_release, "nuts": _nuts, "thru-axle": _thru_axle}
    yield from kinds[hub.scenario.clamp.kind](hub)
    yield from _proud(hub)
    yield Group(name="load", when=("ridden",), fade="load", parts=tuple(_load(hub)))


def _vice(hub: WholeHub) -> Iterator[Part]:
    """Yield the jaws, soft ones between, on the far end of the axle; on the locknut of an axle that has no end."""
    half = hub.halves[hub.far]
    on_end = half.protrusion > 2
    low = half.thread + 0.15 if on_end else half.washer / 0.866 + 0.15
    start = hub.face + 1.0 if on_end else hub.face - half.nut[1] + half.nut[0] + 0.5
    for up in (1, -1):
        place = hub.end(hub.far, up=up)
        yield place.part("vice", block((start, low + 2.2), (start + 15, low + 15)), "seen-2", title="vice")
        yield place.part("soft-jaw", block((start, low), (start + 15, low + 2.2)), "soft", title="soft jaw")


def _seat(hub: WholeHub, side: Side) -> Iterator[Part]:
    """Yield what the clamp presses on: a dropout, or a spacer on the locknut or on the axle's end."""
    half, above, below = hub.halves[side], hub.end(side), hub.end(side, up=-1)
    seat = hub.seat(side)
    if seat == "dropout":
        start, end = hub.face, hub.face + half.dropout
        yield above.part(
            "dropout", block((start, half.thread + 0.2), (end, half.washer + 8)), "frame", title="dropout"
        )
        yield below.part("dropout", block((start, 0), (end, half.washer + 6.5)), "seen-1", title="dropout")
        return
    start = hub.face + (half.protrusion if seat == "axle end" else 0.0)
    low = half.bore * 0.55 + half.thread * 0.45 if seat == "axle end" and half.bore else half.thread + 0.3
    words = "spacer on the axle's end" if seat == "axle end" else "spacer in place of the dropout"
    yield above.part(
        "clamp-spacer", block((start, low), (start + half.dropout, half.washer)), "spacer", title=words
    )
    yield below.part(
        "clamp-spacer", block((start, 0), (start + half.dropout, half.washer)), "seen-1", title=words
    )


def _rod(hub: WholeHub) -> Part:
    clamp = hub.scenario.clamp
    v = 500 * clamp.rod_diameter
    ends = {side: hub.clamp_face(side) for side in SIDES}
    left, right = -ends["left"] - 3.0, ends["right"] + 13.5
    if clamp.kind == "thru-axle":
        right = ends["right"]
    words = "thru-axle" if clamp.kind == "thru-axle" else "rod of the quick release"
    return Part(
        name="rod",
        d=path([(left, -v), (right, -v), (right, v), (left, v)], digits=1),
        paint="rod",
        title=words,
    )


def _closing(hub: WholeHub, side: Side, parts: Iterator[Part], *, by: str, name: str) -> Group:
    """Return parts that come in by `OPEN` as a variable goes from 0 to 1; they are drawn where they stand at 0."""
    return Group(name=f"{name} {side}", when=FRAME, move={by: -hub.end(side).out * OPEN}, parts=tuple(parts))


def _quick_release(hub: WholeHub) -> Iterator[Group]:
    """Yield cam end with lever, nut end, and a conical spring in each."""
    for side, name in zip(SIDES, ("cam end", "rod nut"), strict=True):
        yield _closing(hub, side, _quick_end(hub, side), by="clamp", name=name)
    pivot = (-hub.clamp_face("left") - OPEN - 9.5, 0.0)
    yield Group(
        name="lever",
        parent="cam end left",
        turn={"lever": LEVER},
        about=pivot,
        parts=(
            Part(name="lever", d=path(_lever(pivot), digits=1), paint="handle", title="lever"),
            Part(name="pivot", d=path(ring(pivot, 3.2, steps=20), digits=1), paint="seen-3", title="cam"),
            Part(
                name="cam",
                d=path(ring((pivot[0] - 1.2, pivot[1] + 0.3), 0.8, steps=8), digits=1),
                paint="dark",
            ),
        ),
    )


def _quick_end(hub: WholeHub, side: Side) -> Iterator[Part]:
    half, above, below = hub.halves[side], hub.end(side), hub.end(side, up=-1)
    f = hub.clamp_face(side) + OPEN
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


def _nuts(hub: WholeHub) -> Iterator[Group]:
    for side in SIDES:
        yield _closing(hub, side, _axle_nut(hub, side), by="lever", name="axle nut")


def _axle_nut(hub: WholeHub, side: Side) -> Iterator[Part]:
    """Yield washer and nut on the axle's own thread."""
    half, above, below = hub.halves[side], hub.end(side), hub.end(side, up=-1)
    f = hub.clamp_face(side) + OPEN
    flat = max(1.55 * half.thread, half.thread + 2.2)
    corner = flat / 0.866
    yield below.part("clamp-washer", block((f, 0), (f + 1.8, flat + 1.6)), "seen-3", title="washer")
    yield above.part(
        "clamp-washer", block((f, half.thread + 0.2), (f + 1.8, flat + 1.6)), "washer", title="washer"
    )
    yield below.part("clamp", block((f + 1.8, 0), (f + 10, corner), bevel=0.6), "handle", title="axle nut")
    yield below.strokes("nut-edge", [[(f + 1.8, corner / 2), (f + 10, corner / 2)]], "thin")
    yield above.part(
        "clamp", block((f + 1.8, half.thread), (f + 10, flat), bevel=0.6), "clamp", title="axle nut"
    )


def _thru_axle(hub: WholeHub) -> Iterator[Group]:
    """Yield head and handle on the left; on the right the axle's thread holds in the dropout itself."""
    yield _closing(hub, "left", _thru_head(hub), by="lever", name="thru-axle")


def _thru_head(hub: WholeHub) -> Iterator[Part]:
    clamp = hub.scenario.clamp
    above, below = hub.end("left"), hub.end("left", up=-1)
    f, rod = hub.clamp_face("left") + OPEN, 500 * clamp.rod_diameter
    rim = max(1e3 * clamp.face_radius + 2.0, rod + 2.5)
    for place in (above, below):
        yield place.part(
            "clamp", block((f, 0), (f + 4.5, rim), bevel=0.8), "seen-2", title="head of the thru-axle"
        )
    handle = [
        (f + 4.5, -6),
        (f + 10, -6),
        (f + 11, 0),
        (f + 11, 30),
        (f + 9.5, 44),
        (f + 7.5, 46),
        (f + 6, 44),
    ]
    yield above.part("handle", [*handle, (f + 6.6, 30), (f + 6, 10), (f + 4.5, 6)], "handle", title="handle")


def _proud(hub: WholeHub) -> Iterator[Group]:
    """Yield in red the face of an axle that stands proud: the clamp bears on it and not on the dropout."""
    if not hub.scenario.clamp.traits.held_by_ends:
        return
    for side in SIDES:
        half, place = hub.halves[side], hub.end(side)
        if hub.seat(side) != "dropout" or half.protrusion < half.dropout:
            continue
        end, dropout = hub.face + half.protrusion, hub.face + half.dropout
        lines = [[(end, up * half.bore), (end, up * half.thread)] for up in (1, -1)]
        lines += [[(dropout, up * (half.thread + 0.2)), (dropout, up * (half.washer + 6))] for up in (1, -1)]
        marks = place.strokes("proud", lines, "fault", title="the axle stands proud: the dropout is not held")
        yield Group(name=f"proud {side}", when=FRAME, parts=(marks,))


def _load(hub: WholeHub) -> Iterator[Part]:
    """Yield the rider's weight on both dropouts and the road's push up through the spokes below."""
    arrow = [(-1.1, 0), (1.1, 0), (1.1, 13), (3.2, 13), (0, 19), (-3.2, 13), (-1.1, 13)]
    top = -max(half.washer for half in hub.halves.values()) - 28
    for side in SIDES:
        x = hub.end(side).out * (hub.face + hub.halves[side].dropout / 2)
        yield Part(
            name="load", d=path([(x + u, top + v) for u, v in arrow], digits=1), paint="dark", title="rider"
        )
    yield Part(name="load", d=path([(u, 55 - v) for u, v in arrow], digits=1), paint="dark", title="road")
