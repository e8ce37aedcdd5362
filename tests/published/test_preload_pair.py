"""Two equal rows preloaded against each other, and one hub row under thrust.

Preload pair at constant contact angle, closed form found in every book on preload: with x the axial shift over the
approach from preload, Fe/F0 = (1 + x)^1.5 - (1 - x)^1.5, and at x = 1 one row comes loose. Hub row: computed outside
the project with the Hertz constants at the actual contact angle; here they stand at the starting angle, which
raises the cone's pressure by up to 0.3 % and lowers the cup's as much; so the pressures are also worked out anew at
the angle reached.
"""

import numpy as np
import pytest

from conemodel.parts.bearing import Pair, Row
from conemodel.physics.hertz import contact, equivalent_modulus
from conemodel.physics.race_curvature import cone_curvature, cup_curvature
from conemodel.solve.equilibrium.pair import solve_pair

ROW = Row(
    ball_diameter=6.35e-3,
    ball_count=9,
    pitch_diameter=20e-3,
    contact_angle=np.radians(40),
    cone_conformity=0.52,
    cup_conformity=0.54,
    young=206e9,
)
PAIR = Pair(left=ROW, right=ROW, row_spacing=60e-3)


@pytest.mark.parametrize(("shift", "ratio"), [(0.25, 0.7480), (0.5, 1.4836), (1.0, 2.8284)])
def test_preload_pair(shift, ratio):
    end_play = -4e-8  # approach and shift of 20 nm: the contact angle changes by less than 1 in 10,000
    preload = float(solve_pair(PAIR, end_play=end_play, load=np.zeros(5)).preload)
    solution = solve_pair(PAIR, end_play=end_play, load=(ratio * preload, 0, 0, 0, 0))
    assert solution.shell_motion[0] == pytest.approx(shift * -end_play / 2, rel=1e-3)
    if shift == 1.0:
        assert solution.left.ball_load.max() < 1e-3 * solution.right.ball_load.max()


@pytest.mark.parametrize(
    ("thrust", "angle", "way", "cone", "cup"),
    [
        (100.0, 40.3135, 2.7338e-6, 784.3e6, 725.3e6),
        (500.0, 40.8962, 7.8832e-6, 1334.1e6, 1236.2e6),
        (1000.0, 41.3953, 12.3673e-6, 1673.5e6, 1553.4e6),
    ],
)
def test_hub_row_under_thrust(thrust, angle, way, cone, cup):
    solution = solve_pair(PAIR, end_play=0.0, load=(thrust, 0, 0, 0, 0))
    row = solution.right
    assert np.degrees(row.contact_angle).mean() == pytest.approx(angle, abs=0.005)
    assert solution.shell_motion[0] == pytest.approx(way, rel=3e-3)
    assert cone <= row.cone_pressure.max() <= cone * 1.0035
    assert cup >= row.cup_pressure.max() >= cup * 0.9965
    gamma = ROW.ball_diameter * np.cos(row.contact_angle[0]) / ROW.pitch_diameter
    steel = equivalent_modulus(young=ROW.young, poisson=ROW.poisson)
    for race, conformity, peak in ((cone_curvature, 0.52, cone), (cup_curvature, 0.54, cup)):
        curvature = race(ball_diameter=ROW.ball_diameter, conformity=conformity, gamma=gamma)
        at_angle = contact(load=row.ball_load[0], curvature=curvature, modulus=steel)
        assert at_angle.peak_pressure == pytest.approx(peak, rel=2e-4)
    assert (solution.left.ball_load == 0).all()
