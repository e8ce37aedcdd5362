"""The adaptive procedure: which difference to ask for next, and what all answers together say of a hand.

It is the psi method: each pair is the one from which most is expected to be learnt. Source: [KontsevichTyler1999];
learnt of the spread alone, with the lean and the lapses carried along and not pursued. Source: [Prins2013]
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from conemodel.base.units import Array
from conemodel.tasks.hand.psychometric import chance_of_second

PAIRS = 40
"""Pairs in a sitting: some four minutes."""

SPREADS = np.exp(np.linspace(-2.4, 2.4, 29))
"""Spreads thought of, in the usual one [-]: from an eleventh of it to eleven times as much."""

SPREAD_FACTOR = 2.5
"""Factor either way of the usual spread that holds two thirds of hands before the first answer [-]. A guess."""

LEANS = np.linspace(-1.5, 1.5, 13)
"""Leans thought of, in spreads [-]."""

USUAL_LEAN = 0.5
"""Standard deviation of leans over hands, in spreads [-]. A guess."""

LAPSES = np.array([0.005, 0.02, 0.05, 0.1])
LAPSE_WEIGHTS = np.array([0.3, 0.3, 0.25, 0.15])
"""Shares of pairs answered without having felt, and how likely each is thought beforehand [-]. Guesses."""

SIZES = np.geomspace(0.06, 8.0, 20)
"""Differences that may be asked for, in the usual spread [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """One pair that was answered.

    Attributes:
        difference: of the second hub over the first, in the measure of what was asked.
        second: the second was called the one with more.
    """

    difference: float
    second: bool

    @property
    def right(self) -> bool:
        """Whether the hub that has more was named."""
        return self.second == (self.difference > 0)


def posterior(answers: Sequence[Answer], *, usual: float) -> Array:
    """Return how likely each hand is after the answers, over `SPREADS`, `LEANS` and `LAPSES` (29, 13, 4); sum 1.

    `usual`: the usual spread, in the measure of the answers. Their order does not matter.
    """
    asked = np.array([answer.difference for answer in answers]) / usual
    second = _chances(asked)
    said = np.array([answer.second for answer in answers], dtype=bool)[:, None, None, None]
    log = np.log(_prior()) + np.log(np.where(said, second, 1 - second)).sum(axis=0)
    weights = np.exp(log - log.max())
    return np.asarray(weights / weights.sum())


def next_size(answers: Sequence[Answer], *, usual: float) -> float:
    """Return the size of the difference to ask for next, in the measure of the answers and their `usual` spread.

    Which of the two hubs has more is left to chance, so the mean of both ways counts.
    """
    left = _expected_entropy(posterior(answers, usual=usual), _table())
    return usual * float(SIZES[np.argmin(left.reshape(2, -1).sum(axis=0))])


def _expected_entropy(hands: Array, second: Array) -> Array:
    """Return the entropy of the spread to be expected after each pair (n,) [nat]; `second` (n, 29, 13, 4)."""
    seconds = (second * hands).sum(axis=(-2, -1))
    firsts = hands.sum(axis=(-2, -1)) - seconds
    return sum((_entropy(of_spread) for of_spread in (firsts, seconds)), start=np.zeros(len(second)))


def _entropy(joint: Array) -> Array:
    """Return the entropy of the spread given one answer, times the chance of that answer (n,); `joint` (n, 29)."""
    chance = joint.sum(axis=-1)
    return np.asarray(chance * np.log(chance) - (joint * np.log(np.maximum(joint, 1e-300))).sum(axis=-1))


@lru_cache(maxsize=1)
def _prior() -> Array:
    """Return how likely each hand is before the first answer (29, 13, 4)."""
    spread = np.exp(-0.5 * (np.log(SPREADS) / np.log(SPREAD_FACTOR)) ** 2)
    lean = np.exp(-0.5 * (LEANS / USUAL_LEAN) ** 2)
    weights = spread[:, None, None] * lean[:, None] * LAPSE_WEIGHTS
    return np.asarray(weights / weights.sum())


@lru_cache(maxsize=1)
def _table() -> Array:
    """Return the chance of the answer "the second" for every pair that may be asked (40, 29, 13, 4)."""
    return _chances(np.concatenate((-SIZES, SIZES)))


def _chances(difference: Array) -> Array:
    """Return the chance of the answer "the second" to pairs (n,) by each hand (n, 29, 13, 4)."""
    return chance_of_second(
        difference=difference[:, None, None, None],
        spread=SPREADS[:, None, None],
        lean=LEANS[:, None],
        lapse=LAPSES,
    )
