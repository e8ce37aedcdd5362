"""Balls without a cage: all the clearance between the balls of a row may gather in one gap."""

import numpy as np
import numpy.typing as npt

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array
from conemodel.parts.bearing import Pair, Row
from conemodel.solve.equilibrium.arrays import RowArrays, arrays_of_pair
from conemodel.solve.equilibrium.pair import PairSolution, solve_hubs

PLACES = 72
"""Places round the axle at which the gap is tried."""


def solve_gathered(pair: Pair, *, end_play: float, load: npt.ArrayLike, places: int = PLACES) -> PairSolution:
    """Solve a pair whose balls stand side by side, the gap at `places` round the axle: shapes (places, ...).

    Both rows alike, the worst that can be. `end_play` [m]; `load` (5,) [N, N·m].

    Raises:
        NotConverged: no balance of forces was found.

    Source: derived; touching balls stand 2 asin(D/dm) apart.
    """
    hub = arrays_of_pair(pair)
    turn = 2 * np.pi * np.arange(places) / places
    left, right = _gathered(hub.left, pair.left, turn), _gathered(hub.right, pair.right, turn)
    solution = solve_hubs(hub._replace(left=left, right=right), end_play=np.full(places, end_play), load=load)
    if not solution.converged.all():
        raise NotConverged("no balance of forces was found with the balls pushed together")
    return solution


def _gathered(arrays: RowArrays, row: Row, turn: Array) -> RowArrays:
    """Return a row with its first ball at each `turn` (n,) [rad] and the others close behind it."""
    close = 2 * np.arcsin(row.ball_diameter / row.pitch_diameter)
    nearer = (close - 2 * np.pi / row.ball_count) * np.arange(row.ball_count)
    return arrays._replace(phase=turn + nearer[:, None])
