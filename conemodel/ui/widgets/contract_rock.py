"""Input and output of the rocking widget: plain values in SI."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from conemodel.base.errors import Problem
from conemodel.ui.widgets.contract_checks import (
    Checked,
    check_columns,
    check_not_negative,
    check_positive,
    check_rising,
    check_share,
)

Grip = Literal["rim", "axle end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RockCurve(Checked):
    """How far the grip goes under a sideways force, bearing alone; force 0 is repeated over the free travel.

    Attributes:
        movement: [m], not falling; at the rim, or at the axle end.
        force: [N], not falling, from below 0 to above 0.
    """

    movement: Sequence[float]
    force: Sequence[float]

    def _problems(self) -> Iterator[Problem]:
        yield from check_columns("curve", self.movement, self.force, least=2)
        yield from check_rising("curve.movement", self.movement)
        yield from check_rising("curve.force", self.force)
        reach = [x + f for x, f in zip(self.movement, self.force, strict=False)]
        yield from check_rising("curve", reach, strictly=True)
        if self.force and not self.force[0] < 0 < self.force[-1]:
            yield Problem(where="curve.force", value="", limit="must run from below 0 to above 0")


@dataclass(frozen=True, slots=True, kw_only=True)
class RockHand(Checked):
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

    def _problems(self) -> Iterator[Problem]:
        yield from check_positive(
            "hand",
            stiffness=self.stiffness,
            effort=self.effort,
            mass=self.mass,
            knock_speed=self.knock_speed,
        )
        yield from check_not_negative(
            "hand", flex=self.flex, drag=self.drag, felt_from=self.felt_from, loudness=self.loudness
        )
        yield from check_share("hand.muffle", self.muffle)


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
        brisk: whether it knocked or, on a hub without play, whether the hand was quick enough to knock.
    """

    sequence: int
    set_id: int
    cycles: int
    knocks: int
    brisk: bool
