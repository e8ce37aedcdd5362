"""The psychometric function: how often the second of two hubs is called the one with more, over their difference."""

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr

from conemodel.base.units import Array

TOLD = 0.75
"""Share of pairs told right, without a bias or a slip, at the threshold [-]: half way from guessing to certain."""

TOLD_SPREADS = 0.6744897501960817
"""The same as a number of spreads [-]: the normal distribution's upper quartile. Closed form."""


def chance_of_second(
    *, difference: npt.ArrayLike, spread: npt.ArrayLike, lean: npt.ArrayLike, lapse: npt.ArrayLike
) -> Array:
    """Return the chance that the second hub of a pair is called the one with more; shapes broadcast.

    Two looks err with a normal spread, so their difference does; a lean towards one hub shifts it. With the chance
    `lapse` nothing was looked at and either hub is named alike. Sources: [Levitt1971], [WichmannHill2001]

    Args:
        difference: of the second hub over the first, in the task's own measure.
        spread: of the error of the difference felt, same measure, above 0.
        lean: towards calling the first, in spreads [-].
        lapse: share of pairs answered without having felt [-].

    >>> float(chance_of_second(difference=0.0, spread=1.0, lean=0.0, lapse=0.1))
    0.5
    """
    lapse = np.asarray(lapse)
    felt = ndtr(np.asarray(difference) / np.asarray(spread) - np.asarray(lean))
    return np.asarray(lapse / 2 + (1 - lapse) * felt)
