"""Usual hubs with cups and cones, by what holds them and at which end: what is taken of a hub where nobody measured.

Every number is common practice, no source. A range is where hubs of the family are usually found.
"""

from dataclasses import dataclass, replace
from math import pi, sin
from typing import TYPE_CHECKING, Literal, NamedTuple

from conemodel.base.units import DEG, MM
from conemodel.parts.axle import Material
from conemodel.parts.clamp_kinds import ClampName
from conemodel.parts.cone import Cone

Thread = Literal["M9 x 1", "M10 x 1", "5/16 x 26", "3/8 x 26", "M17 x 1"]

THREADS: dict[str, tuple[float, float]] = {
    "M9 x 1": (9e-3, 1e-3),
    "M10 x 1": (10e-3, 1e-3),
    "5/16 x 26": (7.9375e-3, 25.4e-3 / 26),
    "3/8 x 26": (9.525e-3, 25.4e-3 / 26),
    "M17 x 1": (17e-3, 1e-3),
}
"""Axle threads in use: diameter and pitch [m]. Common practice, no source."""

BALLS: dict[str, float] = {
    "1/8 in": MM.to_si(3.175),
    "5/32 in": MM.to_si(3.96875),
    "3/16 in": MM.to_si(4.7625),
    "7/32 in": MM.to_si(5.55625),
    "1/4 in": MM.to_si(6.35),
    "5/16 in": MM.to_si(7.9375),
}
"""Balls in use: their diameter [m]. Common practice, no source."""

WIDTHS = {
    True: tuple(map(MM.to_si, (91, 96, 100, 110))),
    False: tuple(map(MM.to_si, (110, 114, 120, 126, 130, 135, 142, 148))),
}
"""Widths over the locknuts in use [m], of front hubs (True) and rear hubs. Common practice, no source."""

FRONT_BELOW = 115e-3
"""Width over the locknuts below which a hub is taken for a front one [m]. Common practice, no source."""

USUAL_ROOM = 0.7
"""Room left in a usual row [ball widths]. Common practice, no source."""

CONTACT_ANGLE = DEG.to_si(40)
"""Contact angle taken of every usual row [rad]. Common practice, no source."""


class Usual(NamedTuple):
    """A usual value and the range about it, in SI."""

    low: float
    usual: float
    high: float


def _mm(low: float, usual: float, high: float) -> Usual:
    return Usual(*map(MM.to_si, (low, usual, high)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """The usual hub of one kind; lengths in m, named as in `KnownHub` where a mechanic may know better.

    Attributes:
        words: what it is; front: whether it is a front hub.
        clamp: what holds it; rod: diameter of what passes through a hollow axle of that `bore`.
        ball_count: in a row; pitch_diameter: of the circle its balls run on.
        row_spacing: of a hub of the usual width; a wider one has its rows further apart.
        washer, face: outer diameters of washers, and of the face under the locknut.
        lock_torque: of both locknuts [N·m].
    """

    words: str
    front: bool
    clamp: ClampName
    thread: Thread
    material: Material = "steel"
    bore: float
    rod: float = 5e-3
    ball_count: Usual
    ball_diameter: Usual
    pitch_diameter: float
    row_spacing: float
    over_locknut_width: Usual
    protrusion: Usual
    dropout_thickness: Usual
    cone: Cone
    locknut_length: float = 5e-3
    washer: float
    face: float
    lock_torque: float = 15.0


_REAR_CONE = Cone()
_FRONT_CONE = Cone(length=MM.to_si(14), ball_place=MM.to_si(11.5), thread_length=MM.to_si(11))
_TUBE_CONE = Cone(length=MM.to_si(14), ball_place=MM.to_si(11.5), thread_length=MM.to_si(13))

_THRU_REAR = Family(
    words="rear hub with thru-axle",
    front=False,
    clamp="thru-axle",
    thread="M17 x 1",
    material="aluminium",
    bore=MM.to_si(12.2),
    rod=MM.to_si(12),
    ball_count=Usual(13, 16, 18),
    ball_diameter=_mm(3.96875, 4.7625, 4.7625),
    pitch_diameter=MM.to_si(25.5),
    row_spacing=MM.to_si(94),
    over_locknut_width=_mm(142, 142, 148),
    protrusion=_mm(0, 0, 1),
    dropout_thickness=_mm(10, 12, 14),
    cone=_TUBE_CONE,
    locknut_length=MM.to_si(6),
    washer=MM.to_si(24),
    face=MM.to_si(22),
)

FAMILIES: dict[str, Family] = {
    "usual rear": Family(
        words="rear hub with quick release",
        front=False,
        clamp="quick release",
        thread="M10 x 1",
        bore=MM.to_si(5.1),
        ball_count=Usual(8, 9, 10),
        ball_diameter=_mm(4.7625, 6.35, 6.35),
        pitch_diameter=MM.to_si(20),
        row_spacing=MM.to_si(83),
        over_locknut_width=_mm(126, 130, 135),
        protrusion=_mm(5, 5.5, 6),
        dropout_thickness=_mm(5, 7, 8),
        cone=_REAR_CONE,
        washer=MM.to_si(17),
        face=MM.to_si(15),
    ),
    "usual front": Family(
        words="front hub with quick release",
        front=True,
        clamp="quick release",
        thread="M9 x 1",
        bore=MM.to_si(5.1),
        ball_count=Usual(9, 10, 11),
        ball_diameter=_mm(4.7625, 4.7625, 5.55625),
        pitch_diameter=MM.to_si(16.4),
        row_spacing=MM.to_si(54),
        over_locknut_width=_mm(96, 100, 100),
        protrusion=_mm(3.5, 4, 5),
        dropout_thickness=_mm(4, 6, 7),
        cone=_FRONT_CONE,
        washer=MM.to_si(15.5),
        face=MM.to_si(14),
        lock_torque=12.0,
    ),
    "nutted rear": Family(
        words="rear hub with axle nuts",
        front=False,
        clamp="nuts",
        thread="3/8 x 26",
        bore=0.0,
        ball_count=Usual(8, 9, 10),
        ball_diameter=_mm(4.7625, 6.35, 6.35),
        pitch_diameter=MM.to_si(20),
        row_spacing=MM.to_si(72),
        over_locknut_width=_mm(110, 120, 135),
        protrusion=_mm(20, 27.5, 32),
        dropout_thickness=_mm(4, 5, 7),
        cone=_REAR_CONE,
        locknut_length=MM.to_si(6),
        washer=MM.to_si(17),
        face=MM.to_si(15),
    ),
    "nutted front": Family(
        words="front hub with axle nuts",
        front=True,
        clamp="nuts",
        thread="5/16 x 26",
        bore=0.0,
        ball_count=Usual(9, 10, 11),
        ball_diameter=_mm(4.7625, 4.7625, 5.55625),
        pitch_diameter=MM.to_si(16.4),
        row_spacing=MM.to_si(54),
        over_locknut_width=_mm(90, 100, 100),
        protrusion=_mm(16, 20, 25),
        dropout_thickness=_mm(3, 5, 6),
        cone=_FRONT_CONE,
        washer=MM.to_si(15),
        face=MM.to_si(13),
        lock_torque=12.0,
    ),
    "thru-axle rear": _THRU_REAR,
    "thru-axle front": replace(
        _THRU_REAR,
        words="front hub with thru-axle",
        front=True,
        row_spacing=MM.to_si(52),
        over_locknut_width=_mm(100, 100, 110),
        lock_torque=12.0,
    ),
}
"""Every family by its name in a file."""

if TYPE_CHECKING:
    FamilyName = str
else:
    FamilyName = Literal[tuple(FAMILIES)]


def family_of(*, front: bool, clamp: str) -> str:
    """Return the name of the family of hubs at one end that such a clamp holds.

    >>> family_of(front=True, clamp="nuts")
    'nutted front'
    """
    return next(name for name, each in FAMILIES.items() if (each.front, each.clamp) == (front, clamp))


def usual_pitch_diameter(ball_diameter: float, ball_count: int) -> float:
    """Return the pitch diameter [m] that leaves a row the usual room, for a ball [m] and a count.

    >>> round(usual_pitch_diameter(6.35e-3, 9) * 1e3, 1)
    20.0
    """
    return ball_diameter / sin(pi / (ball_count + USUAL_ROOM))
