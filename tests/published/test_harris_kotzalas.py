"""The 209 deep-groove bearing that [HarrisKotzalas2007] carries through its chapters.

D 12.7 mm, dm 65 mm, f 0.52, α 0. Printed values from memory, page not seen; recomputed outside the project.
"""

import pytest

from conemodel.physics.race_curvature import cone_curvature, cup_curvature

BALL = {"ball_diameter": 12.7e-3, "conformity": 0.52, "gamma": 12.7 / 65}


def test_inner_race():
    cone = cone_curvature(**BALL)
    assert cone.total / 1e3 == pytest.approx(0.202, abs=5e-4)  # last printed digit
    assert cone.difference == pytest.approx(0.940, abs=5e-4)


def test_outer_race():
    cup = cup_curvature(**BALL)
    assert cup.total / 1e3 == pytest.approx(0.138, abs=5e-4)
    assert cup.difference == pytest.approx(0.912, abs=5e-4)
