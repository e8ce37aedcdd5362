"""What a clamp is turned by, seen from its end beside the hub: the spanner on an axle nut, a thru-axle's handle.

It is turned about the axle, which the view from the side shows only by its height. A quick release is pulled there.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from conemodel.parts.hub import Side
from conemodel.show.instrument import clamps
from conemodel.show.instrument.clamps import FRAME, Swing
from conemodel.show.instrument.drawing import Box, Group, Label, Part, Point
from conemodel.show.instrument.hub import WholeHub
from conemodel.show.instrument.paths import Place, ring
from conemodel.show.instrument.spanner import spanner

NAME = "from its end"
"""Of the group that a hand turns."""
APART, ROUND_IT, UNDER = 5.0, 2.5, 7.5
"""How far it stands from the hub, how much wider its ring is than its handle reaches, and its name below [mm]."""


@dataclass(frozen=True, slots=True)
class EndView:
    """One end of the axle.

    Attributes:
        hub: whose; side: which end; swing: how it is turned; middle: where the axis stands, along x [mm].
    """

    hub: WholeHub
    side: Side
    swing: Swing
    middle: float

    @property
    def radius(self) -> float:
        """Of its ring [mm]."""
        return self.swing.long + ROUND_IT

    def part(self, name: str, points: Sequence[Point], paint: str, *, title: str = "") -> Part:
        """Return an outline round the axis, drawn upright, as it stands before it is turned."""
        at = Place(self.middle, 1, -1, digits=1, lean=self.swing.start)
        return at.part(name, points, paint, title=title)


def end_view(hub: WholeHub, view: Box) -> EndView | None:
    """Return the end that a hand turns, beside a view of the hub; None where there is a lever to be pulled."""
    turned: dict[str, tuple[Side, Swing]] = {
        "nuts": (hub.adjusted, clamps.SPANNER),
        "thru-axle": ("left", clamps.HANDLE),
    }
    if hub.scenario.clamp.kind not in turned:
        return None
    side, swing = turned[hub.scenario.clamp.kind]
    beside = APART + swing.long + ROUND_IT
    return EndView(hub, side, swing, view[0] - beside if side == "left" else view[0] + view[2] + beside)


def end_box(view: Box, end: EndView) -> Box:
    """Return a view of the hub with the end beside it."""
    left, top, width, height = view
    more = APART + 2 * end.radius
    return (left - more if end.side == "left" else left, top, width + more, height)


def end_groups(end: EndView) -> Iterator[Group]:
    """Yield what turns, and before it the axle's end, which does not."""
    nuts = end.hub.scenario.clamp.kind == "nuts"
    yield Group(
        name=NAME,
        when=FRAME,
        turn={"lever": end.swing.by},
        about=(end.middle, 0.0),
        parts=tuple(_nut(end) if nuts else _head(end)),
    )
    if nuts:
        crest = end.hub.halves[end.side].thread
        axle = end.part("axle-end", ring((0, 0), crest, steps=24), "seen-4", title="end of the axle")
        thread = end.part("thread", ring((0, 0), 0.87 * crest, steps=24), "thread")
        yield Group(name=f"axle {NAME}", when=FRAME, parts=(axle, thread))


def _ring(end: EndView) -> Part:
    return end.part("swing", ring((0, 0), end.radius), "face")


def _nut(end: EndView) -> Iterator[Part]:
    """Yield washer, spanner and nut."""
    half = end.hub.halves[end.side]
    flat, corner = clamps.flat_of(half), clamps.corner_of(half)
    yield _ring(end)
    yield end.part("clamp-washer", ring((0, 0), clamps.washer_of(half), steps=30), "seen-1", title="washer")
    outline = spanner(flat, length=end.swing.long, wide=2.6, head=4.0)
    yield end.part("axle-spanner", outline, "handle", title="spanner on the axle nut")
    yield end.part("axle-nut", ring((0, 0), corner, steps=6, start=30), "seen-3", title="axle nut")
    yield end.part("bevel", ring((0, 0), 0.95 * flat, steps=30), "fine")


def _head(end: EndView) -> Iterator[Part]:
    """Yield head and handle of a thru-axle."""
    head, long = clamps.head_of(end.hub), end.swing.long
    root, wide = 0.62 * head, 3.2
    yield _ring(end)
    yield end.part("clamp", ring((0, 0), head, steps=30), "seen-2", title="head of the thru-axle")
    tip = [(wide - 1, 2.0 - long), (wide - 3, -long), (3 - wide, -long), (1 - wide, 2.0 - long)]
    foot = [(-wide, -1.6 * head), (-root, -0.5 * root), (-root, 0.6 * root), (root, 0.6 * root)]
    outline = [*tip, *foot, (root, -0.5 * root), (wide, -1.6 * head)]
    yield end.part("handle", outline, "handle", title="handle of the thru-axle")


def end_label(end: EndView) -> Label:
    """Return its name and which way it is tightened."""
    words = end.hub.scenario.clamp.traits.words
    at = (end.middle, end.radius + UNDER)
    return Label(text=f"{words}, \N{CLOCKWISE OPEN CIRCLE ARROW} tightens", at=at, group=NAME)
