"""Curves through points and their last zero, against the monotone cubics of scipy, a general library."""

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from conemodel.base.monotone_cubic import MonotoneCubic, find_last_zero


@pytest.mark.parametrize("seed", range(20))
def test_zeros_are_those_of_the_same_cubics_in_another_library(seed: int) -> None:
    rng = np.random.default_rng(seed)
    count = int(rng.integers(4, 20))
    x = np.cumsum(rng.uniform(0.1, 2.0, (count, 6)), axis=0)
    height = np.cumsum(rng.uniform(-0.6, 1.0, (count, 6)), axis=0) - 1
    height = height[::-1] if seed % 2 else height
    found = find_last_zero(x, height)
    for column in range(6):
        roots = PchipInterpolator(x[:, column], height[:, column]).roots(extrapolate=False)
        expected = roots[-1] if roots.size else np.nan
        # near a flat stretch the other library's roots are good to the root of rounding
        assert found[column] == pytest.approx(expected, abs=1e-7, nan_ok=True)


@pytest.mark.parametrize("seed", range(5))
def test_a_curve_is_that_of_another_library(seed: int) -> None:
    rng = np.random.default_rng(seed)
    x, height = np.cumsum(rng.uniform(0.1, 2.0, 12)), np.cumsum(rng.uniform(-0.6, 1.0, 12))
    curve, other = MonotoneCubic.through(x, height), PchipInterpolator(x, height)
    at = np.concatenate((x, rng.uniform(x[0], x[-1], 20)))
    assert curve.at(at) == pytest.approx(other(at), rel=1e-12, abs=1e-12)
    middle, slope = np.median(height), curve.slope[:, None]
    assert other(find_last_zero(x[:, None], height[:, None] - middle, slope)) == pytest.approx(
        middle, abs=1e-12
    )


def test_a_zero_on_a_point_is_found_at_either_end_and_between() -> None:
    x = np.array([[0.0], [1.0], [3.0], [4.0]])
    height = np.array([[0.0, -2.0, -1.0], [1.0, 0.0, -0.5], [2.0, 1.0, -0.2], [3.0, 3.0, 0.0]])
    assert find_last_zero(x, height) == pytest.approx([0.0, 1.0, 4.0], rel=1e-14)
    assert np.isnan(find_last_zero(x, 1 + height**2)).all()
