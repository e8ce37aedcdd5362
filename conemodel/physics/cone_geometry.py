"""Where the threads of cones and locknuts stand on an axle, from measures a caliper can take.

All functions take keywords in SI and broadcast over arrays. A cone is measured from its outer end, the one the
locknut bears on; its thread starts there.
"""

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics.domain import require


def thread_middle_outboard(*, ball_place: Floats, thread_length: Floats) -> Floats:
    """Return how far a cone's thread middle stands outboard of its balls, b - t/2 [m]; below 0 if inboard.

    Args:
        ball_place: from the cone's outer end to the plane of the ball centres b [m], 0 or more.
        thread_length: t of the cone's thread [m], above 0.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: geometry.

    >>> print(f"{thread_middle_outboard(ball_place=12.75e-3, thread_length=15.5e-3) * 1e3:.2f} mm")
    5.00 mm
    """
    require(np.asarray(ball_place) >= 0, "ball place must be 0 m or more")
    require(np.asarray(thread_length) > 0, "thread length must be above 0 m")
    return ball_place - np.asarray(thread_length) / 2


def thread_middle_distance(*, row_spacing: Floats, left_outboard: Floats, right_outboard: Floats) -> Floats:
    """Return the distance between the middles of both cones' threads S + o_l + o_r [m].

    Args:
        row_spacing: S between the planes of ball centres [m], above 0.
        left_outboard: o of the left cone [m], see `thread_middle_outboard`.
        right_outboard: o of the right cone [m].

    Raises:
        OutOfDomain: no distance left.

    Source: geometry.
    """
    distance: Floats = np.asarray(row_spacing) + left_outboard + right_outboard
    require(np.asarray(row_spacing) > 0, "row spacing must be above 0 m")
    require(np.asarray(distance) > 0, "the middles of the threads must be apart")
    return distance


def locknut_thread_outboard(
    *, over_locknut_width: Floats, locknut_length: Floats, thread_distance: Floats
) -> Floats:
    """Return the distance between cone thread and locknut thread, middles, (W - n - L)/2 [m], both sides alike.

    Args:
        over_locknut_width: W over the locknuts' outer faces [m].
        locknut_length: n of one locknut, threaded all through [m], above 0.
        thread_distance: L between the middles of both cones' threads [m].

    Raises:
        OutOfDomain: no locknut, or one that does not fit outboard of the cone's thread.

    Source: geometry.
    """
    require(np.asarray(locknut_length) > 0, "locknut length must be above 0 m")
    apart: Floats = (np.asarray(over_locknut_width) - locknut_length - thread_distance) / 2
    require(np.asarray(apart) > 0, "the locknut must stand outboard of the cone's thread")
    return apart
