"""The normal distribution. Its probabilities are `scipy.special.ndtr`; scipy.stats takes a second to import."""

import numpy as np

from conemodel.base.units import Array


def normal_density(off: Array, spread: float | Array) -> Array:
    """Return the density of a value that is `off` its mean, with a standard deviation `spread` of the same unit.

    Closed form, exp(-z²/2) / (σ √2π).

    >>> round(float(normal_density(np.array(0.0), 2.0)), 6)
    0.199471
    """
    standard = off / spread
    return np.asarray(np.exp(-0.5 * standard * standard) / (spread * np.sqrt(2 * np.pi)))
