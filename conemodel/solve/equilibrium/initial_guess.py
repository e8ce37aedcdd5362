"""Where Newton's method starts from, and how soft the balls are at first."""

import numpy as np

from conemodel.base.units import Array
from conemodel.solve.equilibrium.batched_ldl import solve_each
from conemodel.solve.equilibrium.energy import evaluate, hessian, rate_products, sum_over_freedoms
from conemodel.solve.equilibrium.kinematics import FREEDOMS, PairArrays

_TIGHT = -50e-6
"""End play, from where the last ball touches, at which all are loaded [m]. A tight hub's stiffness has full rank:
the direction of the first guess comes from it, where a loose hub's own Hessian would be singular.
"""

_HEAVIEST = 1.5
"""Load of the heaviest ball to start from, over the load on the shell [-]; rather more than it will be."""

_FURTHEST = 1e-3
"""Longest start [m]."""

_SOFT_APPROACH = 10e-6
"""A loose hub's balls start so soft that the load alone would press one in by this much [m]."""


def first_guess(pair: PairArrays, *, end_play: Array, force: Array) -> Array:
    """Return where to start (6, n): as far along a tight hub's response to the load as the first ball can carry it.

    It starts tight, a ball pressed in too far rather than too little: the force δ^1.5 is convex in the approach,
    so from there Newton's method comes down to the solution without overshooting, while from too little a first
    step with almost no stiffness would go far beyond it.
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

    Under a light load a loose hub moves freely until a ball stops it, and the energy is a flat valley between
    steep sides: Newton's steps would bounce from side to side. Balls that start soft make the sides gentle, and
    their stiffness is raised as balance comes near (continuation). A tight or unloaded hub needs none of this.
    """
    load = np.abs(force).max(0)
    firm = pair.load_constant.max(0) * _SOFT_APPROACH**1.5
    return np.where((end_play > 0) & (load > 0), np.minimum(load / firm, 1.0), 1.0)
