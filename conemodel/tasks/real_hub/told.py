"""What the readings of a real hub tell and what they do not: each unknown by itself, or only together with another."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np

from conemodel.base.units import Array
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.fit import Fitted
from conemodel.tasks.real_hub.shown import Shown
from conemodel.tasks.real_hub.unknown_hub import DRAWS

QuantityName = Literal["slack", "clamp_give", "felt_play", "felt_drag", "contact"]

LEARNT = 0.8
"""Share of the spread assumed that may be left of what counts as told [-]: a third less variance. Judgement."""

TIED = 0.5
"""Correlation from which two unknowns are not told apart [-]. Judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """One unknown that is asked for.

    Attributes:
        name: stable; words: as a mechanic says it.
        of: the number that is told (n,) [m]; along: the same as end play (n,) [m], by which it adds to what is read.
        wanted: the reading that tells it.
    """

    name: QuantityName
    words: str
    of: Callable[[Shown], Array]
    along: Callable[[Shown], Array]
    wanted: str


QUANTITIES: dict[QuantityName, Quantity] = {
    quantity.name: quantity
    for quantity in (
        Quantity(
            name="slack",
            words="slack of the cone's thread",
            of=lambda shown: shown.slack,
            along=lambda shown: shown.slack,
            wanted="play once locked, and play with the nut loose",
        ),
        Quantity(
            name="clamp_give",
            words="what the clamp takes off end play",
            of=lambda shown: shown.clamp_give,
            along=lambda shown: shown.clamp_give,
            wanted="play at the same counts with and without the clamp",
        ),
        Quantity(
            name="felt_play",
            words="least play you feel at the rim",
            of=lambda shown: shown.felt_play,
            along=lambda shown: shown.felt_play_at,
            wanted="play with the nut loose, or play measured at a count",
        ),
        Quantity(
            name="felt_drag",
            words="squeeze at which you feel drag",
            of=lambda shown: -shown.felt_drag_at,
            along=lambda shown: -shown.felt_drag_at,
            wanted="where drag changes, with the nut loose",
        ),
    )
}
"""Every unknown that is asked for, by name, in the order they are told."""

QUANTITIES_AT_MARKS: dict[QuantityName, Quantity] = {
    **{name: QUANTITIES[name] for name in ("slack", "clamp_give")},
    "contact": Quantity(
        name="contact",
        words="squeeze that finger contact leaves",
        of=lambda shown: -shown.end_play["nut loose"],
        along=lambda shown: -shown.end_play["nut loose"],
        wanted="play with the nut loose at a count",
    ),
}
"""Every unknown that is asked of play measured at marks, by name, in the order they are told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is known of one unknown.

    Attributes:
        quantity: which; now, before: its interval with and without the readings [m].
        told: the readings tell it; else `now` is little more than what was assumed.
        given: it was known before, so that nothing was asked of the readings.
        tied_to: the unknown it cannot be told apart from, None where it hangs on none.
        opposed: the one grows as the other shrinks, and the sum is known; else the difference is.
        together: sum or difference along the axle [m], None where it hangs on none.
    """

    quantity: Quantity
    now: Interval
    before: Interval
    told: bool
    given: bool = False
    tied_to: Quantity | None = None
    opposed: bool = False
    together: Interval | None = None


def what_is_told(fitted: Fitted) -> dict[QuantityName, Told]:
    """Return what is known of every unknown that is asked for, by name."""
    return {name: _told(fitted, quantity) for name, quantity in QUANTITIES.items()}


def _told(fitted: Fitted, quantity: Quantity) -> Told:
    now, before = fitted.interval(quantity.of), fitted.interval_before(quantity.of)
    even = np.full(DRAWS, 1 / DRAWS)
    assumed = _spread(np.log(quantity.of(fitted.hub.assumed)), even)
    left = _spread(np.log(quantity.of(fitted.shown)), fitted.weight)
    if assumed < 1e-9:
        return Told(quantity=quantity, now=now, before=before, told=False, given=True)
    if left <= LEARNT * assumed:
        return Told(quantity=quantity, now=now, before=before, told=True)
    own = quantity.along(fitted.shown)
    ties = {
        other.name: _correlation(own, other.along(fitted.shown), fitted.weight)
        for other in QUANTITIES.values()
        if other is not quantity
    }
    nearest: QuantityName = max(ties, key=lambda name: abs(ties[name]))
    if abs(ties[nearest]) < TIED:
        return Told(quantity=quantity, now=now, before=before, told=False)
    other, opposed = QUANTITIES[nearest], ties[nearest] < 0
    side = 1.0 if opposed else -1.0

    def together(shown: Shown) -> Array:
        return np.asarray(quantity.along(shown) + side * other.along(shown))

    return Told(
        quantity=quantity,
        now=now,
        before=before,
        told=False,
        tied_to=other,
        opposed=opposed,
        together=fitted.interval(together),
    )


def _spread(values: Array, weight: Array) -> float:
    """Return the standard deviation of values (n,) by their weights (n,), sum 1."""
    middle = float(weight @ values)
    return float(np.sqrt(weight @ (values - middle) ** 2))


def _correlation(one: Array, other: Array, weight: Array) -> float:
    """Return how values (n,) go with others by their weights (n,), sum 1: -1 to 1, 0 where either stands still."""
    spreads = _spread(one, weight) * _spread(other, weight)
    together = float(weight @ ((one - weight @ one) * (other - weight @ other)))
    return together / spreads if spreads > 0 else 0.0
