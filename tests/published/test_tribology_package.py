"""Printed outputs of the open-source package `tribology` 0.5.16, kept as data because it needs an old NumPy.

Its semi-axes and peak pressure rest on curve fits good to 0.2 %; its approach is wrong for ellipses and not used.
"""

import numpy as np
import pytest

from conemodel.physics.hertz import contact, equivalent_modulus
from conemodel.physics.race_curvature import cone_curvature


def test_ball_on_cone():
    # Ball 6.35, f 0.52, dm 20, α 40°, 100 N, E 210 GPa, ν 0.3: b 0.058772, a 0.568170 mm, p0 1429.861 MPa.
    cone = cone_curvature(ball_diameter=6.35e-3, conformity=0.52, gamma=6.35 * np.cos(np.radians(40)) / 20)
    touch = contact(load=100.0, curvature=cone, modulus=equivalent_modulus(young=210e9, poisson=0.3))
    assert touch.semi_minor * 1e3 == pytest.approx(0.058772, rel=2e-3)
    assert touch.semi_major * 1e3 == pytest.approx(0.568170, rel=2e-3)
    assert touch.peak_pressure / 1e6 == pytest.approx(1429.861, rel=2e-3)
