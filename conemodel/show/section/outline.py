"""Outlines of a hub's parts in mm, half a section each: u outboard from the hub's middle, v out from its axis.

Ball, pitch circle, contact angle, grooves, row spacing, axle, cone lengths and threads, washers, locknuts, protrusion
and dropout are to the measure of the scenario. The outer form of shell, cup and cone, which no scenario gives, is
drawn after the ball.
"""

from dataclasses import dataclass
from math import cos, pi, radians, sin

from conemodel.base.units import MM
from conemodel.parts.bearing import RowGeometry
from conemodel.parts.hub import Side
from conemodel.parts.scenario import Scenario
from conemodel.show.svg import Point

ARC_STEPS = 24
COUNTERBORE = 0.4
"""Room between axle and a cone inboard of its thread [mm]; schematic."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """One side of a hub, every length in mm.

    Attributes:
        ball: diameter; plane: of the ball centres; pitch: radius of the ball centres; angle: of contact [rad].
        cone_groove, cup_groove: groove radii.
        thread: radius of the axle; bore: of its hole.
        cone: inner end of the cone, of its thread, and outer end; nut: inner and outer face of the locknut.
        washer, face: radii of washer and locknut.
        protrusion: axle beyond the locknut; dropout: its thickness.
    """

    ball: float
    plane: float
    pitch: float
    angle: float
    cone_groove: float
    cup_groove: float
    thread: float
    bore: float
    cone: tuple[float, float, float]
    nut: tuple[float, float]
    washer: float
    face: float
    protrusion: float
    dropout: float

    @property
    def axle_end(self) -> float:
        """Where the axle ends."""
        return self.nut[1] + self.protrusion

    @property
    def cup_outer(self) -> float:
        """Outer radius of the cup."""
        return self.pitch + 0.85 * self.ball

    @property
    def flange(self) -> float:
        """Radius of the spoke flange."""
        return self.cup_outer + 0.45 * self.ball + 6.0

    @property
    def shell_end(self) -> float:
        """Outboard end of the shell."""
        return self.plane + 0.75 * self.ball

    @property
    def neck(self) -> float:
        """Radius of the cone where the spanner holds it."""
        return min(self.washer, self.pitch - 0.3 * self.ball)

    def contact(self, *, cone: bool) -> Point:
        """Return where ball and race touch when they just do."""
        out = 1 if cone else -1
        return (
            self.plane + out * self.ball / 2 * sin(self.angle),
            self.pitch - out * self.ball / 2 * cos(self.angle),
        )


def half_of(scenario: Scenario, side: Side) -> Half:
    """Return the measures of one side [mm]."""
    hub, axle, stack = scenario.hub, scenario.axle, scenario.stack.side(side)
    row: RowGeometry = getattr(hub, side)
    mm = MM.from_si
    ball, outer = mm(row.ball_diameter), mm(hub.over_locknut_width) / 2
    plane = mm(hub.row_spacing) / 2
    cone_end = plane + mm(scenario.ball_place(side))
    return Half(
        ball=ball,
        plane=plane,
        pitch=mm(row.pitch_diameter) / 2,
        angle=row.contact_angle,
        cone_groove=row.cone_conformity * ball,
        cup_groove=row.cup_conformity * ball,
        thread=mm(axle.thread_diameter) / 2,
        bore=mm(axle.bore) / 2,
        cone=(cone_end - mm(stack.cone.length), cone_end - mm(stack.cone.thread_length), cone_end),
        nut=(outer - mm(stack.locknut_length), outer),
        washer=mm(stack.washer_outer_diameter) / 2,
        face=mm(stack.face_outer_diameter) / 2,
        protrusion=mm(stack.protrusion),
        dropout=mm(scenario.frame.dropout_thickness),
    )


def _arc(centre: Point, radius: float, start: float, end: float) -> list[Point]:
    """Return points on an arc, angles in degrees from outboard towards out."""
    steps = (radians(start + (end - start) * i / ARC_STEPS) for i in range(ARC_STEPS + 1))
    return [(centre[0] + radius * cos(a), centre[1] + radius * sin(a)) for a in steps]


def cone_race(half: Half, moved: float) -> list[Point]:
    """Return the groove of a cone that stands `moved` mm outboard of just touching, from inboard to outboard."""
    reach = half.cone_groove - half.ball / 2
    centre = (
        half.plane + moved - reach * sin(half.angle),
        half.pitch + reach * cos(half.angle),
    )
    middle = half.angle * 180 / pi - 90
    return _arc(centre, half.cone_groove, middle - 42, middle + 34)


def cone_outline(half: Half, moved: float) -> list[Point]:
    """Return the outline of a cone; its outboard end stays, so that its neck takes up what is exaggerated."""
    race = cone_race(half, moved)
    (_, start_v), (end_u, end_v) = race[0], race[-1]
    inner, thread_end, outer = half.cone
    wide = half.thread + (COUNTERBORE if thread_end > inner else 0.0)
    shoulder = min(end_u + 0.25 * half.ball, outer - 1.0)
    return [
        (outer, half.thread),
        (thread_end + moved, half.thread),
        (thread_end + moved, wide),
        (inner + moved, wide),
        (inner + moved, start_v),
        *race,
        (shoulder, end_v),
        (min(shoulder + 1.0, outer), half.neck),
        (outer, half.neck),
    ]


def cup_outline(half: Half) -> list[Point]:
    """Return the outline of a cup."""
    reach = half.cup_groove - half.ball / 2
    centre = (half.plane + reach * sin(half.angle), half.pitch - reach * cos(half.angle))
    middle = half.angle * 180 / pi + 90
    race = _arc(centre, half.cup_groove, middle - 52, middle + 40)
    inboard = race[-1][0] - 0.3 * half.ball
    return [*race, (inboard, race[-1][1]), (inboard, half.cup_outer), (race[0][0], half.cup_outer)]


def shell_outline(half: Half) -> list[Point]:
    """Return the outline of half a shell, from its middle out; schematic."""
    barrel = half.thread + 3.0
    wall = 0.4 * half.ball
    outer, inboard = half.cup_outer + wall, half.plane - 0.95 * half.ball
    flange_at, thick = half.plane - 0.1 * half.ball, 3.0
    taper = max(inboard - 0.8 * half.ball, 1.0)
    return [
        (0.0, barrel),
        (taper, barrel),
        (inboard, half.pitch),
        (inboard, half.cup_outer),
        (half.shell_end, half.cup_outer),
        (half.shell_end, outer),
        (flange_at + thick / 2, outer),
        (flange_at + thick / 2, half.flange),
        (flange_at - thick / 2, half.flange),
        (flange_at - thick / 2, outer),
        (inboard, outer),
        (taper, barrel + 3.0),
        (0.0, barrel + 3.0),
    ]


def dust_cap_outline(half: Half) -> list[Point]:
    """Return the outline of a dust cap; schematic."""
    low = half.neck + 1.0
    return [
        (half.shell_end - 0.8, half.cup_outer),
        (half.shell_end - 0.8, low),
        (half.shell_end, low),
        (half.shell_end, half.cup_outer),
    ]
