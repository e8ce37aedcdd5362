"""Curves drawn through points, and where many of them at once reach a height.

Between the points run cubics that rise and fall only where the points do. Source: [FritschButland1984]
"""

from typing import NamedTuple

import numpy as np

from conemodel.base.units import Array, Floats

_MOST_STEPS, _EXACT = 60, 1e-15
"""Steps of a search, and how closely it places a zero between two points [share of their distance]."""


def find_last_zero(x: Array, height: Array, slope: Array | None = None) -> Array:
    """Return the last x at which each curve (h,) of `height` (n, h) is zero, nan where none is.

    `x` (n, h) or (n, 1) rises. The curves are monotone cubics unless another `slope` (n, h) is given.

    >>> x = np.array([[0.0], [1.0], [2.0], [4.0]])
    >>> find_last_zero(x, np.hstack((3 - x, 1 + x))).tolist()
    [3.0, nan]
    """
    x = np.broadcast_to(x, height.shape)
    crossed = height[:-1] * height[1:] <= 0
    last = len(crossed) - 1 - crossed[::-1].argmax(0)
    rows, columns = np.stack((last, last + 1)), np.arange(height.shape[1])
    (start, end), both = x[rows, columns], height[rows, columns]
    run = end - start
    share = _zero_of_cubic(both, run * (_slopes(x, height) if slope is None else slope)[rows, columns])
    return np.where(crossed.any(0), start + share * run, np.nan)


class MonotoneCubic(NamedTuple):
    """One curve through the points `height` (n,) at `x` (n,), which rises, with its `slope` (n,) there."""

    x: Array
    height: Array
    slope: Array

    @classmethod
    def through(cls, x: Array, height: Array) -> "MonotoneCubic":
        """Return the curve through points (n,).

        >>> MonotoneCubic.through(np.array([0.0, 1.0, 2.0]), np.array([0.0, 2.0, 4.0])).at(1.5)
        array(3.)
        """
        return cls.through_each(x, height)[0]

    @classmethod
    def through_each(cls, x: Array, *heights: Array) -> "list[MonotoneCubic]":
        """Return the curve through each of `heights` (n,) at the same `x` (n,)."""
        slopes = _slopes(x[:, None], np.stack(heights, axis=-1))
        return [cls(x, height, slope) for height, slope in zip(heights, slopes.T, strict=True)]

    def at(self, x: Floats) -> Array:
        """Return the heights at any number of `x` between the first and the last point."""
        before = np.clip(self.x.searchsorted(x) - 1, 0, len(self.x) - 2)
        start, low, steep = (field[before] for field in self)
        end, high, steep_end = (field[before + 1] for field in self)
        run, rise = end - start, high - low
        share = (x - start) / run
        bent = run * ((1 - share) * steep - share * steep_end) + (2 * share - 1) * rise
        return np.asarray(low + share * (rise + (1 - share) * bent))


def _zero_of_cubic(height: Array, slope: Array) -> Array:
    """Return where in 0...1 monotone cubics are zero (h,), from `height` and `slope` (2, h) at both ends.

    Newton's steps, or half of the bracket where one leaves it.
    """
    (first, last), (steep, steep_last) = height, slope
    rise = last - first
    square, cube = 3 * rise - 2 * steep - steep_last, steep + steep_last - 2 * rise
    low, high = np.zeros_like(first), np.ones_like(first)
    at: Array = np.clip(first / np.where(rise == 0, 1.0, -rise), 0.0, 1.0)
    for _ in range(_MOST_STEPS):
        value = first + at * (steep + at * (square + at * cube))
        before = value * rise < 0
        low, high = np.where(before, at, low), np.where(before, high, at)
        tangent = steep + at * (2 * square + at * 3 * cube)
        step = at - value / np.where(tangent == 0, np.inf, tangent)
        step = np.where((low <= step) & (step <= high), step, (low + high) / 2)
        moved, at = np.abs(step - at).max(), step
        if moved <= _EXACT:
            break
    return at


def _slopes(x: Array, height: Array) -> Array:
    """Return the slope at each point of each curve (n, h): the harmonic mean of both sides, 0 where it turns.

    Source: [FritschButland1984]
    """
    run = np.diff(x, axis=0)
    rate = np.diff(height, axis=0) / run
    before, after = rate[:-1], rate[1:]
    far, near = run[:-1] + 2 * run[1:], 2 * run[:-1] + run[1:]
    turns = before * after <= 0
    safe_before, safe_after = np.where(turns, 1.0, before), np.where(turns, 1.0, after)
    mean = (far + near) / (far / safe_before + near / safe_after)
    inner = np.where(turns, 0.0, mean)
    ends = (_end_slope(run[:2], rate[:2]), _end_slope(run[:-3:-1], rate[:-3:-1]))
    return np.concatenate((ends[0][None], inner, ends[1][None]))


def _end_slope(run: Array, rate: Array) -> Array:
    """Return the slope at a curve's end (h,) from its last two stretches, the outer one first."""
    slope = ((2 * run[0] + run[1]) * rate[0] - run[0] * rate[1]) / (run[0] + run[1])
    slope = np.where(slope * rate[0] > 0, slope, 0.0)
    bent = rate[0] * rate[1] <= 0
    return np.asarray(np.where(bent & (np.abs(slope) > 3 * np.abs(rate[0])), 3 * rate[0], slope))
