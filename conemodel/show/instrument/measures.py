"""The measures of one side of a hub [mm]: u outboard from its ball plane, v out from the axis.

Balls, pitch circle, contact angle, grooves, axle, cone lengths, locknut, protrusion and dropout are the scenario's.
What no scenario gives is schematic, after the ball.
"""

from dataclasses import dataclass
from math import cos, sin

from conemodel.base.units import MM
from conemodel.parts.bearing import RowGeometry
from conemodel.parts.hub import Side
from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.drawing import Point

WASHER = 1.5
"""Thickness of the washer beside the cone [mm], where there is room for it; schematic."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """One side of a hub, every length in mm.

    Attributes:
        ball: diameter; pitch: radius of the ball centres; angle: of contact [rad].
        cone_groove, cup_groove: groove radii.
        plane: of the ball centres, from the hub's middle.
        thread: radius of the axle; bore: of its hole; lead: pitch of its thread.
        nose, cone_end: inner and outer end of the cone; threaded: inner end of its thread.
        nut: inner and outer face of the locknut.
        washer, face: radii of washer and of the face under the locknut.
        protrusion: axle beyond the locknut; dropout: its thickness.
        cup_outer, shell_outer: radii of the cup and of the shell round it.
        keyed: the washer is keyed to the axle.
    """

    ball: float
    pitch: float
    angle: float
    cone_groove: float
    cup_groove: float
    plane: float
    thread: float
    bore: float
    lead: float
    nose: float
    cone_end: float
    threaded: float
    nut: tuple[float, float]
    washer: float
    face: float
    protrusion: float
    dropout: float
    cup_outer: float
    shell_outer: float
    keyed: bool

    @property
    def scale(self) -> float:
        """Schematic lengths are those beside a ball of 6.35 mm, times this."""
        return self.ball / 6.35

    @property
    def contact(self) -> Point:
        """Where ball and cone touch when they just do."""
        return self.ball / 2 * sin(self.angle), self.pitch - self.ball / 2 * cos(self.angle)

    @property
    def cup_contact(self) -> Point:
        """Where ball and cup touch."""
        return -self.contact[0], 2 * self.pitch - self.contact[1]

    @property
    def stack(self) -> tuple[float, float, float]:
        """Inner face of the washer, its outer face, and inner face of the locknut."""
        room = max(self.nut[0] - self.cone_end, 0.0)
        return self.cone_end, self.cone_end + min(WASHER, room), self.nut[0]

    @property
    def axle_end(self) -> float:
        """Where the axle ends."""
        return self.nut[1] + self.protrusion

    @property
    def seat(self) -> float:
        """Radius of the cone under the dust cap."""
        return max(self.pitch - 1.0 * self.scale, self.neck + 0.4)

    @property
    def neck(self) -> float:
        """Radius of the cone at its flats: half of what the cone spanner holds."""
        return max(min(self.face, self.washer - 0.8, self.pitch - 2.2 * self.scale), self.thread + 1.0)

    @property
    def spacer(self) -> float:
        """Radius of the spacers."""
        return max(min(self.face + 0.4, self.washer - 0.3), self.thread + 1.0)

    @property
    def flange(self) -> float:
        """Radius of the spoke flange."""
        return self.shell_outer + 10.0

    @property
    def spoke_circle(self) -> float:
        """Radius of the spoke holes."""
        return self.flange - 3.5


def half_of(scenario: Scenario, side: Side) -> Half:
    """Return the measures of one side."""
    hub, axle, stack = scenario.hub, scenario.axle, scenario.stack.side(side)
    row: RowGeometry = getattr(hub, side)
    mm = MM.from_si
    ball, outer, plane = mm(row.ball_diameter), mm(hub.over_locknut_width) / 2, mm(hub.row_spacing) / 2
    cone_end = mm(scenario.ball_place(side))
    cup, round_it = hub.shell.cup_outer_diameter, hub.shell.outer_diameter_at_cup
    cup_outer = mm(row.pitch_diameter) / 2 + 0.787 * ball if cup is None else mm(cup) / 2
    return Half(
        ball=ball,
        pitch=mm(row.pitch_diameter) / 2,
        angle=row.contact_angle,
        cone_groove=row.cone_conformity * ball,
        cup_groove=row.cup_conformity * ball,
        plane=plane,
        thread=mm(axle.thread_diameter) / 2,
        bore=mm(axle.bore) / 2,
        lead=mm(axle.thread_pitch),
        nose=cone_end - mm(stack.cone.length),
        cone_end=cone_end,
        threaded=cone_end - mm(stack.cone.thread_length),
        nut=(outer - plane - mm(stack.locknut_length), outer - plane),
        washer=mm(stack.washer_outer_diameter) / 2,
        face=mm(stack.face_outer_diameter) / 2,
        protrusion=mm(stack.protrusion),
        dropout=mm(scenario.frame.dropout_thickness),
        cup_outer=cup_outer,
        shell_outer=cup_outer + 0.55 * ball if round_it is None else mm(round_it) / 2,
        keyed=stack.keyed_washer,
    )
