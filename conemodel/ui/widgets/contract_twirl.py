"""Input and output of the twirling widget: plain values in SI."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from math import pi

from conemodel.base.errors import Problem
from conemodel.ui.widgets.contract_checks import (
    Checked,
    check_columns,
    check_not_negative,
    check_positive,
    check_share,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grit:
    """Dirt between the balls: short bumps of drag that do not come back every turn.

    Attributes:
        amplitude: of the largest [N·m].
        per_turn: how many a turn of the axle.
        seed: of their places.
    """

    amplitude: float = 0.0
    per_turn: float = 0.0
    seed: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class TwirlCurve(Checked):
    """What turning the axle meets, in equal steps of its angle; the tables repeat.

    Attributes:
        friction: opposes any turning [N·m]: level and once-a-turn part, not below 0.
        dents: pulls the axle towards the nearest dent [N·m]: signed, clockwise positive; all 0 without dents.
        span: angle the tables cover before they repeat [rad].
        grease: drag in step with speed [N·m·s].
        inertia: of axle, cones and locknuts [kg·m²].
        grit: dirt, on top.
    """

    friction: Sequence[float]
    dents: Sequence[float] = (0.0, 0.0)
    span: float = 2 * pi
    grease: float = 1e-5
    inertia: float = 4e-6
    grit: Grit = field(default_factory=Grit)

    def _problems(self) -> Iterator[Problem]:
        yield from check_columns("curve.friction", self.friction, least=1)
        yield from check_columns("curve.dents", self.dents, least=1)
        yield from check_not_negative("curve", friction=min(self.friction, default=0.0), grease=self.grease)
        yield from check_positive("curve", span=self.span, inertia=self.inertia)
        yield from check_not_negative("grit", amplitude=self.grit.amplitude, per_turn=self.grit.per_turn)


@dataclass(frozen=True, slots=True, kw_only=True)
class TwirlHand(Checked):
    """Fingers on the axle, and how loud roughness is. Assumptions.

    Attributes:
        firm, give: fingers are ahead of the axle by give · ln(1 + torque / firm) [N·m, rad].
        slip: torque at which they slip [N·m].
        loud_at: change of drag a second that sounds at full loudness [N·m/s].
        muffle: 0 (thin oil) to 1 (thick grease).
    """

    firm: float = 0.1
    give: float = 0.6
    slip: float = 0.1
    loud_at: float = 0.6
    muffle: float = 0.0

    def _problems(self) -> Iterator[Problem]:
        yield from check_positive(
            "hand", firm=self.firm, give=self.give, slip=self.slip, loud_at=self.loud_at
        )
        yield from check_share("hand.muffle", self.muffle)


@dataclass(frozen=True, slots=True, kw_only=True)
class TwirlFelt:
    """What is told of twirling.

    Attributes:
        turning: after a full turn, ``smooth, thick drag``.
        let_go: after letting go in motion, ``it stops dead``.
    """

    turning: str
    let_go: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Twirled:
    """One gesture of twirling.

    Attributes:
        sequence: rises by one with every gesture.
        set_id: the state of the hub it was made on.
        angle: of the axle where it came to rest, clockwise [rad].
        turned: in this gesture, clockwise [rad].
        full_turn: whether a whole turn has been felt on this state of the hub.
        let_go: whether it was let go while turning.
    """

    sequence: int
    set_id: int
    angle: float
    turned: float
    full_turn: bool
    let_go: bool
