"""What holds the hub on the whole view: the vice on the bench, then dropouts or spacers, and what clamps them."""

from collections.abc import Iterator

from conemodel.parts.hub import SIDES, Side
from conemodel.show.instrument.clamps import FRAME, clamp_groups
from conemodel.show.instrument.drawing import Group, Part
from conemodel.show.instrument.hub import WholeHub
from conemodel.show.instrument.paths import block, path

BENCH = ("contact", "backed_off")
"""Stages in which the hub stands in the vice."""


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
    yield from clamp_groups(hub)
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
