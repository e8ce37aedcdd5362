"""The pair equilibrium against the laws of statics, and against scipy as a solver that shares no code with ours."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import root

from conemodel.solve.equilibrium.arrays import arrays_of_pair
from conemodel.solve.equilibrium.energy import evaluate
from conemodel.solve.equilibrium.kinematics import pair_arrays
from conemodel.solve.equilibrium.pair import CHUNK, PROMISED_BALANCE, solve_hubs, solve_pair
from tests.solve.hubs import (
    FRONT,
    REAR,
    end_plays,
    forces_of_balls,
    loads,
    pair_of,
    pairs,
    random_loads,
    turned_load,
)

SAME = 1e-5  # both answers balance to 1e-8 of the load; stiffness turns that into lengths


def scale_of(pair, solution, load):
    """Return the largest force about [N]: on a ball, or on the shell with moments over the half span."""
    span = pair.row_spacing / 2
    biggest = np.abs(np.asarray(load) / [1, 1, 1, span, span]).max(-1)
    balls = np.maximum(solution.left.ball_load.max(-1), solution.right.ball_load.max(-1))
    return np.maximum(np.maximum(biggest, balls), 1e-3)


@given(pairs(), end_plays, loads)
def test_balls_and_load_balance(pair, end_play, load):
    solution = solve_pair(pair, end_play=end_play, load=load)
    assert solution.converged
    assert solution.residual <= PROMISED_BALANCE
    rest = (forces_of_balls(pair, solution) + load) / [1, 1, 1, 0.05, 0.05]
    assert np.abs(rest).max() <= 1e-6 * scale_of(pair, solution, load)  # the promise of `converged`


@pytest.mark.parametrize("pair", [pair_of(), pair_of(REAR, FRONT), pair_of(axial_compliance=0.0)])
def test_many_random_loads_all_balance(pair):
    end_play, load = random_loads(2000, seed=1)
    solution = solve_pair(pair, end_play=end_play, load=load)
    assert solution.converged.all()
    rest = (forces_of_balls(pair, solution) + load) / [1, 1, 1, 0.05, 0.05]
    assert (np.abs(rest).max(-1) <= 1e-6 * scale_of(pair, solution, load)).all()


@pytest.mark.parametrize("most", [3.0, 30.0, 300.0, 30000.0])
def test_light_and_heavy_loads_balance(most):
    end_play, load = random_loads(300, seed=2, most=most)
    assert solve_pair(pair_of(REAR, FRONT), end_play=end_play, load=load).converged.all()


def test_a_light_load_on_a_loose_hub_does_not_lose_its_way():
    # The project's own budget: with balls as stiff as they are from the start it takes 46 steps on average.
    end_play, load = random_loads(400, seed=8, most=0.1)
    solution = solve_pair(pair_of(REAR, FRONT), end_play=np.abs(end_play) + 1e-5, load=load)
    assert solution.converged.all()
    assert solution.iterations.mean() < 30


@given(pairs(), end_plays)
def test_axle_and_shell_yield_to_the_preload(pair, end_play):
    solution = solve_pair(pair, end_play=end_play, load=np.zeros(5))
    give = pair.axial_compliance * solution.preload
    assert solution.axial_give == pytest.approx(give, rel=1e-5, abs=1e-12)  # Hooke's law


@given(pairs(faults=False), st.floats(1e-7, 0.15e-3))
def test_a_loose_hub_without_load_rests_with_no_ball_loaded(pair, end_play):
    solution = solve_pair(pair, end_play=end_play, load=np.zeros(5))
    assert solution.converged
    assert (solution.shell_motion == 0).all()
    assert (solution.left.ball_load == 0).all()
    assert (solution.right.ball_load == 0).all()


def test_a_loose_hub_with_faults_finds_a_place_with_no_ball_loaded():
    # At the centre the tilted cone's balls would be pinched by 8 µm.
    pair = pair_of(REAR.replace(cone_tilt=(4e-3, 0.0)), REAR)
    solution = solve_pair(pair, end_play=0.05e-3, load=np.zeros(5))
    assert solution.converged
    assert np.abs(solution.shell_motion).max() > 0
    assert (solution.left.ball_load == 0).all()
    assert (solution.right.ball_load == 0).all()


@given(pairs(), end_plays, loads)
def test_a_hub_seen_in_a_mirror(pair, end_play, load):
    def mirrored(row):
        (cone_y, cone_z), (cup_y, cup_z) = row.cone_tilt, row.cup_tilt
        return row.replace(cone_tilt=(-cone_y, -cone_z), cup_tilt=(-cup_y, -cup_z))

    mirror = np.array([-1, 1, 1, -1, -1])  # x and both tilts change sign in a mirror across the axle
    other = pair.replace(left=mirrored(pair.right), right=mirrored(pair.left))
    here = solve_pair(pair, end_play=end_play, load=load)
    there = solve_pair(other, end_play=end_play, load=mirror * load)
    scale = float(scale_of(pair, here, load))
    assert here.preload == pytest.approx(float(there.preload), rel=1e-5, abs=1e-5 * scale)
    np.testing.assert_allclose(here.left.ball_load, there.right.ball_load, rtol=1e-5, atol=1e-5 * scale)
    np.testing.assert_allclose(here.right.ball_load, there.left.ball_load, rtol=1e-5, atol=1e-5 * scale)


@given(pairs(faults=False), end_plays, loads, st.floats(-3, 3))
def test_turning_everything_about_the_axle_changes_nothing(pair, end_play, load, angle):
    turned = pair.replace(
        left=pair.left.replace(phase=pair.left.phase + angle),
        right=pair.right.replace(phase=pair.right.phase + angle),
    )
    here = solve_pair(pair, end_play=end_play, load=load)
    there = solve_pair(turned, end_play=end_play, load=turned_load(load, angle))
    scale = float(scale_of(pair, here, load))
    np.testing.assert_allclose(here.left.ball_load, there.left.ball_load, rtol=1e-5, atol=1e-5 * scale)
    np.testing.assert_allclose(here.right.ball_load, there.right.ball_load, rtol=1e-5, atol=1e-5 * scale)


def test_compliances_are_reciprocal():
    # Maxwell: the tilt a small push makes is the push's way under a small moment of the same size.
    pair, span = pair_of(REAR, FRONT), np.array([1, 1, 1, 0.04, 0.04])
    base = np.array([50.0, 400.0, 100.0, 5.0, -3.0])
    steps = 0.05 * np.diag(span)
    up = solve_pair(pair, end_play=-2e-5, load=base + steps).shell_motion
    down = solve_pair(pair, end_play=-2e-5, load=base - steps).shell_motion
    compliance = (up - down) * span
    np.testing.assert_allclose(compliance, compliance.T, rtol=1e-3, atol=1e-3 * np.abs(compliance).max())


def scipys_answer(arrays, end_play, force, seed):
    """Return the shell's motion (5,) as scipy finds it from a random start, or None where it gave up."""
    size = np.array([1e-5] * 5 + [0.01])

    def unbalanced(shares):
        q = (shares * size)[:, None]
        return evaluate(arrays, q, end_play=np.array([end_play]), force=force).gradient[:, 0] * size

    start = np.random.default_rng(seed).normal(size=6)
    found = root(unbalanced, start, method="hybr", options={"xtol": 1e-12}).x
    if np.abs(unbalanced(found) / size)[:5].max() > 1e-7 * np.abs(force).max():
        return None
    motion = found[:5] * size[:5]
    motion[3:5] /= arrays.lever
    return motion


def test_scipy_from_places_of_its_own_finds_the_same_rest():
    # The energy is convex, so any two balanced answers agree; scipy's general solver finds most of them.
    pair = pair_of(REAR.replace(cone_tilt=(1e-3, 0.0)), FRONT)
    arrays = pair_arrays(arrays_of_pair(pair))
    end_plays, loads = random_loads(60, seed=5)
    ours = solve_pair(pair, end_play=end_plays, load=loads)
    found = 0
    for case, (end_play, load) in enumerate(zip(end_plays, loads, strict=True)):
        force = np.concatenate((load[:3], load[3:] / arrays.lever, [0.0]))[:, None]
        motion = scipys_answer(arrays, end_play, force, seed=case)
        if motion is not None:
            found += 1
            # 1 nm, and at 40 mm off the axle: what a balance to 1e-7 leaves open
            np.testing.assert_allclose(ours.shell_motion[case], motion, rtol=1e-5, atol=1e-9)
    assert found >= 30


def test_cases_do_not_touch_one_another():
    end_play, load = random_loads(CHUNK + 50, seed=3)  # more than one chunk
    pair = pair_of(REAR, FRONT)
    together = solve_pair(pair, end_play=end_play, load=load)
    for case in (0, CHUNK - 1, CHUNK, CHUNK + 49):
        alone = solve_pair(pair, end_play=end_play[case], load=load[case])
        np.testing.assert_allclose(together.left.ball_load[case], alone.left.ball_load, rtol=SAME, atol=SAME)
        np.testing.assert_allclose(
            together.right.ball_load[case], alone.right.ball_load, rtol=SAME, atol=SAME
        )


def test_a_hub_of_its_own_for_each_case():
    end_play, load = random_loads(6, seed=4)
    hubs = arrays_of_pair(pair_of())
    phase = np.linspace(0, 0.5, 6)
    many = hubs._replace(left=hubs.left._replace(phase=phase), row_spacing=np.linspace(5e-2, 7e-2, 6))
    together = solve_hubs(many, end_play=end_play, load=load)
    for case in range(6):
        pair = pair_of(REAR.replace(phase=phase[case]), REAR, row_spacing=many.row_spacing[case])
        alone = solve_pair(pair, end_play=end_play[case], load=load[case])
        np.testing.assert_allclose(
            together.right.ball_load[case], alone.right.ball_load, rtol=SAME, atol=SAME
        )
        assert together.preload[case] == pytest.approx(float(alone.preload), rel=1e-5)
