"""What the hand on the cone is given, and input and output of the spinning widget: plain values in SI."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from conemodel.base.errors import Problem
from conemodel.ui.widgets.contract_checks import (
    Checked,
    check_columns,
    check_not_negative,
    check_positive,
    check_rising,
    check_share,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnResist(Checked):
    """How hard the cone is to turn inward at each place, and how much the hand can do.

    Attributes:
        angle: of the cone, counted outward [rad], rising. Empty = it turns freely everywhere.
        effort: torque to turn it inward there [N·m], not rising.
        limit: greatest torque of the hand with this tool [N·m].
        firm, give: a hand that pulls is ahead of its tool by give · ln(1 + torque / firm) [N·m, rad]. Assumptions.
    """

    angle: Sequence[float] = ()
    effort: Sequence[float] = ()
    limit: float = 0.3
    firm: float = 0.02
    give: float = 0.07

    def _problems(self) -> Iterator[Problem]:
        yield from check_columns("resist", self.angle, self.effort, least=2 if self.angle else 0)
        yield from check_rising("resist.angle", self.angle, strictly=True)
        yield from check_rising("resist.effort, from the outer end,", tuple(reversed(self.effort)))
        yield from check_positive("resist", limit=self.limit, firm=self.firm, give=self.give)


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnZone:
    """What the hand feels from a place outward, up to the next zone.

    Attributes:
        start: its inner end, counted outward [rad].
        text: ``turns freely``.
    """

    start: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SpinCurve(Checked):
    """What slows the wheel.

    Attributes:
        speed: [rad/s], from 0, rising.
        torque: that opposes turning at that speed [N·m], above 0.
        inertia: of the wheel [kg·m²].
        heavy_spot: unbalance times gravity [N·m]: 10 g at 310 mm is 0.03.
        rough: how rough it runs, 0 (silent) to 1 (grinding), as an ear would have it.
    """

    speed: Sequence[float]
    torque: Sequence[float]
    inertia: float = 0.1
    heavy_spot: float = 0.03
    rough: float = 0.0

    def _problems(self) -> Iterator[Problem]:
        yield from check_columns("curve", self.speed, self.torque, least=2)
        yield from check_rising("curve.speed", self.speed, strictly=True)
        if self.speed and self.speed[0] != 0:
            yield Problem(where="curve.speed", value=str(self.speed[0]), limit="must start at 0")
        yield from check_positive("curve", torque=min(self.torque, default=0.0), inertia=self.inertia)
        yield from check_not_negative("curve", heavy_spot=self.heavy_spot)
        yield from check_share("curve.rough", self.rough)


@dataclass(frozen=True, slots=True, kw_only=True)
class SpinFelt:
    """What is told of spinning.

    Attributes:
        running: while it turns, ``Runs smooth and quiet.``
        swung: when it swung back before it rested.
        stayed: when it did not.
    """

    running: str
    swung: str = "At the end it swings back by its heavy spot."
    stayed: str = "It stops without swinging back."


@dataclass(frozen=True, slots=True, kw_only=True)
class Spun:
    """A wheel let go of, or one that has come to rest.

    Attributes:
        sequence: rises by one with each of the two.
        set_id: the state of the hub it was made on.
        at_rest: False when the hand left it, True when it stopped.
        brisk: whether it was spun quickly.
        angle: where the heavy spot rests, clockwise from the bottom [rad]; None while it turns.
        swung_back: whether it swung back before it rested.
    """

    sequence: int
    set_id: int
    at_rest: bool
    brisk: bool
    angle: float | None
    swung_back: bool
