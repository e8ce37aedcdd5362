"""The names on the close view, each beside or on its part."""

from collections.abc import Iterator

from conemodel.show.instrument import bearing
from conemodel.show.instrument.close_up import CloseUp
from conemodel.show.instrument.drawing import Label
from conemodel.show.instrument.lower_ball import INSET
from conemodel.show.instrument.paints import PAINTS
from conemodel.show.instrument.signs import inset
from conemodel.show.instrument.stack import washer_words

IN_AXLE = PAINTS["axle"]["fill"]


def close_labels(close: CloseUp) -> Iterator[Label]:
    """Yield the names of the parts, each beside or on its own."""
    half, place = close.half, close.place
    k, point = half.scale, place.point
    inner, middle, outer = half.stack
    away = "end" if place.out < 0 else "start"
    yield Label(
        text="hub shell", at=point((bearing.shell_end(half) + 0.5, half.cup_outer + 1.5 * k)), anchor=away
    )
    yield Label(
        text="dust cap", at=point((bearing.shell_end(half) + 0.1, half.cup_outer - 2.6 * k)), anchor=away
    )
    yield Label(
        text="cup", at=point((-4.1 * k, half.cup_outer - 2 * k)), group="wheel", aside=0.45 * place.out
    )
    yield Label(text="ball", at=point((-0.9 * k, half.pitch - 0.8 * k)), group="ball")
    yield _cone_label(close)
    if middle > inner:
        top = ((inner + middle) / 2, half.washer)
        at = point((top[0], half.washer + 1.1))
        yield Label(text=washer_words(half), at=at, group="washer", leader=point(top))
    if outer > middle + 2.5:
        yield Label(text="spacer", at=point(((middle + outer) / 2, half.spacer + 0.4)), group="spacer")
    yield Label(text="locknut", at=point((sum(half.nut) / 2, half.washer + 0.4)), group="nut")
    yield Label(text="axle", at=point((-4.9 * k, close.in_axle)), ink="ink", on=IN_AXLE)
    yield from _flank_labels(close)
    if "cup" in close.dents:
        u, v = half.cup_contact
        at = point((-5.2 * k, v - 3.0 * k))
        yield Label(text="dented cup", at=at, group="dent cup", leader=point((u, v)), few="dented")
    u, v = inset(close)
    for line, words in enumerate(("a ball below", "the axle carries")):
        at = point((u + INSET + 0.5, v + 0.3 - 0.75 * line))
        yield Label(text=words, at=at, anchor=away, group="lower ball")
    force = point((half.nut[1] + 1.1, (half.thread + half.washer) / 2 + 1.1))
    yield Label(text=close.force, at=force, group="clamp force")


def _cone_label(close: CloseUp) -> Label:
    """Return the cone's name; where its race is dented it says so and points there."""
    half = close.half
    inner, outer, v = bearing.shoulder_of(half), half.cone_end, half.neck + 0.4
    point, away = close.place.point, "end" if close.place.out < 0 else "start"
    if "cone" in close.dents:
        at, race = point((inner + 0.6, v)), point(half.contact)
        return Label(text="dented cone", at=at, anchor=away, group="dent cone", leader=race, few="dented")
    return Label(text="cone", at=point(((inner + outer) / 2, v)), group="cone")


def _flank_labels(close: CloseUp) -> Iterator[Label]:
    """Yield what pushes on the flanks that carry, under a tooth in the middle of the cone."""
    half, place, thread = close.half, close.place, close.thread
    middle = (half.threaded + half.cone_end) / 2 + 0.1 * close.factor
    for words, outer in (("ball pushes out", True), ("nut pushes in", False)):
        flanks = thread.flanks(middle - thread.pitch, middle + thread.pitch, outer=outer)
        foot = min(flanks, key=lambda flank: abs(flank[0][0] - middle))[0]
        at = place.point((foot[0], close.in_axle))
        yield Label(text=words, at=at, group=words, leader=place.point(foot), ink="ink", on=IN_AXLE)
