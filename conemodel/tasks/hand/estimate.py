"""What the answers say of a hand: its threshold and its bias, each with the interval that holds four in five."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.tasks.hand.procedure import LEANS, SPREADS, Answer, posterior
from conemodel.tasks.hand.psychometric import TOLD_SPREADS

HELD = 0.8
"""Chance that an interval holds the truth [-]."""

WITHIN = (np.arange(5) - 2) / 5
"""Places within a step between two leans, in steps: else a bias of exactly zero would stand out [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """A value with the interval that holds it with the chance `HELD`."""

    value: float
    low: float
    high: float

    def through(self, measure: Callable[[float], float]) -> "Interval":
        """Return the same in another `measure`, which rises."""
        return Interval(value=measure(self.value), low=measure(self.low), high=measure(self.high))


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A hand as its answers show it, in the measure of the answers.

    Attributes:
        threshold: the difference told right three times in four, without a bias.
        bias: how much more the second hub must have to feel like the first; negative: less.
        pairs: answers it rests on.
    """

    threshold: Interval
    bias: Interval
    pairs: int


def estimate(answers: Sequence[Answer], *, usual: float) -> Estimate:
    """Return what the answers say, in their own measure and that of the `usual` spread."""
    hands = posterior(answers, usual=usual).sum(axis=-1)
    threshold = np.exp(_quantiles(np.log(SPREADS), hands.sum(axis=1))) * TOLD_SPREADS
    bias = _quantiles(*_biases(hands))
    return Estimate(threshold=_interval(threshold * usual), bias=_interval(bias * usual), pairs=len(answers))


def _biases(hands: Array) -> tuple[Array, Array]:
    """Return rising biases and how likely each is (n,); each lean of `hands` (29, 13) stands for its whole step."""
    step = LEANS[1] - LEANS[0]
    leans = LEANS[:, None] + step * WITHIN
    places, which = np.unique(SPREADS[:, None, None] * leans, return_inverse=True)
    share = np.broadcast_to(hands[..., None] / WITHIN.size, which.shape)
    return places, np.asarray(np.bincount(which.ravel(), share.ravel()), dtype=np.float64)


def _interval(found: Array) -> Interval:
    return Interval(value=float(found[1]), low=float(found[0]), high=float(found[2]))


def _quantiles(at: Array, weights: Array) -> Array:
    """Return both ends of the interval and the middle (3,) of `weights` (n,) at rising places (n,)."""
    below = np.cumsum(weights) - weights / 2
    return np.interp([(1 - HELD) / 2, 0.5, (1 + HELD) / 2], below, at)
