"""The energy against its own derivatives, by finite differences: a law, no source needed."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.solve.equilibrium.arrays import arrays_of_pair
from conemodel.solve.equilibrium.energy import evaluate, hessian, rate_products
from conemodel.solve.equilibrium.kinematics import PairArrays, pair_arrays
from tests.solve.hubs import end_plays, pairs

# Central differences of step 1 nm on lengths of about 10 µm: the rest of the series is below 1e-4 of the largest.
STEP, CLOSE = 1e-9, 1e-4
SIZE = np.array([1e-5] * 5 + [1.0])


@st.composite
def places(draw):
    """Draw a hub's arrays, a place near its centre, and an end play."""
    seed = draw(st.integers(0, 2**31))
    q = np.random.default_rng(seed).normal(size=(6, 1)) * SIZE[:, None]
    return pair_arrays(arrays_of_pair(draw(pairs()))), q, np.array([draw(end_plays)])


def at(arrays, q, end_play):
    return evaluate(arrays, q, end_play=end_play, force=np.zeros_like(q))


def moves():
    for freedom in range(6):
        move = np.zeros((6, 1))
        move[freedom] = STEP * (1e5 if freedom == 5 else 1)
        yield freedom, move, 2 * move[freedom, 0]


@given(places())
def test_the_gradient_is_the_slope_of_the_energy(place):
    arrays, q, end_play = place
    gradient = at(arrays, q, end_play).gradient[:, 0]
    for freedom, move, width in moves():
        slope = (at(arrays, q + move, end_play).strain - at(arrays, q - move, end_play).strain) / width
        assert slope[0] == pytest.approx(gradient[freedom], rel=CLOSE, abs=CLOSE * np.abs(gradient).max())


@given(places())
def test_the_hessian_is_the_slope_of_the_gradient(place):
    arrays, q, end_play = place
    matrix = hessian(arrays, at(arrays, q, end_play), rate_products(arrays))[..., 0]
    for freedom, move, width in moves():
        slope = (at(arrays, q + move, end_play).gradient - at(arrays, q - move, end_play).gradient) / width
        # the force of a ball that only just touches bends at δ = 0: a wider margin than for the energy
        np.testing.assert_allclose(slope[:, 0], matrix[freedom], rtol=1e-2, atol=1e-2 * np.abs(matrix).max())


@given(places())
def test_stiffness_is_reciprocal_and_never_negative(place):
    arrays, q, end_play = place
    matrix = hessian(arrays, at(arrays, q, end_play), rate_products(arrays))[..., 0]
    largest = np.abs(matrix).max()
    np.testing.assert_allclose(matrix, matrix.T, atol=1e-12 * largest)
    assert np.linalg.eigvalsh(matrix).min() >= -1e-12 * largest  # the energy is convex


@given(places())
def test_a_hub_of_its_own_for_each_case_gives_the_same_numbers(place):
    arrays, q, end_play = place
    twice = PairArrays._make(np.concatenate((array, array), axis=-1) for array in arrays)
    shared = at(arrays, np.tile(q, 2), np.tile(end_play, 2))
    apart = at(twice, np.tile(q, 2), np.tile(end_play, 2))
    for one, other in zip(shared, apart, strict=True):
        np.testing.assert_allclose(one, other, rtol=1e-9, atol=1e-9 * np.abs(one).max())
    matrix = hessian(arrays, shared, rate_products(arrays))
    assert rate_products(twice) is None
    np.testing.assert_allclose(
        hessian(twice, apart, None), matrix, rtol=1e-9, atol=1e-9 * np.abs(matrix).max()
    )


@given(places(), st.floats(0.0, 1.0))
def test_the_energy_is_convex_along_any_line(place, share):
    arrays, q, end_play = place
    middle = at(arrays, (1 - share) * q, end_play).strain
    ends = share * at(arrays, 0 * q, end_play).strain + (1 - share) * at(arrays, q, end_play).strain
    assert middle[0] <= ends[0] * (1 + 1e-12) + 1e-18
