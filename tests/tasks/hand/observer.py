"""A hand that errs, made of nothing the program has: it misfeels each hub by itself, compares, and names one.

The equal-variance model of signal detection (closed form): two looks err alike, so a difference is told right three
times in four where it is 0.6745 of the root of two times the spread of a look.
"""

from dataclasses import dataclass, field
from math import log, sqrt
from random import Random
from statistics import NormalDist

from conemodel.tasks.hand.kinds import KINDS, Kind
from conemodel.tasks.hand.pairs import next_pair
from conemodel.tasks.hand.procedure import Answer


@dataclass
class Observer:
    """One hand.

    Attributes:
        look: spread of one look, in the measure felt: [m], or the logarithm of a torque.
        bias: how much more the second hub must have to feel alike, same measure.
        lapse: share of pairs it answers without having felt.
        draw: its chances.
    """

    look: float
    bias: float = 0.0
    lapse: float = 0.0
    draw: Random = field(default_factory=lambda: Random(1))

    @property
    def threshold(self) -> float:
        return NormalDist(0.0, self.look * sqrt(2)).inv_cdf(0.75)

    def calls_second(self, first: float, second: float) -> bool:
        """Return whether it names the second of two hubs that have `first` and `second`."""
        if self.draw.random() < self.lapse:
            return self.draw.random() < 0.5
        return self.draw.gauss(second, self.look) - self.draw.gauss(first, self.look) > self.bias


def sit(observer: Observer, kind: Kind, *, seed: int) -> list[Answer]:
    """Return the answers of a whole sitting."""
    answers: list[Answer] = []
    while (pair := next_pair(kind, answers, seed=seed)) is not None:
        ends = (log(pair.first), log(pair.second)) if kind.name == "tightness" else (pair.first, pair.second)
        answers.append(Answer(difference=pair.difference, second=observer.calls_second(*ends)))
    return answers


def draw_observer(kind: Kind, number: int) -> Observer:
    """Return a hand up to three times finer or coarser than is usual, biased at random, with 2 to 5 % lapses."""
    draw = Random(number)
    spread = kind.just_told / NormalDist().inv_cdf(0.75) * 3 ** draw.uniform(-1, 1)
    bias = spread * draw.uniform(-0.8, 0.8)
    return Observer(look=spread / sqrt(2), bias=bias, lapse=draw.uniform(0.02, 0.05), draw=draw)


BOTH = tuple(KINDS.values())
