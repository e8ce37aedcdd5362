"""A locknut tightened on its cone against free bodies: torques balanced by search."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from conemodel.base.errors import OutOfDomain
from conemodel.physics import tightening
from conemodel.physics.thread import pitch_diameter, thread_torque_arm

M10 = {"diameter": 10e-3, "pitch": 1e-3}
friction = st.floats(0.05, 0.3)


def torque_on_cone(preload, force, thread_friction, face_friction, face_radius):
    """Return the inward torque [N·m] on a cone about to turn inward, from first principles.

    The nut turns inward past it and presses it inward with `force`; the balls press it outward with `preload`. The
    thread carries the difference: the ramp drives toward the load, friction always resists.
    """
    net = force - preload  # inward
    ramp = net * M10["pitch"] / (2 * np.pi)
    rub = abs(net) * thread_friction * pitch_diameter(**M10) / 2 / np.cos(np.pi / 6)
    return force * face_friction * face_radius + ramp - rub


@given(st.floats(100, 2e4), friction, friction, st.floats(2e-3, 9e-3))
def test_unheld_cone_stops_where_its_torques_balance(force, thread, face, radius):
    values = {"thread_friction": thread, "face_friction": face, "face_radius": radius}
    found = tightening.unheld_preload(force=force, **M10, **values)
    if torque_on_cone(0.0, force, **values) <= 0:
        assert found == 0.0
        return
    stop = brentq(lambda n: torque_on_cone(n, force, **values), force, 1e3 * force)
    assert found == pytest.approx(stop, rel=1e-9)
    # nowhere on the way there does the cone stay put
    way = np.linspace(0, 0.999 * stop, 200)
    assert all(torque_on_cone(n, force, **values) > 0 for n in way)


@given(st.floats(100, 2e4), friction, friction, st.floats(2e-3, 9e-3))
def test_holding_torque_balances_the_free_cone(force, thread, face, radius):
    values = {"thread_friction": thread, "face_friction": face, "face_radius": radius}
    found = tightening.holding_torque(force=force, **M10, **values)
    assert found == pytest.approx(torque_on_cone(0.0, force, **values), rel=1e-9, abs=1e-9)


def test_a_keyed_washer_leaves_the_cone_to_its_thread():
    # No drag on the face: thread friction above self-locking keeps the cone.
    assert (
        tightening.holding_torque(force=8e3, **M10, thread_friction=0.12, face_friction=0.0, face_radius=6e-3)
        < 0
    )
    assert (
        tightening.unheld_preload(force=8e3, **M10, thread_friction=0.12, face_friction=0.0, face_radius=6e-3)
        == 0
    )


@given(st.floats(100, 2e4), friction)
def test_far_side_slip_is_one_thread_climbing_and_one_descending(force, thread):
    both = sum(thread_torque_arm(**M10, friction=thread, tightening=way) for way in (True, False))
    found = tightening.far_side_slip_torque(force=force, **M10, thread_friction=thread)
    assert found == pytest.approx(force * both, rel=1e-12)


def test_a_negative_face_friction_is_refused():
    with pytest.raises(OutOfDomain):
        tightening.lock_force(torque=12.0, **M10, thread_friction=0.1, face_friction=-0.1, face_radius=6e-3)
