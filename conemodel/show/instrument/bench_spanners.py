"""Open spanners on the whole view, seen on edge: one that holds the cone, one that holds the far side."""

from typing import Literal

from conemodel.parts.hub import Side
from conemodel.show.instrument.drawing import Group
from conemodel.show.instrument.hub import WholeHub
from conemodel.show.instrument.paths import block

REACH = 44.0
"""How far down a spanner's handle is drawn from the axis [mm]; schematic."""
THIN = 2.2
"""How thick a cone spanner is [mm]; common practice, no source: the flats of a cone are hardly wider."""


def edge_spanner(hub: WholeHub, side: Side, on: Literal["cone", "locknut"]) -> Group:
    """Return a spanner on a cone's flats or on a locknut, its handle towards the mechanic, drawn downwards."""
    half, place = hub.halves[side], hub.stack(side, up=-1)
    if on == "cone":
        start = half.cone_end - THIN
        held, words, moves = (
            block((start, half.neck - 2), (start + THIN, REACH)),
            "cone spanner",
            {"cone": 1.0},
        )
        move = {name: rate * hub.end(side).out for name, rate in moves.items()}
        part = place.part("cone-edge", held, "cone-spanner", title=words)
        return Group(name="cone spanner", parent="on the axle", move=move, parts=(part,))
    start, end = half.nut
    held = block((start + 0.4, half.washer - 2), (end - 0.4, REACH))
    part = place.part("far-edge", held, "nut-spanner", title="far-side spanner")
    return Group(name="far spanner", parent="on the axle", parts=(part,))
