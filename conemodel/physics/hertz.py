"""Ball on race: the contact ellipse and the law Q = K δ^1.5.

All functions take keywords in SI and broadcast over arrays. The ellipse is the exact elliptic-integral
solution, not a curve fit.
"""

from typing import NamedTuple

import numpy as np
from scipy.special import ellipe, ellipkm1, elliprd

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array, Floats
from conemodel.physics.domain import require
from conemodel.physics.race_curvature import Curvature

MAX_STEPS = 12
"""Newton steps allowed for the ellipse; four suffice over the whole range."""

LAST_STEP = 1e-7
"""Newton squares its error, so a step this short in ln k leaves an error of the order of its square."""


class Ellipse(NamedTuple):
    """Shape of a contact ellipse and the factors that go with it [-], Harris's a*, b*, δ*."""

    ellipticity: Floats
    a_star: Floats
    b_star: Floats
    delta_star: Floats


class PointContact(NamedTuple):
    """A loaded point contact.

    Attributes:
        semi_major: half length of the ellipse, across the rolling direction [m].
        semi_minor: half width of the ellipse, along the rolling direction [m].
        approach: how far the bodies have come together [m].
        peak_pressure: pressure at the centre [Pa].
    """

    semi_major: Floats
    semi_minor: Floats
    approach: Floats
    peak_pressure: Floats


def equivalent_modulus(*, young: Floats, poisson: Floats) -> Floats:
    """Return the contact modulus E* = E / (2 (1 - ν²)) [Pa] of two bodies of one material.

    This is Johnson's E*, 1/E* = (1 - ν1²)/E1 + (1 - ν2²)/E2. Many bearing books write E' = 2 E*.

    Args:
        young: E [Pa], above 0.
        poisson: ν [-], above -1 and below 0.5.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: [Johnson1985]
    """
    require(np.asarray(young) > 0, "young's modulus must be above 0 Pa")
    require((np.asarray(poisson) > -1) & (np.asarray(poisson) <= 0.5), "poisson must be above -1, up to 0.5")
    return young / (2 * (1 - poisson**2))


def ellipse(difference: Floats) -> Ellipse:
    """Return the exact contact ellipse of a curvature difference F(ρ).

    The ellipticity k = a/b solves F = ((k² + 1) E - 2 K) / ((k² - 1) E), K and E the complete elliptic
    integrals of parameter 1 - 1/k². Solved by Newton's method in ln k on ln(1 - F), which is nearly a
    straight line; converged to 1e-12 of k.

    Args:
        difference: F(ρ) [-], any shape, 0 up to below 1.

    Raises:
        OutOfDomain: a value outside that range, or nan.
        NotConverged: never seen; guards the answer.

    Source: [HarrisKotzalas2007]

    >>> print(f"{ellipse(0.94).ellipticity:.3f}")
    9.288
    """
    given = np.asarray(difference, dtype=np.float64)
    require((given >= 0) & (given < 1), "curvature difference must be 0 up to below 1")
    target = np.log1p(-given)
    log_k = (2 / np.pi) * (np.log1p(given) - target)
    for _ in range(MAX_STEPS):
        complement = np.exp(-2 * log_k)
        parameter = -np.expm1(-2 * log_k)
        whole = ellipe(parameter)
        long = ellipkm1(complement)
        thin = _third_integral(parameter, complement, whole, long)
        # 1 - F = 2 (1 - m) D / E, exactly
        miss = np.log(2 * complement * thin / whole) - target
        rest = long - thin
        bend = np.where(
            parameter > 1e-7, (rest - complement * thin) / np.maximum(parameter, 1e-7), 3 * np.pi / 16
        )
        step = miss / (2 - bend / thin - complement * thin / whole)
        log_k = np.maximum(log_k + step, 0.0)
        if np.all(np.abs(step) < LAST_STEP):
            return _factors(log_k)
    raise NotConverged(f"contact ellipse not found in {MAX_STEPS} steps")


def contact(*, load: Floats, curvature: Curvature, modulus: Floats) -> PointContact:
    """Return size, approach and peak pressure of a loaded point contact; an unloaded one is all zeros.

    Args:
        load: Q [N], 0 or more.
        curvature: of the two bodies.
        modulus: E* [Pa], see `equivalent_modulus`.

    Raises:
        OutOfDomain: a negative or nan load.

    Source: [HarrisKotzalas2007]
    """
    require(np.asarray(load) >= 0, "contact load must be 0 N or more")
    shape = ellipse(curvature.difference)
    stiff = curvature.total * modulus
    size = np.cbrt(1.5 * load / stiff)
    return PointContact(
        semi_major=shape.a_star * size,
        semi_minor=shape.b_star * size,
        approach=shape.delta_star * size**2 * curvature.total / 2,
        peak_pressure=stiff * size / (np.pi * shape.a_star * shape.b_star),
    )


def load_at_pressure(*, pressure: Floats, curvature: Curvature, modulus: Floats) -> Floats:
    """Return the load [N] at which the peak `pressure` [Pa] is reached: the reverse of `contact`.

    Other arguments as for `contact`.

    Source: [HarrisKotzalas2007]
    """
    require(np.asarray(pressure) >= 0, "pressure must be 0 Pa or more")
    shape = ellipse(curvature.difference)
    stiff = curvature.total * modulus
    size = np.pi * shape.a_star * shape.b_star * pressure / stiff
    return 2 / 3 * stiff * size**3


def load_constant(*, curvature: Curvature, modulus: Floats) -> Floats:
    """Return K [N/m^1.5] of one contact in Q = K δ^1.5.

    Arguments as for `contact`.

    Source: [HarrisKotzalas2007]
    """
    shape = ellipse(curvature.difference)
    constant: Floats = 4 * np.sqrt(2) / 3 * modulus / np.sqrt(curvature.total * shape.delta_star**3)
    return constant


def series_constant(*, cone: Floats, cup: Floats) -> Floats:
    """Return K [N/m^1.5] of a ball between both races, whose approaches add up under one load.

    Args:
        cone: K of ball on cone [N/m^1.5], above 0.
        cup: K of ball in cup [N/m^1.5], above 0.

    Source: [HarrisKotzalas2007]
    """
    return (cone ** (-2 / 3) + cup ** (-2 / 3)) ** -1.5


def stiffness(*, load_constant: Floats, approach: Floats) -> Floats:
    """Return dQ/dδ = 1.5 K √δ [N/m], 0 where the bodies are apart (δ < 0).

    Args:
        load_constant: K [N/m^1.5].
        approach: δ [m].

    Source: [HarrisKotzalas2007]
    """
    slope: Floats = 1.5 * load_constant * np.sqrt(np.maximum(approach, 0.0))
    return slope


def _third_integral(parameter: Array, complement: Array, whole: Array, long: Array) -> Array:
    """Return D(m) = (K - E)/m; near m = 0 the difference cancels, so there Carlson's slower form is used."""
    if np.all(parameter > 0.1):
        return (long - whole) / parameter
    return elliprd(0.0, complement, 1.0) / 3


def _factors(log_k: Floats) -> Ellipse:
    k = np.exp(log_k)
    whole = ellipe(-np.expm1(-2 * log_k))
    width = np.cbrt(2 * whole / (np.pi * k))
    return Ellipse(k, k * width, width, 2 / np.pi * ellipkm1(k**-2.0) / (k * width))
