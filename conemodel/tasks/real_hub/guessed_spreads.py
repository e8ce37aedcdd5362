"""A quantity that is not known, at a number that is standard normal: beyond a guessed end it goes on."""

import numpy as np
from scipy.special import ndtr, ndtri

from conemodel.base.units import Array
from conemodel.parts.distributions import Uncertain

GUESSED = frozenset({"lock_torque", "drift", "backlash", "clamp_force"})
"""Assumptions, lengths, turns, forces and torques, whose ends are guesses: beyond them is unlikely, not impossible."""

TAIL = float(ndtri(0.9))
"""Past nine in ten on either side such a quantity goes on in its logarithm as steeply as there [standard deviations].
Held between its ends, it would stop answering near them, and the little room left would pass for knowledge."""


def quantity_at(name: str, spread: Uncertain, z: Array) -> Array:
    """Return a quantity [SI] at numbers (n,) that are standard normal."""
    if name not in GUESSED or spread.low <= 0 or spread.low == spread.high:
        return spread.at(ndtr(z))
    inside, small = np.clip(z, -TAIL, TAIL), 1e-3
    edge = np.sign(z) * TAIL
    steep = np.log(spread.at(ndtr(edge)) / spread.at(ndtr(edge * (1 - small)))) / (TAIL * small)
    return np.asarray(spread.at(ndtr(inside)) * np.exp(steep * np.maximum(np.abs(z) - TAIL, 0.0)))
