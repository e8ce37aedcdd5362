"""What is no part of the hub but stands on its close view: touch, gap, where the race was and should be, the clamp."""

from collections.abc import Iterator

from conemodel.show.instrument import bearing
from conemodel.show.instrument.close_up import CloseUp
from conemodel.show.instrument.drawing import Group, Part, Point
from conemodel.show.instrument.faults import dent
from conemodel.show.instrument.lower_ball import INSET, lower_ball
from conemodel.show.instrument.paths import block

SHAFT = 0.06
"""Half the thickness of the arrow across the gap [mm drawn]."""


def sign_groups(close: CloseUp) -> Iterator[Group]:
    """Yield what is no part: where balls touch, how wide the gap is, where the race stood and should, the force."""
    half, place = close.half, close.place
    yield from _contact(close)
    for dented, words in close.dents.items():
        move = close.with_cone if dented == "cone" else close.with_wheel
        yield Group(name=f"dent {dented}", move=move, parts=(dent(half, place, dented, words),))
    u, v = half.contact
    head = 0.1 * half.ball
    arrow = [(u, v), (u + head, v - 0.55 * head), (u + head, v + 0.55 * head)]
    back = [(2 * u - x, y) for x, y in arrow]
    for at, move, outline in (("ball", close.with_wheel, arrow), ("cone", close.with_cone, back)):
        yield Group(
            name=f"gap at {at}", move=move, fade="open", parts=(place.part("gap-head", outline, "on-gap"),)
        )
    race = place.part("before", bearing.cone_race(half), "before", closed=False)
    for stage, when in (("backed_off", ("locked", "clamped", "ridden")), ("locked", ("clamped", "ridden"))):
        yield Group(
            name=f"was {stage}", move={f"at_{stage}": close.out(close.factor)}, when=when, parts=(race,)
        )
    if close.good is not None:
        move = {"aim": close.out(close.factor)}
        yield Group(name="should stand", move=move, parts=(_should_stand(close, close.good),))
    yield _force(close)
    yield from lower_ball(half, place, middle=inset(close))


def gap_groups(close: CloseUp) -> Iterator[Group]:
    """Yield the gap: a band carried by the cone as high as its race, covered by ball and cone but for what is open."""
    half, place = close.half, close.place
    u, v = half.contact
    far = close.most * close.factor + half.ball
    low, high = half.pitch - half.ball / 2, bearing.cone_race(half)[-1][1]
    clip = place.path(block((0.0, low - 1), (far + half.ball, high + 1)))
    band = place.part("gap", block((u - far, low), (u + 0.2 * half.ball, high)), "gap")
    shaft = place.part("gap-shaft", block((u - far, v - SHAFT), (u, v + SHAFT)), "on-gap")
    yield Group(name="gap", clip=clip)
    yield Group(name="gap band", parent="gap", move=close.with_cone, parts=(band,))
    yield Group(name="gap shaft", parent="gap band", fade="open", parts=(shaft,))


def _contact(close: CloseUp) -> Iterator[Group]:
    """Yield what shows that the ball touches: its line of contact, and where it bears on cup and cone."""
    half, place = close.half, close.place
    race = bearing.cone_race(half)
    at = race.index(min(race, key=lambda p: abs(p[0] - half.contact[0]) + abs(p[1] - half.contact[1])))
    yield Group(
        name="touches cone",
        move=close.with_cone,
        fade="touch",
        parts=(place.part("touches", race[max(at - 2, 0) : at + 3], "touches", closed=False),),
    )
    ball = bearing.ball_outline(half)
    half_way = len(ball) // 2
    yield Group(
        name="touches cup",
        move=close.with_wheel,
        fade="touch",
        parts=(
            place.part("line-of-contact", (half.cup_contact, half.contact), "axis", closed=False),
            place.part("touches", ball[half_way - 2 : half_way + 3], "touches", closed=False),
        ),
    )


def _should_stand(close: CloseUp, good: tuple[float, float]) -> Part:
    """Return the room the race has in the good range, where it meets the ball; edges only, the gap is seen through."""
    half = close.half
    near = [p for p in bearing.cone_race(half) if abs(p[0] - half.contact[0]) < 0.2 * half.ball]
    tight, loose = (close.factor * edge for edge in good)
    outline = [*((u + tight, v) for u, v in near), *((u + loose, v) for u, v in reversed(near))]
    return close.place.part("should-stand", outline, "good-edge", title="the race should stand here")


def _force(close: CloseUp) -> Group:
    """Return the arrow of the clamp's force on the locknut."""
    half, place = close.half, close.place
    u, v = half.nut[1] + 0.15, (half.thread + half.washer) / 2 + 0.4
    arrow = [(u, v), (u + 0.5, v + 0.28), (u + 0.5, v + 0.1), (u + 1.9, v + 0.1)]
    arrow += [(x, 2 * v - y) for x, y in reversed(arrow[1:])]
    return Group(
        name="clamp force",
        move=close.with_cone,
        fade="clamp",
        parts=(place.part("force", arrow, "takes", title="force of the clamp"),),
    )


def inset(close: CloseUp) -> Point:
    """Return where the middle of the lower ball's inset stands: as low as the washer's name and the cone let it.

    Low, since a picture that is not high shows little above the ball; clear of the dust cap's name beside it.
    """
    half = close.half
    return bearing.shell_end(half) + 2.7 + INSET, max(half.washer + 1.7, half.seat + 0.6) + INSET
