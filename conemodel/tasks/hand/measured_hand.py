"""A measured hand in the measures of a workshop: at the rim or the axle, and as a turn of the cone."""

from dataclasses import dataclass

from conemodel.tasks.hand.estimate import Estimate, Interval
from conemodel.tasks.hand.felt_hub import FeltHub
from conemodel.tasks.hand.kinds import Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredHand:
    """What a sitting found.

    Attributes:
        kind: what was asked; begun_at: when, UTC, ISO 8601.
        threshold, bias: as in `Estimate` [m of play at the rim, or N·m of torque].
        threshold_turn, bias_turn: the same as turns of the cone [rad].
        pairs, right: how many were answered, and named the hub that has more.
    """

    kind: Kind
    begun_at: str
    threshold: Interval
    threshold_turn: Interval
    bias: Interval
    bias_turn: Interval
    pairs: int
    right: int


def measured_hand(kind: Kind, hub: FeltHub, found: Estimate, *, begun_at: str, right: int) -> MeasuredHand:
    """Return an estimate in the measures of a workshop, on the hub that was felt."""

    def turn(difference: float) -> float:
        return kind.turn(hub, difference)

    return MeasuredHand(
        kind=kind,
        begun_at=begun_at,
        threshold=found.threshold.through(kind.size),
        threshold_turn=found.threshold.through(turn),
        bias=found.bias.through(kind.size),
        bias_turn=found.bias.through(turn),
        pairs=found.pairs,
        right=right,
    )
