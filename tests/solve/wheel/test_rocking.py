"""The rocking curve: force at the rim against movement."""

import numpy as np
import pytest

from conemodel.solve.freeplay.free_play import rim_direction, solve_free_play
from conemodel.solve.wheel.rocking import rocking_curve
from tests.solve.hubs import pair_of

RIM = 0.311


def test_a_push_moves_the_rim_even_without_free_play():
    # Worked out by hand for this hub at e = 0, compliance included: 0.044 mm between ±5 N, 0.115 mm between ±20 N.
    curve = rocking_curve(pair_of(), end_play=0.0, rim_radius=RIM, force=[-20, -5, 5, 20])
    assert curve.converged.all()
    assert curve.bearing[2] - curve.bearing[1] == pytest.approx(0.044e-3, rel=0.015)
    assert curve.bearing[3] - curve.bearing[0] == pytest.approx(0.115e-3, rel=0.015)


def test_a_light_push_on_a_loose_hub_goes_to_the_stop():
    # The work of the balls is never negative, so a push goes at least as far as the free play, and little further.
    pair, end_play = pair_of(), 0.1e-3
    stop = solve_free_play(pair, end_play=end_play, direction=rim_direction(RIM)).high
    curve = rocking_curve(pair, end_play=end_play, rim_radius=RIM, force=[0.005, 5.0])
    assert curve.converged.all()
    assert curve.bearing[0] == pytest.approx(
        float(stop), rel=1e-3
    )  # half a gram presses a ball in by 0.03 µm
    assert stop < curve.bearing[0] < curve.bearing[1]


def test_more_force_moves_it_further():
    curve = rocking_curve(pair_of(), end_play=-1e-5, rim_radius=RIM, force=np.linspace(-50, 50, 21))
    assert (np.diff(curve.bearing) > 0).all()


def test_the_wheel_flexes_beside_the_bearing():
    rigid = rocking_curve(pair_of(), end_play=0.0, rim_radius=RIM, force=20.0)
    soft = rocking_curve(pair_of(), end_play=0.0, rim_radius=RIM, force=20.0, wheel_stiffness=50e3)
    assert rigid.wheel == 0
    assert soft.wheel == pytest.approx(20 / 50e3)  # Hooke's law
    assert soft.bearing == rigid.bearing
