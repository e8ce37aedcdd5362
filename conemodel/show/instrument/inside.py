"""What stands still on the whole view: axle, cones, washers, spacers and locknuts."""

from collections.abc import Iterator

from conemodel.parts.hub import SIDES, Side
from conemodel.show.instrument import bearing
from conemodel.show.instrument.close_up import STANDS_OFF
from conemodel.show.instrument.drawing import Group, Part, Point
from conemodel.show.instrument.hub import WholeHub
from conemodel.show.instrument.paths import Place, block, path

DEPTH = 0.6134
"""Depth of a thread's tooth over its pitch; a thin line stands for its root. Source: [ISO68-1], recalled."""


def inside_groups(hub: WholeHub) -> Iterator[Group]:
    """Yield the axle and both stacks; the adjustable one moves to true scale."""
    yield Group(name="axle", parts=tuple(_axle(hub)))
    for side in SIDES:
        adjusted = side == hub.adjusted
        out = hub.end(side).out
        move = {"cone": float(out)} if adjusted else {}
        off = {"off": out * STANDS_OFF} if adjusted else {}
        yield Group(name="cone" if adjusted else "far cone", move=move, parts=tuple(_cone(hub, side)))
        some = {name: 0.5 * size for name, size in off.items()}
        yield Group(
            name="washers" if adjusted else "far washers", move=move | some, parts=tuple(_washers(hub, side))
        )
        yield Group(name="nut" if adjusted else "far nut", move=move | off, parts=tuple(_nut(hub, side)))


def _axle(hub: WholeHub) -> Iterator[Part]:
    """Yield the axle: above the axis cut, below it seen, with thin lines at the root of its thread."""
    half = hub.halves["left"]
    v, low, root = half.thread, half.bore, half.thread - DEPTH * half.lead
    for up, inner, paint in ((-1, 0.0, "seen-3"), (1, low, "axle")):
        ends = {side: (hub.stack(side, up=up), hub.halves[side]) for side in SIDES}
        outline: list[Point] = []
        for place, each in ends.values():
            end = each.axle_end
            way = [(0.0, inner), (end, inner), (end, v - 0.6), (end - 0.6, v), (0.0, v)]
            outline += map(place.point, way if place.out > 0 else reversed(way))
        yield Part(name="axle", d=path(outline, digits=1), paint=paint, title="axle")
        lines = [
            [place.point((0.0, root)), place.point((each.axle_end - 0.6, root))]
            for place, each in ends.values()
        ]
        line = path([*reversed(lines[0]), *lines[1]], closed=False, digits=1)
        yield Part(name="thread", d=line, paint="thread")


def _cone(hub: WholeHub, side: Side) -> Iterator[Part]:
    """Yield a cone: cut above, its flats seen below with the diagonals that mark a flat."""
    half, above, below = hub.halves[side], hub.stack(side), hub.stack(side, up=-1)
    start, end = bearing.shoulder_of(half), half.cone_end
    yield below.part("cone", block((start, 0), (end, half.neck)), "seen-2", title="cone")
    cross = [
        [(start + 0.3, 0.4), (end - 0.3, half.neck - 0.3)],
        [(start + 0.3, half.neck - 0.3), (end - 0.3, 0.4)],
    ]
    yield below.strokes("flats", cross, "thin", title="flats of the cone")
    top = bearing.cone_top(half)
    threaded = max(half.threaded, half.nose)
    bottom = [(top[-1][0], half.thread), (threaded, half.thread)]
    if threaded > half.nose + 0.1:
        bottom += [(threaded, half.thread + 0.4), (half.nose, half.thread + 0.4)]
    else:
        bottom[-1] = (half.nose, half.thread)
    yield above.part("cone", [*top, *bottom], "cone", title="cone")


def _washers(hub: WholeHub, side: Side) -> Iterator[Part]:
    half, above, below = hub.halves[side], hub.stack(side), hub.stack(side, up=-1)
    inner, middle, outer = half.stack
    words = "keyed washer" if half.keyed else "washer"
    if middle > inner:
        low = half.thread - 1.0 if half.keyed else half.thread + 0.2
        yield below.part("washer", block((inner, 0), (middle, half.washer)), "seen-3", title=words)
        yield above.part("washer", block((inner, low), (middle, half.washer)), "washer", title=words)
    if outer > middle + 0.05:
        words = "long spacer" if outer - middle > 12 else "spacer"
        yield below.part("spacer", block((middle, 0), (outer, half.spacer)), "seen-1", title=words)
        yield above.part(
            "spacer", block((middle, half.thread + 0.3), (outer, half.spacer)), "spacer", title=words
        )


def _nut(hub: WholeHub, side: Side) -> Iterator[Part]:
    half, above, below = hub.halves[side], hub.stack(side), hub.stack(side, up=-1)
    start, end = half.nut
    corner = half.washer / 0.866
    yield below.part("locknut", block((start, 0), (end, corner), bevel=0.4), "seen-2", title="locknut")
    yield below.strokes("nut-edge", [[(start, corner / 2), (end, corner / 2)]], "thin")
    yield above.part(
        "locknut", block((start, half.thread), (end, half.washer), bevel=0.4), "nut", title="locknut"
    )


def axis_part(hub: WholeHub) -> Part:
    """Return the centre line."""
    reach = hub.face + 33
    return Place(0.0, 1).part("axis", [(-reach, 0), (reach, 0)], "axis", closed=False)
