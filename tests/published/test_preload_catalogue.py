"""Axial approach of a row after the bearing makers' catalogues: δa = 0.00044/sin α (Q²/D)^(1/3) mm, N and mm.

The rule was seen in a catalogue, which does not state the groove. The exact solution brackets it between the tight
groove of precision bearings and the standard's.
"""

import numpy as np
import pytest

from conemodel.physics.hertz import equivalent_modulus, load_constant, series_constant
from conemodel.physics.race_curvature import cone_curvature, cup_curvature


def catalogue_constant(cone_conformity, cup_conformity, load=100.0, ball=6.35e-3, gamma=0.0):
    """Return what stands in place of 0.00044 for these grooves."""
    steel = equivalent_modulus(young=207e9, poisson=0.3)
    each = [
        load_constant(curvature=race(ball_diameter=ball, conformity=f, gamma=gamma), modulus=steel)
        for race, f in ((cone_curvature, cone_conformity), (cup_curvature, cup_conformity))
    ]
    approach = (load / series_constant(cone=each[0], cup=each[1])) ** (2 / 3)
    return approach * 1e3 / np.cbrt(load**2 / (ball * 1e3))


def test_catalogue_rule_lies_between_tight_and_standard_grooves():
    assert catalogue_constant(0.515, 0.515) < 0.00044 < catalogue_constant(0.52, 0.53)


@pytest.mark.parametrize(
    ("cone", "cup", "constant"),
    [(0.515, 0.515, 0.000422), (0.52, 0.53, 0.000472), (0.54, 0.54, 0.000526)],
)
def test_exact_constants(cone, cup, constant):
    # Computed outside the project; Young's modulus and γ leave 0.3 % open.
    assert catalogue_constant(cone, cup) == pytest.approx(constant, rel=4e-3)


@pytest.mark.parametrize(("load", "ball"), [(5.0, 4.763e-3), (1000.0, 6.35e-3)])
def test_the_power_law_holds_for_any_load_and_ball(load, ball):
    assert catalogue_constant(0.52, 0.52, load, ball) == pytest.approx(
        catalogue_constant(0.52, 0.52), rel=1e-12
    )
