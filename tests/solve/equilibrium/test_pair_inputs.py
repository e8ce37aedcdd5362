"""What goes in and comes out of the pair solver: shapes, edges, refusals. The project's own contract."""

import numpy as np
import pytest

from conemodel.solve.equilibrium import newton
from conemodel.solve.equilibrium.arrays import arrays_of_pair
from conemodel.solve.equilibrium.pair import SHOULDER, solve_hubs, solve_pair
from tests.solve.hubs import FRONT, REAR, pair_of


def test_a_single_case_has_no_leading_axis():
    solution = solve_pair(pair_of(REAR, FRONT), end_play=-1e-5, load=(0, -400, 0, 0, 0))
    assert solution.shell_motion.shape == (5,)
    assert solution.left.ball_load.shape == (9,)
    assert solution.right.cup_pressure.shape == (10,)
    assert solution.preload.shape == solution.converged.shape == solution.iterations.shape == ()


def test_leading_axes_broadcast():
    end_play, load = np.array([[-1e-5], [1e-5]]), np.zeros((3, 5))
    solution = solve_pair(pair_of(), end_play=end_play, load=load)
    assert solution.left.contact_angle.shape == (2, 3, 9)
    assert solution.energy.shape == (2, 3)
    assert (solution.preload[0] > 0).all()
    assert (solution.preload[1] == 0).all()


def test_no_cases_at_all():
    assert solve_pair(pair_of(), end_play=np.empty(0), load=np.zeros(5)).left.ball_load.shape == (0, 9)


@pytest.mark.parametrize(
    ("end_play", "load", "words"),
    [
        (0.0, np.zeros(4), "axis of 5"),
        (0.0, 3.0, "axis of 5"),
        (np.nan, np.zeros(5), "finite"),
        (0.0, [np.inf, 0, 0, 0, 0], "finite"),
        (np.zeros(3), np.zeros((2, 5)), "broadcast"),
    ],
)
def test_what_cannot_be_is_refused(end_play, load, words):
    with pytest.raises(ValueError, match=words):
        solve_pair(pair_of(), end_play=end_play, load=load)


def test_hubs_and_cases_must_match():
    hubs = arrays_of_pair(pair_of())._replace(row_spacing=np.linspace(5e-2, 6e-2, 4))
    with pytest.raises(ValueError, match="4 hubs but 3 cases"):
        solve_hubs(hubs, end_play=np.zeros(3), load=np.zeros(5))


def test_a_ball_on_the_shoulder_is_not_valid():
    steep = pair_of(REAR.replace(contact_angle=np.radians(69), cone_conformity=0.52, cup_conformity=0.52))
    solution = solve_pair(steep, end_play=0.0, load=[[10.0, 0, 0, 0, 0], [12e3, 0, 0, 0, 0]])
    assert solution.valid.tolist() == [True, False]
    assert solution.right.contact_angle[1].max() > SHOULDER


def test_a_ball_below_the_wheel_plane_is_not_valid():
    flat = pair_of(REAR.replace(contact_angle=np.radians(6)))
    solution = solve_pair(flat, end_play=0.3e-3, load=(0, 500, 0, 0, 0))
    assert solution.converged
    assert not solution.valid
    assert solution.left.contact_angle[solution.left.ball_load > 0].min() < 0


def test_a_case_that_finds_no_balance_says_so(monkeypatch):
    monkeypatch.setattr(newton, "MOST_STEPS", 2)
    solution = solve_pair(pair_of(), end_play=[-1e-5, 1e-4], load=[[0.0] * 5, [50.0, 800, 0, 3, 0]])
    assert solution.converged.tolist() == [False, False]
    assert (solution.residual > 1e-6).all()
    assert solution.iterations.tolist() == [2, 2]


def test_pressure_goes_with_the_third_root_of_load_and_is_higher_on_the_cone():
    # Hertz; the cone is curved away from the ball in the rolling direction, the cup towards it.
    row = solve_pair(pair_of(), end_play=-5e-5, load=(0, 400, 0, 0, 0)).left
    assert (row.cone_pressure > row.cup_pressure).all()
    np.testing.assert_allclose(
        (row.cone_pressure / row.cone_pressure[0]) ** 3, row.ball_load / row.ball_load[0], rtol=1e-9
    )
