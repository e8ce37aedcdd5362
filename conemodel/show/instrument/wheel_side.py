"""The wheel from its side, to true scale, as it turns in the frame; the nearer blade is left off."""

from collections.abc import Iterable, Iterator
from math import cos, pi, radians, sin

from conemodel.show.instrument.dial import on_ring
from conemodel.show.instrument.drawing import Group, Part, Plate, Point
from conemodel.show.instrument.hub import WholeHub
from conemodel.show.instrument.paths import path, ring

SPOKES = 32
LEAN = 62.0
"""How far a spoke leaves its flange from where it meets the rim [°]; schematic."""
RIM, TYRE = (-14.0, 8.0), 34.0
"""The rim's inner and outer edge and the tyre's tread, from where play at the rim is taken [mm]; schematic."""
ROOM = 6.0


def side_plate(hub: WholeHub) -> Plate:
    """Return the wheel with its valve, at the bottom while `spun` is 0, and the blade behind it."""
    middle = 1e3 * hub.scenario.wheel.rim_radius
    reach = middle + TYRE + ROOM
    return Plate(
        view=(-reach, -reach, 2 * reach, 2 * reach),
        groups=(
            Group(name="blade", move={"shiver": 1.0}, parts=(_blade(reach),)),
            Group(name="spokes", turn={"spun": 1.0}, parts=(_spokes(hub, middle + RIM[0]),)),
            Group(name="rim", parts=tuple(_rim(middle))),
            Group(name="valve", turn={"spun": 1.0}, fade="valve", parts=(_valve(middle + RIM[0]),)),
            Group(name="hub", parts=tuple(_hub(hub))),
        ),
    )


def _drawn(*outlines: Iterable[Point], closed: bool = True) -> str:
    return "".join(path(outline, closed=closed, digits=1) for outline in outlines)


def _blade(reach: float) -> Part:
    outline = [(-14, -reach), (14, -reach), (11, -14), *_half_round(11), (-11, -14)]
    return Part(name="blade", d=_drawn(outline), paint="seen-1", title="blade of the frame")


def _half_round(radius: float) -> Iterator[Point]:
    yield from ((radius * cos(radians(a)), radius * sin(radians(a))) for a in range(0, 181, 15))


def _band(inner: float, outer: float) -> str:
    """Return a ring between two radii: its inner edge runs the other way round."""
    return _drawn(ring((0, 0), outer, steps=120), reversed(ring((0, 0), inner, steps=120)))


def _rim(middle: float) -> Iterator[Part]:
    yield Part(name="tyre", d=_band(middle + RIM[1], middle + TYRE), paint="tyre", title="tyre")
    yield Part(name="rim", d=_band(middle + RIM[0], middle + RIM[1]), paint="seen-1", title="rim")


def _valve(edge: float) -> Part:
    outline = [(-4.5, edge + 10), (-4.5, edge - 34), (4.5, edge - 34), (4.5, edge + 10)]
    return Part(name="valve", d=_drawn(outline), paint="given", title="valve")


def _spokes(hub: WholeHub, edge: float) -> Part:
    """Return spokes of both flanges, each leaving its flange near its tangent."""
    low = hub.halves["left"].spoke_circle
    lines = []
    for i in range(SPOKES):
        at = 360 * (i + 0.5) / SPOKES
        lines.append([on_ring(at + (LEAN if i % 2 else -LEAN), low), on_ring(at, edge)])
    return Part(name="spokes", d=_drawn(*lines, closed=False), paint="spoke", title="spokes")


def _hub(hub: WholeHub) -> Iterator[Part]:
    """Yield the left end of the hub, which carries no sprocket."""
    half = hub.halves["left"]
    sizes = (
        ("flange", half.flange, "seen-1", "flange"),
        ("shell", half.shell_outer, "seen-2", "hub shell"),
        ("dust-cap", half.cup_outer, "cap", "dust cap"),
        ("cone", half.seat, "seen-2", "cone"),
    )
    for name, radius, paint, title in sizes:
        yield Part(name=name, d=_drawn(ring((0, 0), radius, steps=60)), paint=paint, title=title)
    corners = ring((0, 0), half.washer / cos(pi / 6), steps=6)
    yield Part(name="locknut", d=_drawn(corners), paint="seen-3", title="locknut")
    yield Part(name="axle", d=_drawn(ring((0, 0), half.thread, steps=30)), paint="seen-4", title="axle")
