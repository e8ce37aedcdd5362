"""Balls round a circle: the polygon they make, and the trade's nine."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.errors import OutOfDomain
from conemodel.physics.packing import ball_room, balls_that_fit


@given(st.integers(2, 60), st.floats(1e-3, 2e-2))
def test_a_ring_of_touching_balls_is_full(count, ball):
    # Sides of a regular polygon: dm = D/sin(π/Z).
    pitch = ball / np.sin(np.pi / count)
    assert balls_that_fit(ball_diameter=ball, pitch_diameter=pitch * (1 + 1e-15)) == pytest.approx(
        count, rel=1e-6
    )


def test_nine_quarter_inch_balls_leave_most_of_a_tenth():
    # By hand: π/asin(6.35/20) = 9.72; common practice, no source: it always looks as if one more would go in.
    assert ball_room(ball_diameter=6.35e-3, pitch_diameter=20e-3, ball_count=9) == pytest.approx(
        0.72, abs=0.005
    )


def test_ten_go_in_where_the_race_is_wider():
    assert balls_that_fit(ball_diameter=6.35e-3, pitch_diameter=20.6e-3) > 10
    assert ball_room(ball_diameter=6.35e-3, pitch_diameter=20e-3, ball_count=10) < 0


@pytest.mark.parametrize("size", [(0.0, 20e-3), (21e-3, 20e-3), (6e-3, 0.0), (np.nan, 20e-3), (6e-3, -1.0)])
def test_no_ring_is_made_of_these(size):
    ball, pitch = size
    with pytest.raises(OutOfDomain):
        balls_that_fit(ball_diameter=ball, pitch_diameter=pitch)
