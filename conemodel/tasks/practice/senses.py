"""What a hand makes of what is there: the same hub is not felt alike twice, nor is a nut pulled alike twice.

Every scatter is stated in `parts.scatter`; half its variance belongs to the sitting, half to the act. Picture, sound,
vibration and words all take what is felt from here, so that none of them tells more than another.
"""

from math import exp, log, sqrt
from statistics import NormalDist
from typing import Literal

from conemodel.tasks.practice.careful_hand import SURE
from conemodel.tasks.practice.keyed_random import uniform, within
from conemodel.tasks.practice.session import HiddenHub, HubState

Sense = Literal["play", "drag", "ripple", "pinch", "pull"]
"""What scatters by a factor, as `parts.scatter` names it."""

CUT = 0.005
"""Share of a bell at each end that is left out: nothing scatters beyond 2.6 deviations."""


def scattered(secret: HiddenHub, sense: Sense, act: int) -> float:
    """Return the factor by which one act misses what is there [-]; the same for the same act of the same sitting."""
    spread = log(getattr(secret.scatter, sense))
    if spread == 0.0:
        return 1.0
    both = _bell(secret.sitting, sense, 0) + _bell(secret.key, sense, act)
    return exp(spread * both / sqrt(2))


def felt(secret: HiddenHub, hub: HubState, sense: Sense) -> float:
    """Return the factor by which the hand misses what it feels next [-]."""
    return scattered(secret, sense, hub.acts)


def told_apart(secret: HiddenHub, sense: Sense) -> float:
    """Return the ratio to a limit that a hand tells three times in four, feeling as often as it likes [-].

    Only the sitting's half of the variance is left then.
    """
    return exp(log(getattr(secret.scatter, sense)) / sqrt(2) * NormalDist().inv_cdf(SURE))


def undone_by(secret: HiddenHub, hub: HubState) -> float:
    """Return how far an unheld cone goes out with the locknut that is undone next [rad]."""
    return within(secret.key, f"undo {hub.acts}", secret.scatter.undo_drag)


def _bell(key: str, sense: Sense, act: int) -> float:
    """Return a number from a bell of deviation 1, its ends cut off."""
    return NormalDist().inv_cdf(uniform(key, sense, act, low=CUT, high=1.0 - CUT))
