"""A driven wheel's balls: the worst one rises with the chain's pull, evenly, on the drive's side, in balance."""

import numpy as np
import pytest

from conemodel.physics.wheel_loads import drive_load
from conemodel.solve.equilibrium.pair import solve_pair
from tests.solve.hubs import forces_of_balls, pair_of

RIDER = np.array([0.0, 600.0, 0.0, 0.0, 0.0])
PULLS = np.linspace(0, 1500, 61)
LINES = {"screwed on": 55e-3, "cassette": 17e-3}
"""Chain lines from the hub's middle [m], 25 mm outboard and 13 mm inboard of a row at 30 mm; common practice."""


def driven(line):
    chain = drive_load(chain_pull=PULLS, chain_line=line, sprocket_radius=36.6e-3, tyre_radius=0.336)
    return solve_pair(pair_of(), end_play=-1e-5, load=RIDER + chain), RIDER + chain


def worst(state):
    return state.ball_load.max(axis=-1)


@pytest.mark.parametrize("line", LINES.values(), ids=LINES)
def test_the_worst_ball_rises_with_the_pull_without_a_jump(line):
    solution, load = driven(line)
    heaviest = np.maximum(worst(solution.left), worst(solution.right))
    step = np.diff(heaviest)
    assert solution.converged.all()
    assert (step[PULLS[:-1] > 100] > 0).all()  # below that it only turns the rider's load aside
    row_gains = 1.11 * np.diff(PULLS) * (0.03 + line) / 0.06  # chain and road together, on two supports
    assert (step < row_gains / np.cos(np.pi / 4)).all()  # a ball gains no more than all its row does
    assert (worst(solution.right) >= worst(solution.left))[PULLS > 200].all()
    assert forces_of_balls(pair_of(), solution) == pytest.approx(-load, abs=1e-6 * heaviest.max())


def test_a_drive_on_the_left_loads_the_left_row_alike():
    right, _ = driven(LINES["screwed on"])
    left, _ = driven(-LINES["screwed on"])
    assert worst(left.left) == pytest.approx(worst(right.right), rel=1e-5)
    assert worst(left.right) == pytest.approx(worst(right.left), rel=1e-5)


def test_a_chain_outboard_of_its_row_loads_it_more_than_one_inboard():
    outboard, inboard = (worst(driven(line)[0].right)[-1] for line in LINES.values())
    assert outboard > 1.3 * inboard
