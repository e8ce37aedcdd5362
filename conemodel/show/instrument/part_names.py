"""The name of every part round the whole hub: the bearing's above it, axle and clamp below, none on another."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from conemodel.parts.hub import Side
from conemodel.parts.scenario import Scenario
from conemodel.show.instrument import bearing, end_view
from conemodel.show.instrument.drawing import Label, Plate, Point
from conemodel.show.instrument.hub import WholeHub, hub_of
from conemodel.show.instrument.stack import washer_words
from conemodel.show.instrument.still import TEXT

LETTER = 0.58
"""Mean width of a letter over its size; generous, so that names keep apart."""
ROOM = 3.2
"""Height of a row of names over the size of its text."""

BESIDE = ("rim top", "rim bottom", "lens", end_view.NAME, f"axle {end_view.NAME}")
"""Groups that are left out."""

Named = tuple[str, Point]


def with_names(plate: Plate, scenario: Scenario, *, width: float, half: bool) -> Plate:
    """Return the whole view with its parts named, `half`: the adjustable side alone; `width`: of the picture [px]."""
    hub = hub_of(scenario)
    left, top, wide, tall = plate.view
    if half:
        wide = -left + 12.0
        left = left if hub.adjusted == "left" else -12.0
    size = TEXT * wide / width
    view = (left, top - ROOM * size, wide, tall + 2 * ROOM * size)
    above = [*_bearing(hub, hub.adjusted, few=half), *([] if half else _far(hub))]
    rows = ((above, top - 1.4 * size), (list(_clamp(hub, half)), top + tall + 2.0 * size))
    labels = [label for named, y in rows for label in _row(named, y, view, size)]
    groups = tuple(group for group in plate.groups if group.name not in BESIDE)
    return replace(plate, view=view, groups=groups, labels=tuple(labels))


def _bearing(hub: WholeHub, side: Side, *, few: bool) -> Iterator[Named]:
    """Yield names and places of one side's bearing; a few of them leave out what has room only on a page."""
    half, place = hub.halves[side], hub.row(side)
    inner, middle, outer = half.stack
    yield "locknut", place.point((sum(half.nut) / 2, half.washer - 1.5))
    if outer > middle + 2 and not few:
        yield "spacer", place.point(((middle + outer) / 2, half.spacer - 1))
    if middle > inner:
        yield washer_words(half), place.point(((inner + middle) / 2, half.washer - 1))
    yield "cone", place.point((bearing.shoulder_of(half) - 1, half.seat - 1))
    if not few:
        yield "dust cap", place.point((bearing.shell_end(half) - 0.8, half.cup_outer - 2))
    yield "ball", place.point((0.0, half.pitch + 0.2 * half.ball))
    yield "cup", place.point((-3.6 * half.scale, half.cup_outer - 1.5))
    yield "hub shell", place.point((-3 * half.ball, bearing.shell_bore(half) + 1.4))


def _far(hub: WholeHub) -> Iterator[Named]:
    """Yield names and places on the side that is not adjusted."""
    half, place = hub.halves[hub.far], hub.row(hub.far)
    if hub.driven != "no":
        at, radius = hub.sprockets[0]
        yield "sprockets" if len(hub.sprockets) > 1 else "sprocket", (at, -radius)
    yield "cone", place.point((bearing.shoulder_of(half) - 1, half.seat - 1))
    yield "locknut", place.point((sum(half.nut) / 2, half.washer - 1.5))


def _clamp(hub: WholeHub, half: bool) -> Iterator[Named]:
    """Yield names and places of the flats, the axle and what holds it."""
    side = hub.adjusted
    measures, below, end = hub.halves[side], hub.row(side, up=-1), hub.end(side, up=-1)
    clamp = hub.scenario.clamp
    kind, seat = clamp.traits, hub.seat(side)
    face = hub.clamp_face(side)
    yield kind.part, end.point((face + 4, measures.thread + 1))
    yield (
        "spacer" if seat != "dropout" else "dropout",
        end.point((face - measures.dropout / 2, measures.face + 2)),
    )
    flats = (bearing.shoulder_of(measures) + measures.cone_end) / 2
    yield "flats", below.point((flats, measures.neck - 1))
    yield "spokes", below.point((bearing.flange_at(measures) - 1.75, measures.spoke_circle + 6))
    yield "axle", hub.end(side).point((0.25 * measures.plane, (measures.thread + measures.bore) / 2))
    if kind.through_axle and not half:
        yield (
            "thru-axle" if clamp.kind == "thru-axle" else "rod",
            hub.end(hub.far).point((0.3 * measures.plane, 0.0)),
        )


def _row(
    named: Sequence[Named], y: float, view: tuple[float, float, float, float], size: float
) -> Iterator[Label]:
    """Yield names side by side at height `y`, as near to their parts as they go without touching."""
    ordered = sorted(named, key=lambda each: each[1][0])
    wanted = [target[0] for _, target in ordered]
    rooms = [LETTER * size * (len(words) + 1) for words, _ in ordered]
    for (words, target), x in zip(ordered, _apart(wanted, rooms, view[0], view[0] + view[2]), strict=True):
        yield Label(text=words, at=(x, y), leader=target)


def _apart(wanted: Sequence[float], rooms: Sequence[float], left: float, right: float) -> list[float]:
    """Return middles as near as possible to those wanted at which texts of these widths do not overlap."""
    steps = [(one + other) / 2 for one, other in pairwise(rooms)]
    first, last = left + rooms[0] / 2, right - rooms[-1] / 2
    rightwards, leftwards = _push(wanted, steps, first), _pull(wanted, steps, last)
    # each of the two keeps its distances, and so does what lies halfway between them
    halfway = [(one + other) / 2 for one, other in zip(rightwards, leftwards, strict=True)]
    return _pull(_push(halfway, steps, first), steps, last)


def _push(middles: Sequence[float], steps: Sequence[float], first: float) -> list[float]:
    """Return middles moved right only as far as keeps each clear of the one before."""
    placed = [max(middles[0], first)]
    for middle, step in zip(middles[1:], steps, strict=True):
        placed.append(max(middle, placed[-1] + step))
    return placed


def _pull(middles: Sequence[float], steps: Sequence[float], last: float) -> list[float]:
    """Return middles moved left only as far as keeps them clear, the last within its edge."""
    turned = _push([-middle for middle in reversed(middles)], list(reversed(steps)), -last)
    return [-middle for middle in reversed(turned)]
