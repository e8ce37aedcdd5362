"""The static factor f0 of [ISO76]: its whole radial table, rebuilt by the exact contact ellipse.

Table of ISO 76:1987 seen in a national adoption with the authentic text; the first values of the thrust table
from memory.
"""

import numpy as np
import pytest

from conemodel.physics.hertz import contact, equivalent_modulus
from conemodel.physics.race_curvature import cone_curvature, cup_curvature
from conemodel.physics.rating import (
    STATIC_PRESSURE,
    iso76_f0,
    iso76_thrust_f0,
    permanent_set,
    static_axial_rating,
)

GAMMA = np.arange(41) / 100
RADIAL = np.array(
    [
        *(14.7, 14.9, 15.1, 15.3, 15.5, 15.7, 15.9, 16.1, 16.3, 16.5),
        *(16.4, 16.1, 15.9, 15.6, 15.4, 15.2, 14.9, 14.7, 14.4, 14.2),
        *(14.0, 13.7, 13.5, 13.2, 13.0, 12.8, 12.5, 12.3, 12.1, 11.8),
        *(11.6, 11.4, 11.2, 10.9, 10.7, 10.5, 10.3, 10.0, 9.8, 9.6),
        9.4,
    ]
)


def test_radial_table_in_full():
    # Printed to 0.1, so half of that from rounding; the makers of the table used approximate integrals.
    assert np.max(np.abs(iso76_f0(gamma=GAMMA) / 1e6 - RADIAL)) < 0.054


def test_the_table_tells_wrong_grooves_apart():
    # Grooves a hundredth off miss the table by far more than its rounding.
    tight = iso76_f0(gamma=GAMMA, cone_conformity=0.53) / 1e6
    assert np.max(np.abs(tight - RADIAL)) > 1


def test_thrust_table_begins_as_printed():
    # From memory, page not seen; printed to 0.1.
    found = np.asarray(iso76_thrust_f0(gamma=GAMMA[:5])) / 1e6
    assert np.max(np.abs(found - [61.6, 60.8, 59.9, 59.1, 58.3])) < 0.054


def test_rating_is_the_load_that_makes_the_static_pressure():
    # By the standard's own definition: C0r = f0 Z D² cos α, and 5 C0r/(Z cos α) on one ball gives 4200 MPa on the
    # worse race.
    ball, pitch, angle, count = 6.35e-3, 20e-3, np.radians(40), 9
    gamma = ball * np.cos(angle) / pitch
    rating = iso76_f0(gamma=gamma) * count * ball**2 * np.cos(angle)
    steel = equivalent_modulus(young=207e9, poisson=0.3)
    pressures = [
        contact(
            load=5 * rating / (count * np.cos(angle)),
            curvature=race(ball_diameter=ball, conformity=f, gamma=gamma),
            modulus=steel,
        ).peak_pressure
        for race, f in ((cone_curvature, 0.52), (cup_curvature, 0.53))
    ]
    assert max(pressures) == pytest.approx(STATIC_PRESSURE, rel=1e-9)


def test_axial_rating_is_the_load_that_makes_the_static_pressure():
    ball, pitch, angle, count = 6.35e-3, 20e-3, np.radians(40), 9
    gamma = ball * np.cos(angle) / pitch
    rating = static_axial_rating(
        f0=iso76_thrust_f0(gamma=gamma), ball_count=count, ball_diameter=ball, contact_angle=angle
    )
    cone = cone_curvature(ball_diameter=ball, conformity=0.54, gamma=gamma)
    steel = equivalent_modulus(young=207e9, poisson=0.3)
    touch = contact(load=rating / (count * np.sin(angle)), curvature=cone, modulus=steel)
    assert touch.peak_pressure == pytest.approx(STATIC_PRESSURE, rel=1e-9)


@pytest.mark.parametrize("gamma", [0.0, 0.1, 0.2, 0.3])
def test_static_pressure_leaves_a_dent_of_a_ten_thousandth_of_the_ball(gamma):
    # The standard: "approximately 0.0001" of the ball, seen. Palmgren's formula, from memory, is an estimate of
    # the same, so a factor of two is asked for.
    steel = equivalent_modulus(young=207e9, poisson=0.3)
    cone = cone_curvature(ball_diameter=6.35e-3, conformity=0.52, gamma=gamma)
    one = contact(load=1.0, curvature=cone, modulus=steel).peak_pressure
    load = (STATIC_PRESSURE / one) ** 3
    dent = permanent_set(load=load, ball_diameter=6.35e-3, curvature=cone)
    assert 0.5e-4 < dent / 6.35e-3 < 2e-4
