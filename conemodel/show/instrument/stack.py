"""Cone, washer, spacer and locknut of the close view, each threaded one with its teeth among the axle's."""

from collections.abc import Iterator

from conemodel.show.instrument import bearing
from conemodel.show.instrument.close_up import STANDS_OFF, CloseUp
from conemodel.show.instrument.drawing import Group, Part
from conemodel.show.instrument.measures import Half
from conemodel.show.instrument.paths import block, wave

FLAT = 0.42
"""How thick cone and nut are drawn behind their teeth, before the break between the two scales [mm]."""
BREAK = 0.34
"""Width of that break [mm]."""


def cone_groups(close: CloseUp) -> Iterator[Group]:
    """Yield the cone: its body, and cut out of the comb of its thread what its bore holds."""
    half, place, thread = close.half, close.place, close.thread
    top = bearing.cone_top(half)
    start, end = max(half.threaded, half.nose), top[-1][0]
    above = thread.bore + FLAT + BREAK
    bottom = wave(end, start, above)
    if start > half.nose + 0.1:  # bored out wider inboard of its thread
        bottom += [(start, thread.bore + 0.4), (half.nose, thread.bore + 0.4)]
    yield Group(
        name="cone",
        move=close.with_cone,
        parts=(
            place.part("cone", [*top, *bottom], "cone", title="cone"),
            place.part("race", bearing.cone_race(half), "edge", closed=False),
        ),
    )
    yield from _threaded(close, "cone", start, end)


def _threaded(close: CloseUp, name: str, start: float, end: float) -> Iterator[Group]:
    """Yield the threaded inside of cone or nut: the comb, what carries on it, and its ends."""
    place, thread, out = close.place, close.thread, close.out
    v = thread.bore
    inboard, outboard = close.travel
    flank, slack = f"{name}_flank", thread.slack / 2
    clip = place.path(block((start - 0.04, thread.root - 0.5), (end + 0.04, v + FLAT + BREAK)))
    back = place.part(
        f"{name}-bore", [(end, v), *wave(end, start, v + FLAT), (start, v)], "threaded", closed=False
    )
    yield Group(name=f"{name} bore", parent=name, clip=clip, parts=(back,))
    teeth = thread.comb(start - inboard, end + outboard)
    still = {"cone": -out(close.factor), "clamp": -out(close.factor * close.shortens)}
    if name == "nut":
        still |= {"off": -out(STANDS_OFF)}
    yield Group(
        name=f"{name} thread",
        parent=f"{name} bore",
        move={**still, flank: -out(slack)},
        parts=(place.part(f"{name}-teeth", teeth, "threaded", title=f"thread of the {name}", closed=False),),
    )
    yield from _carrying(close, name, (start - inboard, end + outboard))
    yield Group(name=f"{name} ends", parent=name, parts=_ends(close, start, end))


def _carrying(close: CloseUp, name: str, span: tuple[float, float]) -> Iterator[Group]:
    """Yield the flanks that carry: the ball pushes the cone out, the nut pushes it in and is itself pushed out."""
    place, thread = close.place, close.thread
    tight = ("locked", "clamped", "ridden")
    loads = (
        [("ball pushes out", True, ("contact",), None), ("nut pushes in", False, tight, "nut")]
        if name == "cone"
        else [("cone pushes the nut out", True, tight, "nut")]
    )
    for words, outer, when, fade in loads:
        marks = place.strokes("carries", thread.flanks(*span, outer=outer), "carries", title=words)
        yield Group(name=words, parent=f"{name} thread", parts=(marks,), when=when, fade=fade)


def _ends(close: CloseUp, start: float, end: float) -> tuple[Part, ...]:
    """Return the ends of a thread, countersunk, so that no tooth ends in a splinter."""
    v, deep = close.thread.bore + 0.1, 0.65
    sunk = (
        [(u, v), (u + way * deep, v - deep), (u, v - deep - 0.3)]
        for u, way in ((start - 0.05, 1), (end + 0.05, -1))
    )
    return tuple(close.place.part("countersink", outline, "clear") for outline in sunk)


def stack_groups(close: CloseUp) -> Iterator[Group]:
    """Yield washer and spacer between cone and locknut; they stand apart while the nut is run back."""
    half, place = close.half, close.place
    inner, middle, outer = half.stack
    bore = close.thread.bore + 0.22
    if middle > inner:
        washer = place.part(
            "washer", block((inner, bore), (middle, half.washer)), "washer", title=washer_words(half)
        )
        yield _standing_off(close, "washer", 0.2, (washer,))
    if outer > middle + 0.05:
        spacer = place.part("spacer", block((middle, bore), (outer, half.spacer)), "spacer", title="spacer")
        yield _standing_off(close, "spacer", 0.6, (spacer, *_break(close, (middle + outer) / 2, bore)))


def _break(close: CloseUp, at: float, bore: float) -> tuple[Part, ...]:
    """Return the break in a spacer that is drawn shorter than it is."""
    if not close.broken:
        return ()
    top = close.half.spacer
    edge = [(at - 0.4 + v, u) for u, v in wave(bore, top, 0.0, step=0.9)]
    other = [(u + 0.8, v) for u, v in edge]
    gap = [(u, v + (0.2 if v > bore + 0.1 else -0.2)) for u, v in (edge[0], edge[-1], other[-1], other[0])]
    clear = close.place.part("break", [gap[0], *edge, gap[1], gap[2], *reversed(other), gap[3]], "clear")
    lines = close.place.strokes("break-edge", (edge, other), "thin", title="spacer, drawn shorter")
    return (clear, lines)


def washer_words(half: Half) -> str:
    """Return what the washer beside the cone is called."""
    return "keyed washer" if half.keyed else "washer"


def _standing_off(close: CloseUp, name: str, share: float, parts: tuple[Part, ...]) -> Group:
    """Return a group of the stack that stands off by a share of what the nut does."""
    move = {**close.with_cone, "off": close.out(share * STANDS_OFF)}
    return Group(name=name, move=move, parts=parts)


def nut_groups(close: CloseUp) -> Iterator[Group]:
    """Yield the locknut."""
    half, place, thread = close.half, close.place, close.thread
    start, end = half.nut
    above = thread.bore + FLAT + BREAK
    body = [(start, half.washer - 0.3), (start + 0.3, half.washer), (end - 0.5, half.washer)]
    body += [(end, half.washer - 0.5), *wave(end, start, above)]
    yield _standing_off(close, "nut", 1.0, (place.part("locknut", body, "nut", title="locknut"),))
    yield from _threaded(close, "nut", start, end)


def key_groups(close: CloseUp) -> Iterator[Group]:
    """Yield the washer's key in the keyway along the axle."""
    half, place, thread = close.half, close.place, close.thread
    inner, middle, _ = half.stack
    if not half.keyed or middle <= inner:
        return
    floor = thread.root + 0.1
    room, top = 0.28, thread.bore + 0.22
    way = block((inner - room, floor - 0.15), (middle + room, top))
    tab = [(inner, top), (inner, floor), (middle, floor), (middle, top)]
    parts = (
        place.part("keyway", way, "clear", title="keyway"),
        place.part("keyway-edge", way, "thin", closed=False),
        place.part("key", [*tab, (middle, top + 0.1), (inner, top + 0.1)], "key", title="key of the washer"),
        place.part("key-edge", tab, "edge", closed=False),
    )
    yield _standing_off(close, "key", 0.2, parts)
