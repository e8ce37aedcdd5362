"""A wheel coasting to rest: closed forms, the energy balance and the time by another road."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.errors import NotConverged
from conemodel.solve.wheel.coasting import coast, coasting_time

INERTIA = 0.09


def steady(torque):
    return lambda speed: np.full_like(speed, torque)


def test_a_steady_torque_stops_it_after_i_omega_over_m():
    # Closed form: t = I ω/M and ω²/2 turned = M θ/I.
    found = coast(inertia=INERTIA, start_speed=20.0, torques={"all": steady(0.01)})
    assert found.stop_time == pytest.approx(INERTIA * 20 / 0.01, rel=1e-9)
    assert found.turned[-1] == pytest.approx(INERTIA * 20**2 / 2 / 0.01, rel=1e-9)
    assert found.speed == pytest.approx(20 * (1 - found.time / found.stop_time), abs=1e-7)


def test_steady_and_square_together():
    # Closed form: I dω/dt = -(M + c ω²) stops after I/√(M c) · atan(ω √(c/M)).
    steady_part, square = 0.008, 4e-5
    found = coast(
        inertia=INERTIA,
        start_speed=25.0,
        torques={"bearing": steady(steady_part), "air": lambda speed: square * speed**2},
    )
    by_hand = INERTIA / np.sqrt(steady_part * square) * np.arctan(25 * np.sqrt(square / steady_part))
    assert found.stop_time == pytest.approx(by_hand, rel=1e-8)
    assert coasting_time(
        inertia=INERTIA,
        start_speed=25.0,
        steady=np.array([steady_part]),
        torque=lambda speed: square * speed**2,
    ) == pytest.approx(by_hand, rel=1e-6)


@given(
    steady_part=st.floats(1e-4, 0.2),
    line=st.floats(0, 1e-3),
    square=st.floats(0, 1e-3),
    speed=st.floats(1, 60),
)
def test_what_it_had_is_what_it_spent(steady_part, line, square, speed):
    # Law: energy.
    torques = {
        "steady": steady(steady_part),
        "line": lambda omega: line * omega,
        "square": lambda omega: square * omega**2,
    }
    found = coast(inertia=INERTIA, start_speed=speed, torques=torques)
    assert sum(found.spent.values()) == pytest.approx(found.start_energy, rel=1e-6)
    assert np.all(np.diff(found.speed) <= 0)
    assert found.spent["steady"] == pytest.approx(steady_part * found.turned[-1], rel=1e-6)


def test_a_wheel_that_nothing_stops_is_no_answer():
    with pytest.raises(NotConverged, match="nothing brings this wheel to rest"):
        coast(inertia=INERTIA, start_speed=10.0, torques={"air": lambda speed: 1e-5 * speed**2})
