"""How sharply a ball and its race bend away from each other.

All functions take keywords in SI and broadcast over arrays.
"""

from typing import NamedTuple

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics.domain import require


class Curvature(NamedTuple):
    """How sharply two bodies bend away from each other at a point.

    Attributes:
        total: curvature sum Σρ [1/m].
        difference: curvature difference F(ρ) [-], 0 for a sphere on a flat, towards 1 for a long ellipse.
    """

    total: Floats
    difference: Floats


def cone_curvature(*, ball_diameter: Floats, conformity: Floats, gamma: Floats) -> Curvature:
    """Return the curvature of a ball on the cone, the race that is convex along the rolling direction.

    Args:
        ball_diameter: D [m], above 0.
        conformity: groove radius over ball diameter f [-], above 0.5.
        gamma: D cos α / dm [-], 0 up to below 1.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: [HarrisKotzalas2007]

    >>> cone = cone_curvature(ball_diameter=12.7e-3, conformity=0.52, gamma=12.7 / 65)
    >>> f"{cone.total / 1e3:.4f} per mm, {cone.difference:.3f}"
    '0.2018 per mm, 0.940'
    """
    _require_race(ball_diameter, conformity, gamma)
    f, along = conformity, 2 * gamma / (1 - gamma)
    reach = 4 - 1 / f + along
    return Curvature(total=reach / ball_diameter, difference=(1 / f + along) / reach)


def cup_curvature(*, ball_diameter: Floats, conformity: Floats, gamma: Floats) -> Curvature:
    """Return the curvature of a ball in the cup, the race that is concave along the rolling direction.

    Arguments, ranges and errors as for `cone_curvature`.

    Source: [HarrisKotzalas2007]

    >>> cup = cup_curvature(ball_diameter=12.7e-3, conformity=0.52, gamma=12.7 / 65)
    >>> f"{cup.total / 1e3:.4f} per mm, {cup.difference:.3f}"
    '0.1378 per mm, 0.912'
    """
    _require_race(ball_diameter, conformity, gamma)
    f, along = conformity, 2 * gamma / (1 + gamma)
    reach = 4 - 1 / f - along
    return Curvature(total=reach / ball_diameter, difference=(1 / f - along) / reach)


def _require_race(ball_diameter: Floats, conformity: Floats, gamma: Floats) -> None:
    require(np.asarray(ball_diameter) > 0, "ball diameter must be above 0 m")
    require(np.asarray(conformity) > 0.5, "conformity must be above 0.5: the groove is rounder than the ball")
    require((np.asarray(gamma) >= 0) & (np.asarray(gamma) < 1), "gamma must be 0 up to below 1")
