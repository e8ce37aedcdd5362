"""What a measured hand gives to what simulates one: the spread of a single look."""

from math import sqrt

from conemodel.tasks.hand.psychometric import TOLD_SPREADS


def spread_of_one_look(threshold: float) -> float:
    """Return the standard deviation by which one hub is misfelt, from the threshold of pairs, same measure.

    A pair is two looks, each with its own error of the same spread, so their difference spreads by the root of two
    more (derived; the equal-variance model of signal detection). Both hold for the hub that was felt on this screen and
    by this device: a real hub's spread is another.

    >>> round(spread_of_one_look(0.1e-3), 9)
    0.000104836
    """
    return threshold / (TOLD_SPREADS * sqrt(2))
