"""Preload from end play without load, and end play from preload."""

from collections.abc import Callable, Sequence
from functools import lru_cache

import numpy as np

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.solve.equilibrium.arrays import arrays_of_pairs
from conemodel.solve.equilibrium.pair import PairSolution, PreparedHubs, solve_pair
from conemodel.solve.equilibrium.wheel_positions import (
    are_uniform,
    is_uniform,
    solve_converged,
    solve_positions,
    solve_positions_of,
    touching_end_play,
)

NO_LOAD = np.zeros(5)
"""No force and no moment on the shell."""

TIGHTEST = -2e-3
"""Interference that destroys any hub; a search does not go beyond [m]."""

FIRST_BRACKET = 1e-4
"""Half width of the first bracket a search tries [m]."""

EXACT = 1e-12
"""End play to which a search is carried [m]."""

MOST_STEPS = 100
"""A search takes about ten steps; one that takes so many has gone wrong."""


@lru_cache(maxsize=256)
def stiffen(pair: Pair) -> Pair:
    """Return the pair without its axial compliance.

    Without load, compliance only moves the cones apart by compliance times preload: hubs alike but for that have
    the same free play, and the same ball loads at the same preload. So one solution serves them all.
    """
    return pair.replace(axial_compliance=0.0)


def solve_unloaded(pair: Pair, end_play: Array) -> PairSolution:
    """Return the pair without load at each end play (n,), over the wheel's positions: shapes (n, m, ...).

    A sound hub without load is the same wherever its balls stand, so one position (m = 1) is enough.

    Raises:
        NotConverged: no balance of forces was found.
    """
    if not is_uniform(pair):
        return solve_positions(pair, end_play=end_play, load=NO_LOAD)
    solution = solve_pair(pair, end_play=np.asarray(end_play)[..., None], load=NO_LOAD)
    if not solution.converged.all():
        raise NotConverged("no balance of forces was found for this hub without load")
    return solution


def solve_unloaded_pairs(pairs: Sequence[Pair], end_play: Array) -> PairSolution:
    """Return the same for several pairs, each at its own end plays (p, n): shapes (p, n, m, ...).

    Raises:
        NotConverged: no balance of forces was found.
        ValueError: as for `wheel_positions`.
    """
    if not are_uniform(pairs):
        return solve_positions_of(pairs, end_play=end_play, load=NO_LOAD)
    hub = np.arange(len(pairs)).reshape(-1, 1, 1)
    return solve_converged(
        PreparedHubs.of(arrays_of_pairs(pairs)), end_play=end_play[..., None], load=NO_LOAD, hub=hub
    )


def search_end_play(pair: Pair, *, preload: float) -> float:
    """Return the end play [m] at which a pair without load carries a `preload` above 0 [N].

    Preload only falls as end play grows, so a bracket always exists. `preload` is the mean over the
    wheel's positions.

    Raises:
        NotConverged: even `TIGHTEST` does not reach the preload.
    """

    def missing(end_play: float) -> float:
        return float(solve_unloaded(pair, np.array([end_play])).preload.mean()) - preload

    middle, reach, loose = touching_end_play(pair), FIRST_BRACKET, FIRST_BRACKET
    while missing(middle + loose) > 0.0 and loose < -TIGHTEST:  # tilted cones touch long before
        loose *= 2
    while missing(middle - reach) < 0.0:
        reach *= 2
        if reach > -TIGHTEST:
            raise NotConverged(
                f"no end play down to {TIGHTEST * 1e3:g} mm gives a preload of {preload:.0f} N"
            )
    return _crossing(missing, middle - reach, middle + loose)


def _crossing(function: Callable[[float], float], low: float, high: float) -> float:
    """Return where a function that only falls crosses zero between `low` and `high`.

    False position in the Illinois form: the end that stays is given half its weight, so that both ends close in.
    Our own, since scipy.optimize takes longer to import than a prediction to compute.
    """
    at_low, at_high = function(low), function(high)
    for _ in range(MOST_STEPS):
        middle = high - at_high * (high - low) / (at_high - at_low)
        at_middle = function(middle)
        if abs(middle - high) < EXACT or at_middle == 0.0:
            return middle
        if (at_middle < 0.0) == (at_high < 0.0):
            at_low /= 2
        else:
            low, at_low = high, at_high
        high, at_high = middle, at_middle
    raise NotConverged(f"the end play of a preload was not found in {MOST_STEPS} steps")
