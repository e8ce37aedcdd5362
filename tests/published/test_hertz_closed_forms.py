"""Hertz contacts whose answer is known in closed form, or from the defining integrals by plain quadrature.

Sources: [Johnson1985] for sphere on flat; the integrals of an ellipse's potential, computed here without any
elliptic function.
"""

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from conemodel.physics.hertz import contact, ellipse, equivalent_modulus, load_constant
from conemodel.physics.race_curvature import Curvature, cone_curvature, cup_curvature

STEEL = equivalent_modulus(young=210e9, poisson=0.3)
RADIUS, LOAD = 3.175e-3, 100.0


def test_sphere_on_flat():
    # Closed forms: a = (3QR/4E*)^(1/3), δ = a²/R, p0 = 3Q/(2πa²).
    touch = contact(load=LOAD, curvature=Curvature(2 / RADIUS, 0.0), modulus=STEEL)
    a = (0.75 * LOAD * RADIUS / STEEL) ** (1 / 3)
    assert touch.semi_major == pytest.approx(a, rel=1e-12)
    assert touch.semi_minor == pytest.approx(a, rel=1e-12)
    assert touch.approach == pytest.approx(a**2 / RADIUS, rel=1e-12)
    assert touch.peak_pressure == pytest.approx(1.5 * LOAD / (np.pi * a**2), rel=1e-12)


def test_sphere_on_flat_in_numbers():
    # The same forms worked out by hand, in mm, MPa and µm.
    touch = contact(load=LOAD, curvature=Curvature(2 / RADIUS, 0.0), modulus=STEEL)
    assert touch.semi_major * 1e3 == pytest.approx(0.127316794, abs=1e-9)
    assert touch.peak_pressure / 1e6 == pytest.approx(2945.5744, abs=1e-4)
    assert touch.approach * 1e6 == pytest.approx(5.105375, abs=1e-6)


def test_sphere_constant():
    # K = 4/3 E* √R.
    assert load_constant(curvature=Curvature(2 / RADIUS, 0.0), modulus=STEEL) == pytest.approx(
        4 / 3 * STEEL * np.sqrt(RADIUS), rel=1e-12
    )


def integral(power_a, power_b, k):
    """∫0^∞ of 1/√((k²+t)^pa (1+t)^pb t) over t, with t = tan²u to close the range."""

    def of(u):
        t = np.tan(u) ** 2
        return 2 * (1 + t) / np.sqrt((k**2 + t) ** power_a * (1 + t) ** power_b)

    return quad(of, 0, np.pi / 2, epsabs=0, epsrel=1e-12, limit=400)[0]


def by_quadrature(difference):
    """Return k, a*, b*, δ* from the potential of an ellipsoidal pressure, no elliptic function used.

    Under a semi-ellipsoidal pressure on x²/k² + y² < 1 the surface sinks by I0 - Ia x² - Ib y²; the curvatures
    it can meet are as Ib and Ia, the approach as I0 (Hertz 1882).
    """

    def miss(k):
        along, across = integral(1, 3, k), integral(3, 1, k)
        return (along - across) / (along + across) - difference

    k = brentq(miss, 1.0 + 1e-12, 1e3, xtol=1e-13, rtol=1e-14)
    total = integral(1, 3, k) + integral(3, 1, k)
    b = np.cbrt(total / np.pi)  # normalised so that the circle gives 1
    return k, k * b, b, integral(1, 1, k) / (np.pi * k * b) * k


@pytest.mark.parametrize("difference", [0.05, 0.3, 0.6, 0.85, 0.9, 0.94, 0.97, 0.99, 0.999])
def test_ellipse_against_quadrature(difference):
    k, a_star, b_star, delta_star = by_quadrature(difference)
    found = ellipse(difference)
    assert found.ellipticity == pytest.approx(k, rel=1e-8)  # what the quadrature is good for
    assert found.a_star == pytest.approx(a_star, rel=1e-8)
    assert found.b_star == pytest.approx(b_star, rel=1e-8)
    assert found.delta_star == pytest.approx(delta_star, rel=1e-8)


GAMMA = 6.35 * np.cos(np.radians(40)) / 20


@pytest.mark.parametrize(
    ("race", "conformity", "k", "a", "b", "p0", "delta"),
    [
        (cone_curvature, 0.52, 9.63551, 0.567179, 0.058863, 1430.13, 2.66949),
        (cup_curvature, 0.52, 7.12152, 0.545790, 0.076640, 1141.46, 2.54830),
        (cone_curvature, 0.54, 6.45708, 0.432886, 0.067040, 1645.25, 3.12120),
        (cup_curvature, 0.54, 4.73909, 0.413851, 0.087327, 1321.14, 2.96393),
    ],
)
def test_ball_on_race(race, conformity, k, a, b, p0, delta):
    # Ball 6.35, dm 20, α 40°, 100 N; mm, MPa, µm. No printed value: two independent computations outside this
    # project agreed on these digits.
    curvature = race(ball_diameter=6.35e-3, conformity=conformity, gamma=GAMMA)
    touch = contact(load=100.0, curvature=curvature, modulus=STEEL)
    found = (
        ellipse(curvature.difference).ellipticity,
        touch.semi_major * 1e3,
        touch.semi_minor * 1e3,
        touch.peak_pressure / 1e6,
        touch.approach * 1e6,
    )
    assert found == pytest.approx((k, a, b, p0, delta), rel=1e-5)


def test_6206_inner_race():
    # Ball 9.525, groove radius 4.89, dm 46, α 0, 555.56 N: exact solution computed twice outside the project.
    curvature = cone_curvature(ball_diameter=9.525e-3, conformity=4.89 / 9.525, gamma=9.525 / 46)
    touch = contact(load=555.56, curvature=curvature, modulus=STEEL)
    assert ellipse(curvature.difference).ellipticity == pytest.approx(11.8342, abs=1e-4)
    assert touch.semi_major * 1e3 == pytest.approx(1.34091, abs=1e-5)
    assert touch.semi_minor * 1e3 == pytest.approx(0.11331, abs=1e-5)
    assert touch.peak_pressure / 1e6 == pytest.approx(1745.9, abs=0.1)
    assert touch.approach * 1e6 == pytest.approx(6.62, abs=0.005)
