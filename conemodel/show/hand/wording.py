"""A measured hand in words: the least difference it tells, and to which hub it leans."""

from math import floor, log10

from conemodel.show.formatting import degrees, number
from conemodel.tasks.hand.estimate import HELD, Interval
from conemodel.tasks.hand.kinds import Kind
from conemodel.tasks.hand.measured_hand import MeasuredHand

TRUTH = f"The truth lies in a range {round(10 * HELD)} times in ten."


def threshold_words(hand: MeasuredHand) -> str:
    """Return the threshold as one line, ``You tell 0.08 mm at the rim``."""
    return f"You tell {_size(hand, hand.threshold.value)} {hand.kind.place}"


def threshold_range_words(hand: MeasuredHand) -> str:
    """Return the threshold's interval and what it is as a turn of the cone."""
    return f"{_range(hand, hand.threshold)}; {_turn_words(hand.threshold_turn)}"


def _turn_words(turn: Interval) -> str:
    return f"{degrees(turn.value)} of cone, {degrees(turn.low)} to {degrees(turn.high)}"


def bias_words(hand: MeasuredHand) -> str:
    """Return to which hub the hand leans, or that it cannot be told."""
    bias, turn = hand.bias, hand.bias_turn
    span = f"{_range(hand, bias, sign=True)}, {degrees(turn.low, sign=True)} to {degrees(turn.high, sign=True)} of cone"
    if bias.low <= 0 <= bias.high:
        return f"No bias that can be told ({span})."
    more = "more" if bias.value > 0 else "less"
    size = f"{_size(hand, abs(bias.value))}, {degrees(abs(turn.value))} of cone"
    return f"Hub B feels like hub A when it has {size}, {more} ({span})."


def _size(hand: MeasuredHand, value: float, *, sign: bool = False) -> str:
    return f"{_bare(hand, value, sign=sign)} {hand.kind.unit.symbol}"


def _range(hand: MeasuredHand, span: Interval, *, sign: bool = False) -> str:
    return f"{_bare(hand, span.low, sign=sign)} to {_size(hand, span.high, sign=sign)}"


def _bare(hand: MeasuredHand, value: float, *, sign: bool) -> str:
    return number(hand.kind.unit.from_si(value), digits_of(hand), sign=sign)


def digits_of(hand: MeasuredHand) -> int:
    """Return after how many decimals the hand's numbers end: two figures of its threshold."""
    return max(0, 1 - floor(log10(hand.kind.unit.from_si(hand.threshold.value))))


def usual_words(kind: Kind) -> str:
    """Return what is assumed of a hand nobody has measured."""
    size = kind.unit.from_si(kind.size(kind.just_told))
    told = f"{number(size, 1)} {kind.unit.symbol} {kind.place}"
    return f"Of a hand that nobody has measured, {told} is assumed: a guess."
