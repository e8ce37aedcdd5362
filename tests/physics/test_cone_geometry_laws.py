"""Where threads stand on the axle: plain sums of lengths, and what cannot be."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.errors import OutOfDomain
from conemodel.physics import cone_geometry as geometry


def test_a_freewheel_hub_by_hand():
    # Rows 60 mm, cones 15.5 mm threaded all through, balls 12.75 mm from the outer end: 60 + 2·5 = 70 mm.
    outboard = geometry.thread_middle_outboard(ball_place=12.75e-3, thread_length=15.5e-3)
    distance = geometry.thread_middle_distance(
        row_spacing=60e-3, left_outboard=outboard, right_outboard=outboard
    )
    assert distance == pytest.approx(70e-3)
    # Over locknuts 135 mm, locknuts of 5 mm: their middles 130 mm apart, 30 mm outboard of the cones' on each side.
    apart = geometry.locknut_thread_outboard(
        over_locknut_width=135e-3, locknut_length=5e-3, thread_distance=distance
    )
    assert apart == pytest.approx(30e-3)


@given(st.floats(30e-3, 100e-3), st.floats(3e-3, 25e-3), st.floats(3e-3, 25e-3))
def test_like_cones_put_their_threads_as_far_apart_as_twice_one_side(spacing, place, thread):
    outboard = geometry.thread_middle_outboard(ball_place=place, thread_length=thread)
    distance = geometry.thread_middle_distance(
        row_spacing=spacing, left_outboard=outboard, right_outboard=outboard
    )
    # L = S + 2 (b - t/2)
    assert distance == pytest.approx(spacing + 2 * place - thread, abs=1e-12)


def test_unlike_cones_and_arrays():
    distance = geometry.thread_middle_distance(
        row_spacing=np.array([60e-3, 88e-3]), left_outboard=5e-3, right_outboard=7e-3
    )
    assert distance == pytest.approx(np.array([72e-3, 100e-3]))


def test_what_cannot_be():
    for call, wrong in (
        (geometry.thread_middle_outboard, {"ball_place": -1e-3, "thread_length": 10e-3}),
        (geometry.thread_middle_outboard, {"ball_place": 1e-3, "thread_length": 0.0}),
        (
            geometry.thread_middle_distance,
            {"row_spacing": 0.0, "left_outboard": 5e-3, "right_outboard": 5e-3},
        ),
        (
            geometry.thread_middle_distance,
            {"row_spacing": 1e-3, "left_outboard": -1e-3, "right_outboard": -1e-3},
        ),
        (
            geometry.locknut_thread_outboard,
            {"over_locknut_width": 75e-3, "locknut_length": 5e-3, "thread_distance": 70e-3},
        ),
        (
            geometry.locknut_thread_outboard,
            {"over_locknut_width": 135e-3, "locknut_length": 0.0, "thread_distance": 70e-3},
        ),
    ):
        with pytest.raises(OutOfDomain):
            call(**wrong)
