"""Where Newton's method starts from, and how soft the balls are while it finds its way."""

import numpy as np

from conemodel.base.units import Array
from conemodel.solve.equilibrium.arrays import FREEDOMS, PairArrays
from conemodel.solve.equilibrium.batched_ldl import solve_each
from conemodel.solve.equilibrium.energy import evaluate, hessian, rate_products, sum_over_freedoms

_TIGHT = -50e-6
"""End play, from where the last ball touches, at which all are loaded [m]; their stiffness gives the direction."""

_HEAVIEST = 1.5
"""Load of the heaviest ball to start from, over the load on the shell [-]; rather more than it will be."""

_FURTHEST = 1e-3
"""Longest start [m]."""

_SOFT_APPROACH = 10e-6
"""A loose hub's balls start so soft that the load alone would press one in by this much [m]."""


def first_guess(pair: PairArrays, *, end_play: Array, force: Array) -> Array:
    """Return where to start (6, n): as far along a tight hub's answer to the load as one ball can bear it.

    Starting with a ball pressed in too far is better than too little: from there Newton's method on a force
    that grows with δ^1.5 comes down to the answer without overshooting.
    """
    if not force.any():
        return np.zeros_like(force)
    none = np.zeros((FREEDOMS, pair.lever.size))
    touching = 2 * (pair.axial_rest - np.sqrt(np.maximum(pair.touch**2 - pair.radial_rest**2, 0.0))).min(0)
    tight = evaluate(pair, none, end_play=np.minimum(touching, 0.0) + _TIGHT, force=none)
    way = solve_each(hessian(pair, tight, rate_products(pair)), force)
    way /= np.maximum(np.abs(way[:5]).max(0), 1e-300)
    axial, radial = pair.axial_rest - end_play / 2, pair.radial_rest
    length = np.hypot(axial, radial)
    closing = (
        axial * sum_over_freedoms(pair.axial_rate, way) + radial * sum_over_freedoms(pair.radial_rate, way)
    ) / length
    pressed = np.cbrt((_HEAVIEST * np.abs(force).max(0) / pair.load_constant.max(0)) ** 2)
    distance = ((pressed + pair.touch - length) / np.maximum(closing, 1e-6)).min(0)
    guess: Array = way * np.clip(distance, 0.0, _FURTHEST)
    return guess


def first_softness(pair: PairArrays, *, end_play: Array, force: Array) -> Array:
    """Return the share of their stiffness that the balls start with (n,).

    A light load on a loose hub must feel its way round the gap between walls that are hard against it; with
    soft balls the walls come towards it. A tight or an unloaded hub needs none of this.
    """
    load = np.abs(force).max(0)
    firm = pair.load_constant.max(0) * _SOFT_APPROACH**1.5
    return np.where((end_play > 0) & (load > 0), np.minimum(load / firm, 1.0), 1.0)
