"""Mouse, finger and keys at the model: how finely each turns a cone, and whether one passes more often than another."""

from collections.abc import Callable, Sequence
from math import radians
from typing import Literal, get_args

from scipy.stats import binomtest

from conemodel.tasks.practice.actions import Action, TurnCone
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice.hands import do

By = Literal["mouse", "touch", "keys"]
INPUTS: tuple[By, ...] = get_args(By)

STEPS: dict[By, float] = {"mouse": 0.45, "touch": 0.9, "keys": 1.0}
"""How finely each input turns the cone [°]: pixels of the dial, a finger's width of them, arrow keys with Shift."""


def doing_by(by: By) -> Callable[..., Bench]:
    """Return what does acts at a bench as an input can: it turns the cone by whole steps of its own."""
    step = radians(STEPS[by])

    def do_by(bench: Bench, *actions: Action) -> Bench:
        for action in actions:
            done = action
            if isinstance(action, TurnCone):
                now = bench.hub.shown
                done = TurnCone(now + round((action.angle - now) / step) * step)
            bench = do(bench, done)
        return bench

    return do_by


def chance_of_such_a_difference(one: Sequence[bool], other: Sequence[bool]) -> float:
    """Return how likely two ways that pass alike differ as much as these did on the same seeds [-].

    McNemar's exact test: among the seeds that only one of them passes, each is as likely to be the one. Source:
    McNemar, Psychometrika 12 (1947), from memory; the binomial sum is scipy's.
    """
    only_one = sum(a and not b for a, b in zip(one, other, strict=True))
    differ = sum(a != b for a, b in zip(one, other, strict=True))
    return float(binomtest(only_one, differ).pvalue) if differ else 1.0
