"""Outlines of ball, cone, cup, dust cap and shell of one side, as in `measures`."""

from math import degrees

from conemodel.show.instrument.drawing import Point
from conemodel.show.instrument.measures import Half
from conemodel.show.instrument.paths import arc, ring

BEYOND = 28.0
"""How far a race goes on past the line of contact [°]; schematic."""


def ball_outline(half: Half, *, steps: int = 60) -> list[Point]:
    """Return a ball; the points where it touches cone and cup are corners of it."""
    return ring((0.0, half.pitch), half.ball / 2, steps=steps, start=degrees(half.angle) - 90)


def cone_race(half: Half) -> list[Point]:
    """Return the race of a cone that just touches, from its foot inboard to its lip; the contact is a corner of it."""
    reach, contact = half.cone_groove - half.ball / 2, degrees(half.angle)
    centre = _off_centre(half, -reach)
    down, up = (
        arc(centre, half.cone_groove, first - 90, last - 90, steps=steps)
        for first, last, steps in ((0.0, contact, 8), (contact, min(contact + BEYOND, 84.0), 6))
    )
    return [point for point in [*down, *up[1:]] if point[0] > half.nose and point[1] > half.thread + 0.5]


def _off_centre(half: Half, reach: float) -> Point:
    """Return the centre of a groove that lies `reach` beyond the ball's, along the line of contact outboard."""
    u, v = half.contact
    share = reach / (half.ball / 2)
    return share * u, half.pitch + share * (v - half.pitch)


def cone_top(half: Half) -> list[Point]:
    """Return the outside of a cone, from the foot of its nose to that of its outer end; flats as the spanner finds."""
    race, k = cone_race(half), half.scale
    seat = max(half.seat, race[-1][1] + 0.03)
    lip = race[-1][0] + 0.25 * k
    shoulder = max(min(lip + 3.7 * k, half.cone_end - 4.5), lip + 0.6)
    end = max(half.cone_end, shoulder + 0.8)
    nose = race[0][1]
    return [
        (half.nose, nose - 0.3),
        (half.nose + 0.3, nose),
        *race,
        (lip, seat),
        (shoulder, seat),
        (shoulder + 0.25, seat - 0.25),
        (shoulder + 0.25, half.neck),
        (end - 0.3, half.neck),
        (end, half.neck - 0.3),
    ]


def shoulder_of(half: Half) -> float:
    """Return where a cone's flats begin."""
    return cone_top(half)[-4][0]


def cup_outline(half: Half) -> list[Point]:
    """Return a cup: from its outboard lip along the race to the shoulder it is pressed home on."""
    reach, contact, k = half.cup_groove - half.ball / 2, degrees(half.angle), half.scale
    centre = _off_centre(half, reach)
    first, second = (
        arc(centre, half.cup_groove, 90 + start, 90 + end, steps=steps)
        for start, end, steps in ((0.0, contact, 8), (contact, min(contact + 30.0, 86.0), 6))
    )
    race = [*first, *second[1:]]
    inboard = cup_home(half)
    lip = race[0][1]
    return [
        (3.9 * k, half.cup_outer),
        (3.9 * k, lip + 0.3 * k),
        (3.6 * k, lip),
        *race,
        (race[-1][0] - 0.5 * k, race[-1][1] - 0.2 * k),
        (inboard, race[-1][1] - 0.2 * k),
        (inboard, half.cup_outer),
    ]


def cup_home(half: Half) -> float:
    """Return where the shoulder is that a cup is pressed home on."""
    return -5.0 * half.scale


def flange_at(half: Half) -> float:
    """Return where the outer face of a spoke flange stands that has its own bearing beside it."""
    return -4.5 * half.scale


def shell_end(half: Half) -> float:
    """Return where the shell ends outboard."""
    return 7.6 * half.scale


def shell_bore(half: Half) -> float:
    """Return the radius of the shell's bore between the cups."""
    return max(cup_outline(half)[-2][1] + 0.6 * half.scale, half.thread + 1.5)


def dust_cap(half: Half) -> list[Point]:
    """Return a dust cap, pressed into the shell, its bore close round the cone."""
    k, thick = half.scale, 0.8
    end = 7.2 * k
    return [
        (4.2 * k, half.cup_outer),
        (4.2 * k, half.cup_outer - thick),
        (end - thick, half.cup_outer - thick),
        (end - thick, half.seat + 0.5),
        (end, half.seat + 0.5),
        (end, half.cup_outer),
    ]
