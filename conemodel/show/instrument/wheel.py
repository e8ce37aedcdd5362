"""What turns with the wheel on the whole view: shell, cups, balls, spokes, rim, and what the chain drives."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from conemodel.show.instrument import bearing
from conemodel.show.instrument.drawing import Group, Part, Point
from conemodel.show.instrument.faults import ASKEW
from conemodel.show.instrument.hub import WholeHub
from conemodel.show.instrument.measures import Half
from conemodel.show.instrument.paths import Place, arc, block, ring, wave

FLANGE = 3.5
"""Thickness of a spoke flange [mm]."""
BREAK, RIM = 48.0, 64.0
"""Radii at which spokes are broken off, and to which the rim is drawn in [mm]."""
MIDDLE = Place(0.0, 1, 1, digits=1)
LOWER = Place(0.0, 1, -1, digits=1)


@dataclass(frozen=True, slots=True)
class Flanges:
    """Outboard faces of both flanges, from the hub's middle out [mm]."""

    left: float
    right: float


def flanges_of(hub: WholeHub) -> Flanges:
    """Return where the flanges stand; on a driven side inboard of the sprockets."""
    left, right = (half.plane + bearing.flange_at(half) for half in hub.halves.values())
    if hub.driven == "freehub":
        right = hub.sprockets[0][0] - 4.5
    elif hub.driven == "freewheel":
        right = hub.halves["right"].plane + 5.3
    return Flanges(left, max(right, 4.0))


def wheel_groups(hub: WholeHub, *, tilt: float, shift: float) -> Iterator[Group]:
    """Yield the wheel.

    Args:
        hub: whose.
        tilt: how far it leans for each mm of `sway` [°].
        shift: how much further its rim goes then [mm].
    """
    flanges = flanges_of(hub)
    yield Group(name="wheel", turn={"sway": tilt}, parts=tuple(_spokes(hub, flanges)))
    if hub.driven != "no":
        yield Group(name="drive", parent="wheel", parts=tuple(_drive(hub)))
    yield Group(name="shell", parent="wheel", parts=tuple(_shell(hub, flanges)))
    yield Group(name="bearings", parent="wheel", parts=tuple(_bearings(hub)))
    for up, name in ((1, "rim top"), (-1, "rim bottom")):
        yield Group(name=name, parent="wheel", move={"sway": up * shift}, parts=tuple(_rim(up)))


def _outer(hub: WholeHub, flanges: Flanges) -> list[Point]:
    """Return the outside of the shell from its left end to its right one."""
    left, right = hub.halves["left"], hub.halves["right"]
    barrel = max(bearing.shell_bore(half) for half in (left, right)) + 2.8
    start = [(-left.plane - bearing.shell_end(left), left.shell_outer - 0.5)]
    start.append((start[0][0] + 0.5, left.shell_outer))
    points = [*start, *_flange(left, -flanges.left, -flanges.left + FLANGE)]
    inner = -flanges.left + FLANGE + 1.6
    points += [(inner, left.shell_outer), (inner + 6, barrel)] if left.shell_outer > barrel else []
    inner = flanges.right - FLANGE - 1.6
    points += [(inner - 6, barrel), (inner, right.shell_outer)]
    points += _flange(right, flanges.right - FLANGE, flanges.right)
    return [*points, *_right_end(hub, flanges)]


def _flange(half: Half, start: float, end: float) -> list[Point]:
    return [(start, half.shell_outer), (start, half.flange), (end, half.flange), (end, half.shell_outer)]


def _right_end(hub: WholeHub, flanges: Flanges) -> list[Point]:
    """Return the outside of the shell outboard of its right flange."""
    half = hub.halves["right"]
    end = half.plane + bearing.shell_end(half)
    if hub.driven == "freehub":
        body = half.cup_outer + 1.2
        return [(flanges.right + 2, half.shell_outer), (flanges.right + 2, body), (end - 2, body)]
    if hub.driven == "freewheel":
        thread = half.cup_outer + 2.4
        return [(flanges.right + 1.8, half.shell_outer), (flanges.right + 1.8, thread), (end + 8, thread)]
    return [(end - 0.5, half.shell_outer), (end, half.shell_outer - 0.5)]


def _shell(hub: WholeHub, flanges: Flanges) -> Iterator[Part]:
    """Yield the shell: cut above the axis, seen below it, its spoke holes open."""
    outer = _outer(hub, flanges)
    bore = max(bearing.shell_bore(half) for half in hub.halves.values())
    left, right = hub.halves["left"], hub.halves["right"]
    a, b = (half.plane + bearing.cup_home(half) for half in (left, right))
    inner = [
        (outer[-1][0], right.cup_outer),
        (b, right.cup_outer),
        (b, bore),
        (-a, bore),
        (-a, left.cup_outer),
    ]
    inner.append((outer[0][0], left.cup_outer))
    yield LOWER.part("shell", [(outer[0][0], 0), *outer, (outer[-1][0], 0)], "seen-1", title="hub shell")
    edges = (-flanges.left, -flanges.left + FLANGE, flanges.right - FLANGE, flanges.right)
    halves = (left, left, right, right)
    lines = [[(x, half.shell_outer), (x, half.flange)] for x, half in zip(edges, halves, strict=True)]
    yield LOWER.strokes("flange-edges", lines, "thin")
    yield MIDDLE.part("shell", [*outer, *inner], "shell", title="hub shell")
    for x, half in ((-flanges.left, left), (flanges.right - FLANGE, right)):
        hole = block((x, half.spoke_circle - 1.3), (x + FLANGE, half.spoke_circle + 1.3))
        yield MIDDLE.part("spoke-hole", hole, "paper")


def _bearings(hub: WholeHub) -> Iterator[Part]:
    """Yield dust caps, cups and the balls that are cut."""
    for side, half in hub.halves.items():
        place = hub.row(side)
        yield place.part("dust-cap", bearing.dust_cap(half), "cap", title="dust cap")
        askew = any(getattr(hub.scenario.condition, side).cup_tilt)
        cup = replace(place, lean=ASKEW * place.out) if askew else place
        yield cup.part(
            "cup", bearing.cup_outline(half), "cup", title="cup pressed in askew" if askew else "cup"
        )
        yield place.part("ball", bearing.ball_outline(half, steps=30), "ball", title="ball")


def _spokes(hub: WholeHub, flanges: Flanges) -> Iterator[Part]:
    """Yield spokes from both flanges, broken off, that lean to a rim in the middle between the dropouts."""
    rim = 1e3 * hub.scenario.wheel.rim_radius
    for up in (1, -1):
        place = Place(0.0, 1, up, digits=1)
        lines: list[list[Point]] = []
        middles = (FLANGE / 2 - flanges.left, flanges.right - FLANGE / 2)
        for at, half in zip(middles, hub.halves.values(), strict=True):
            low = half.spoke_circle
            lean = -at / (rim - low)
            for edge in (-1.0, 1.0):
                lines.append([(at + edge, low), (at + edge + lean * (BREAK - low), BREAK)])
            far = at + lean * (BREAK - low)
            lines.append(wave(far - 2.2, far + 2.2, BREAK, step=2.2, height=0.8))
        yield place.strokes("spokes", lines, "spoke", title="spokes")


def _rim(up: int) -> Iterator[Part]:
    """Yield the rim in section with its tyre, hollow, central between the dropouts; drawn in towards the hub."""
    place, b = Place(0.0, 1, up, digits=1), RIM
    for edge in (-1, 1):
        stub = [(edge * 2.6, b - 6.5), (edge * 1.4, b)]
        broken = wave(edge * 2.6 - 1.6, edge * 2.6 + 1.6, b - 6.5, step=1.6, height=0.6)
        yield place.strokes("spokes", [stub, broken], "spoke")
    outside = arc((0.0, b + 17.5), 12.5, 228, -48, steps=18)
    inside = arc((0.0, b + 17.5), 10.6, -46, 226, steps=18)
    yield place.part("tyre", [*outside, *inside], "tyre", title="tyre")
    right = [(6.5, b), (10, b + 3.6), (10, b + 12.5), (8.5, b + 12.5), (8.5, b + 7.4)]
    rim = [*right, *((-x, y) for x, y in reversed(right))]
    yield place.part("rim", rim, "shell", title="rim")
    hollow = [(5.8, b + 1.5), (8, b + 4), (8, b + 6)]
    yield place.part("rim-hollow", [*hollow, *((-x, y) for x, y in reversed(hollow))], "paper")


def _drive(hub: WholeHub) -> Iterator[Part]:
    """Yield sprockets and what carries them."""
    sprockets, half = hub.sprockets, hub.halves["right"]
    seat, low = _carrier(hub)
    start, end = sprockets[0][0] - 1.6, sprockets[-1][0] + 1.6
    words = "sprocket" if len(sprockets) == 1 else "sprockets"
    if hub.driven != "sprocket":
        yield LOWER.part(
            hub.driven, block((start - 1.5, 0), (end, seat)), "seen-2", title=f"{hub.driven} body"
        )
        yield MIDDLE.part(
            hub.driven, block((start - 1.5, low), (end, seat)), "nut", title=f"{hub.driven} body"
        )
        small = (seat + low) / 2 if hub.driven == "freewheel" else low
        for x in (start + 2.5, end - 2.5):
            yield MIDDLE.part("small-ball", ring((x, small), 1.1, steps=16), "ball-small")
    if hub.driven == "freewheel":
        inner = half.cup_outer + 2.4
        yield MIDDLE.part(
            "freewheel-inner", block((start, inner), (end - 2, low - 0.4)), "cone", title="freewheel"
        )
    for x, pitch in sprockets:
        radius = max(pitch, seat + 4)
        tooth = [
            (x - 0.9, radius - 1.5),
            (x - 0.3, radius + 2),
            (x + 0.3, radius + 2),
            (x + 0.9, radius - 1.5),
        ]
        yield LOWER.part("sprocket", [(x - 0.9, 0), *tooth, (x + 0.9, 0)], "seen-3", title=words)
        yield MIDDLE.part("sprocket", [(x - 0.9, seat), *tooth, (x + 0.9, seat)], "sprocket", title=words)


def _carrier(hub: WholeHub) -> tuple[float, float]:
    """Return outer and inner radius of what carries the sprockets."""
    half = hub.halves["right"]
    if hub.driven == "sprocket":
        return half.shell_outer, half.cup_outer
    if hub.driven == "freehub":
        return half.cup_outer + 3.4, half.cup_outer + 1.7
    return half.cup_outer + 9.5, half.cup_outer + 7.0
