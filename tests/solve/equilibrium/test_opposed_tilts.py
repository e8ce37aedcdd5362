"""A bowed axle: both cones tilted opposite ways tighten the pair, in second order of the tilt."""

import numpy as np
import pytest

from conemodel.solve.equilibrium.pair import solve_pair
from tests.solve.hubs import REAR, pair_of

NO_LOAD = (0.0,) * 5


def end_play_at(pair, preload):
    """Return the end play at which `pair` carries a preload [N], by halving [m]."""
    tight, loose = -0.4e-3, 0.3e-3
    for _ in range(45):
        middle = (tight + loose) / 2
        above = solve_pair(pair, end_play=middle, load=NO_LOAD).preload > preload
        tight, loose = (middle, loose) if above else (tight, middle)
    return (tight + loose) / 2


def closing(row, tilt, preload):
    """Return how much tighter cones tilted opposite ways make a pair at equal preload [m]."""
    skew = pair_of(row.replace(cone_tilt=(0.0, -tilt)), row.replace(cone_tilt=(0.0, tilt)))
    return end_play_at(skew, preload) - end_play_at(pair_of(row), preload)


@pytest.mark.parametrize("conformity", [0.54, 0.56, 0.60])
@pytest.mark.parametrize("angle", [35, 45])
def test_a_small_bow_tightens_by_the_mean_of_what_the_balls_lose(conformity, angle):
    """Closed form for many loaded balls: t²/(2 A sin α) - θ² (R + g cos α)/(2 tan α), t = θ (R/cos α + g).

    R is the pitch radius, A the distance between groove centres, g that of the cone's from the ball's. The shell
    moves sideways by R θ tan α and so takes up the first order; across the line of contact each ball's grooves are
    still out by t cos ψ, which costs the square of that over 2A along it, half of it on the mean. A circle of that
    radius that turns by θ draws in by θ²/2 of it where it leaves its plane most, half of that on the mean.
    """
    row = REAR.replace(contact_angle=np.radians(angle), cone_conformity=conformity, cup_conformity=conformity)
    tilt, across = 1e-3, (2 * conformity - 1) * row.ball_diameter
    alpha = row.contact_angle
    half, groove = row.pitch_diameter / 2, (conformity - 0.5) * row.ball_diameter
    out = tilt * (half / np.cos(alpha) + groove)
    drawn_in = tilt**2 * (half + groove * np.cos(alpha)) / (2 * np.tan(alpha))
    expected = out**2 / (2 * across * np.sin(alpha)) - drawn_in
    # 2 %: pressed balls have moved the groove centres a little further apart
    assert closing(row, tilt, 100.0) == pytest.approx(expected, rel=0.02)


def test_it_grows_with_the_square_and_is_the_same_either_way():
    tilts = np.array([1e-3, 2e-3, 4e-3])
    found = np.array([closing(REAR, tilt, 500.0) for tilt in tilts])
    assert found[1:] / found[:-1] == pytest.approx([4, 4], rel=0.05)
    assert closing(REAR, -2e-3, 500.0) == pytest.approx(found[1], rel=1e-6)
