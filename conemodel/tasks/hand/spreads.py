"""What a measured hand gives to practice: how much a single look of it scatters."""

from collections.abc import Mapping
from math import exp, log, sqrt

from conemodel.base.units import MM
from conemodel.parts.scatter import MOST, Scatter
from conemodel.parts.unknowns.senses import FELT_AT_RIM
from conemodel.tasks.hand.kinds import KindName
from conemodel.tasks.hand.psychometric import TOLD_SPREADS


def spread_of_one_look(threshold: float) -> float:
    """Return the standard deviation by which one hub is misfelt, from the threshold of pairs, same measure.

    A pair is two looks, each with its own error of the same spread, so their difference spreads by the root of two
    more (derived; the equal-variance model of signal detection).

    >>> round(spread_of_one_look(0.1e-3), 9)
    0.000104836
    """
    return threshold / (TOLD_SPREADS * sqrt(2))


def scatter_of_hand(scatter: Scatter, thresholds: Mapping[KindName, float]) -> Scatter:
    """Return a scatter in which play and drag err as in a measured hand, so far as it was measured.

    Both are factors there. Torques were told apart as a ratio; play, which was told apart as a length [m], counts
    against the play a usual hand just feels: there it decides between loose and right.
    """
    looks = {kind: spread_of_one_look(threshold) for kind, threshold in thresholds.items()}
    found = {}
    if "play" in looks:
        found["play"] = _factor(looks["play"] / MM.to_si(FELT_AT_RIM.usual))
    if "tightness" in looks:
        found["drag"] = _factor(looks["tightness"])
    return scatter.replace(**found)


def _factor(spread: float) -> float:
    return MOST if spread > log(MOST) else exp(spread)
