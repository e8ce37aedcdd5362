"""A sitting: one pair after another, each made from the answers before it and from the sitting's own number."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from conemodel.tasks.hand.kinds import Kind
from conemodel.tasks.hand.procedure import PAIRS, Answer, next_size


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two hubs to be felt.

    Attributes:
        number: of the pair in its sitting, from 0.
        difference: of the second over the first: [m], or [-] as a natural logarithm of torques.
        first, second: what each has: free play at the rim [m], or torque [N·m].
    """

    number: int
    difference: float
    first: float
    second: float


def next_pair(kind: Kind, answers: Sequence[Answer], *, seed: int) -> Pair | None:
    """Return the pair to feel after those answered, None after the last; the same whenever it is asked for.

    Which hub has more, and how much both have about them, is left to chance: `seed` is the sitting's.
    """
    number = len(answers)
    if number >= PAIRS:
        return None
    draw = np.random.default_rng((seed, number))
    size = next_size(answers, usual=kind.usual)
    difference = size if draw.random() < 0.5 else -size
    first, second = kind.levels(float(draw.uniform(kind.least, kind.most)), difference)
    return Pair(number=number, difference=difference, first=first, second=second)
