"""The dynamic factor fc of [ISO281] and the standard's worked example. Table and example seen."""

import numpy as np
import pytest

from conemodel.physics.rating import dynamic_axial_rating, dynamic_radial_rating, iso281_fc

GAMMA = np.arange(1, 41) / 100
TABLE = np.array(
    [
        *(29.1, 35.8, 40.3, 43.8, 46.7, 49.1, 51.1, 52.8, 54.3, 55.5),
        *(56.6, 57.5, 58.2, 58.8, 59.3, 59.6, 59.8, 59.9, 60.0, 59.9),
        *(59.8, 59.6, 59.3, 59.0, 58.6, 58.2, 57.7, 57.1, 56.6, 56.0),
        *(55.3, 54.6, 53.9, 53.2, 52.4, 51.7, 50.9, 50.0, 49.2, 48.4),
    ]
)


def test_table_in_full():
    # Printed to 0.1; a hair over half of that allows for the constants behind it, themselves rounded.
    assert np.max(np.abs(iso281_fc(gamma=GAMMA) - TABLE)) < 0.075


def test_the_table_tells_wrong_grooves_apart():
    assert np.max(np.abs(iso281_fc(gamma=GAMMA, cup_conformity=0.53) - TABLE)) > 0.5


def test_worked_example():
    # 40°, D/dm 0.091, D 7.5 mm, Z 27, fc 51.1: Cr 18651 N, Ca 23493 N.
    angle = np.radians(40)
    radial = dynamic_radial_rating(fc=51.1, ball_count=27, ball_diameter=7.5e-3, contact_angle=angle)
    assert radial == pytest.approx(18651, abs=1)
    axial = dynamic_axial_rating(radial_rating=radial, contact_angle=angle)
    assert axial == pytest.approx(23493, rel=5e-4)  # the printed steps between are rounded


def test_the_formula_gives_the_example_its_fc():
    gamma = 0.091 * np.cos(np.radians(40))
    assert iso281_fc(gamma=round(gamma, 2)) == pytest.approx(51.1, abs=0.05)
