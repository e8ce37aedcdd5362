"""Laws of a screw thread and the edges of its formulas."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.errors import OutOfDomain
from conemodel.physics.thread import (
    advance,
    angle,
    axial_backlash,
    pitch_diameter,
    root_diameter,
    thread_friction_arm,
    thread_torque_arm,
)

M10 = {"diameter": 10e-3, "pitch": 1e-3}


@given(st.floats(-50, 50), st.floats(1e-4, 5e-3))
def test_a_turn_out_and_its_length_are_each_other_s_inverse(turn, lead):
    assert angle(advance=advance(angle=turn, lead=lead), lead=lead) == pytest.approx(turn, abs=1e-12)


def test_a_quarter_turn_of_an_axle_thread():
    assert advance(angle=np.pi / 2, lead=1e-3) == pytest.approx(0.25e-3)


@given(st.floats(0, 0.5))
def test_without_friction_the_work_of_a_turn_is_force_times_lead(friction):
    # 2π times the arm is the work of one turn per newton: the lead lifts, friction takes the rest both ways.
    up = thread_torque_arm(**M10, friction=friction, tightening=True)
    down = thread_torque_arm(**M10, friction=friction, tightening=False)
    assert 2 * np.pi * (up - down) / 2 == pytest.approx(1e-3)
    assert (up + down) / 2 == pytest.approx(thread_friction_arm(**M10, friction=friction))


def test_a_slippery_thread_runs_by_itself():
    assert thread_torque_arm(**M10, friction=0.02, tightening=False) < 0
    assert thread_torque_arm(**M10, friction=0.04, tightening=False) > 0


def test_arm_against_the_wedge_of_the_exact_screw():
    # Exact: d2/2 tan(lead angle + friction angle), tan of it μ/cos 30°. Linearised it loses a quadratic term.
    friction, d2 = 0.12, pitch_diameter(**M10)
    lead_angle, rub = np.arctan(1e-3 / (np.pi * d2)), np.arctan(friction / np.cos(np.pi / 6))
    exact = d2 / 2 * np.tan(lead_angle + rub)
    assert thread_torque_arm(**M10, friction=friction, tightening=True) == pytest.approx(exact, rel=0.01)


@pytest.mark.parametrize("size", [{"diameter": 1e-3, "pitch": 1e-3}, {"diameter": 10e-3, "pitch": 0.0}])
def test_no_thread_is_left(size):
    with pytest.raises(OutOfDomain, match="pitch"):
        root_diameter(**size)


def test_what_does_not_go_together_is_refused():
    with pytest.raises(OutOfDomain, match="clearance"):
        axial_backlash(pitch_diameter_clearance=-1e-6)
    with pytest.raises(OutOfDomain, match="friction"):
        thread_torque_arm(**M10, friction=-0.1, tightening=True)
    with pytest.raises(OutOfDomain, match="lead"):
        angle(advance=1e-3, lead=0.0)
