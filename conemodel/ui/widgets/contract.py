"""Input and output of the widgets: plain values in SI, nothing that a hand could not feel.

Everything here goes to the reader's browser as it stands: the curves must be there to be felt. Hidden numbers
of an exercise that no hand, ear or eye needs (target, window, thread fit, clamp force) stay out of them.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import isfinite, pi
from typing import Literal

from conemodel.base.errors import InputProblems, Problem

Grip = Literal["rim", "axle end"]
Tool = Literal["spanner", "fingers"]


def _check(problems: Iterator[Problem]) -> None:
    found = tuple(problems)
    if found:
        raise InputProblems(found)


def _table(where: str, *columns: Sequence[float], least: int) -> Iterator[Problem]:
    lengths = sorted({len(column) for column in columns})
    if len(lengths) > 1 or lengths[0] < least:
        yield Problem(
            where=where, value=str(lengths), limit=f"must be columns of one length, {least} or more"
        )
    if not all(isfinite(value) for column in columns for value in column):
        yield Problem(where=where, value="", limit="must hold finite numbers only")


def _rising(where: str, column: Sequence[float], *, strictly: bool = False) -> Iterator[Problem]:
    if any(b < a or (strictly and b == a) for a, b in pairwise(column)):
        yield Problem(where=where, value="", limit="must rise" if strictly else "must not fall")


def _positive(where: str, **values: float) -> Iterator[Problem]:
    for name, value in values.items():
        if not (isfinite(value) and value > 0):
            yield Problem(where=f"{where}.{name}", value=str(value), limit="must be above 0")


def _not_negative(where: str, **values: float) -> Iterator[Problem]:
    for name, value in values.items():
        if not (isfinite(value) and value >= 0):
            yield Problem(where=f"{where}.{name}", value=str(value), limit="must not be below 0")


def _within(where: str, value: float) -> Iterator[Problem]:
    if not 0 <= value <= 1:
        yield Problem(where=where, value=str(value), limit="must lie between 0 and 1")


@dataclass(frozen=True, slots=True, kw_only=True)
class RockCurve:
    """How far the grip goes under a sideways force, bearing alone; force 0 is repeated over the free travel.

    Attributes:
        movement: [m], not falling; at the rim, or at the axle end.
        force: [N], not falling, from below 0 to above 0.
    """

    movement: Sequence[float]
    force: Sequence[float]

    def __post_init__(self) -> None:
        """Check that both columns can be inverted.

        Raises:
            InputProblems: a column that cannot.
        """
        _check(self._problems())

    def _problems(self) -> Iterator[Problem]:
        yield from _table("curve", self.movement, self.force, least=2)
        yield from _rising("curve.movement", self.movement)
        yield from _rising("curve.force", self.force)
        reach = [x + f for x, f in zip(self.movement, self.force, strict=False)]
        yield from _rising("curve", reach, strictly=True)
        if self.force and not self.force[0] < 0 < self.force[-1]:
            yield Problem(where="curve.force", value="", limit="must run from below 0 to above 0")


@dataclass(frozen=True, slots=True, kw_only=True)
class RockHand:
    """The hand and the wheel between it and the bearing. All of it assumption: nobody has published a hand.

    Attributes:
        stiffness: of the hand [N/m].
        effort: the most it pushes [N].
        mass: of what it moves, as felt at the grip [kg].
        flex: of wheel and spokes sideways at the grip [N/m]; 0 = rigid.
        drag: of the grease [N·s/m].
        knock_speed: closing speed below which no knock is heard [m/s].
        felt_from: free travel below which none is felt, and so none heard [m].
        loudness: scale of the knock, 1 = as a dry steel hub.
        muffle: 0 (thin oil) to 1 (thick grease).
    """

    stiffness: float = 4e3
    effort: float = 25.0
    mass: float = 0.5
    flex: float = 6e4
    drag: float = 2.0
    knock_speed: float = 0.012
    felt_from: float = 1e-4
    loudness: float = 1.0
    muffle: float = 0.0

    def __post_init__(self) -> None:
        """Check the values.

        Raises:
            InputProblems: a value that makes no sense.
        """
        _check(self._problems())

    def _problems(self) -> Iterator[Problem]:
        yield from _positive(
            "hand",
            stiffness=self.stiffness,
            effort=self.effort,
            mass=self.mass,
            knock_speed=self.knock_speed,
        )
        yield from _not_negative(
            "hand", flex=self.flex, drag=self.drag, felt_from=self.felt_from, loudness=self.loudness
        )
        yield from _within("hand.muffle", self.muffle)


AXLE_FINGERS = RockHand(stiffness=1.5e4, effort=20.0, mass=0.15, flex=0.0, knock_speed=0.003, felt_from=2e-5)
"""Fingers on the axle end: a stiffer grip on less mass, with no wheel between."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RockFelt:
    """What is told once the grip was pushed both ways, in words no finer than a hand.

    Attributes:
        slow: when no knock was heard, ``slight free movement, then springy``.
        quick: when one was, ``slight free movement, then a knock``. Without play both are the same text.
    """

    slow: str
    quick: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rocked:
    """One gesture of rocking.

    Attributes:
        sequence: rises by one with every gesture.
        set_id: the state of the hub it was made on.
        cycles: to and fro, whole.
        knocks: heard, or that would have been heard.
        brisk: whether the hand was quick enough to knock.
    """

    sequence: int
    set_id: int
    cycles: int
    knocks: int
    brisk: bool


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
class TwirlCurve:
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

    def __post_init__(self) -> None:
        """Check the tables.

        Raises:
            InputProblems: a table that cannot be used.
        """
        _check(self._problems())

    def _problems(self) -> Iterator[Problem]:
        yield from _table("curve.friction", self.friction, least=1)
        yield from _table("curve.dents", self.dents, least=1)
        yield from _not_negative("curve", friction=min(self.friction, default=0.0), grease=self.grease)
        yield from _positive("curve", span=self.span, inertia=self.inertia)
        yield from _not_negative("grit", amplitude=self.grit.amplitude, per_turn=self.grit.per_turn)


@dataclass(frozen=True, slots=True, kw_only=True)
class TwirlHand:
    """Fingers on the axle, and how loud roughness is. Assumptions.

    Attributes:
        finger: stiffness of the fingers' flesh in turning [N·m/rad].
        slip: torque at which they slip [N·m].
        loud_at: change of drag a second that sounds at full loudness [N·m/s].
        muffle: 0 (thin oil) to 1 (thick grease).
    """

    finger: float = 0.06
    slip: float = 0.06
    loud_at: float = 0.6
    muffle: float = 0.0

    def __post_init__(self) -> None:
        """Check the values.

        Raises:
            InputProblems: a value that makes no sense.
        """
        _check(self._problems())

    def _problems(self) -> Iterator[Problem]:
        yield from _positive("hand", finger=self.finger, slip=self.slip, loud_at=self.loud_at)
        yield from _within("hand.muffle", self.muffle)


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
