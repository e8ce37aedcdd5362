"""The rocking curve: how far a sideways force at the rim moves it, play, bearing and wheel together."""

from dataclasses import dataclass
from math import inf

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array, Floats
from conemodel.parts.bearing import Pair
from conemodel.solve.equilibrium.pair import solve_pair
from conemodel.solve.freeplay.free_play import rim_direction


@dataclass(frozen=True, slots=True, kw_only=True)
class RockingCurve:
    """Movement of the rim point along the axle under a sideways force on it; all fields (...).

    Attributes:
        force: on the rim, along the axle towards the right [N].
        bearing: movement from play and compliance of the bearing [m].
        wheel: movement from the flex of spokes and rim, in series [m].
        converged: whether the bearing was found in balance; where not, `bearing` may not be used.
    """

    force: Array
    bearing: Array
    wheel: Array
    converged: npt.NDArray[np.bool_]


def rocking_curve(
    pair: Pair,
    *,
    end_play: npt.ArrayLike,
    rim_radius: float,
    force: npt.ArrayLike,
    wheel_stiffness: Floats = inf,
) -> RockingCurve:
    """Push the rim at `rim_radius` [m] sideways with `force` (...) [N] and return where it goes.

    `end_play` (...) [m] broadcasts with `force`; `wheel_stiffness` is that of the wheel alone at the rim [N/m],
    infinite for a rigid wheel.

    >>> from conemodel.parts.bearing import Row
    >>> row = Row(ball_diameter=6.35e-3, ball_count=9, pitch_diameter=20e-3, contact_angle=0.785)
    >>> pair = Pair(left=row, right=row, row_spacing=60e-3)
    >>> curve = rocking_curve(pair, end_play=0.0, rim_radius=0.311, force=[-20, 20], wheel_stiffness=1e5)
    >>> curve.wheel.tolist()
    [-0.0002, 0.0002]
    >>> bool(curve.bearing[1] > 0)
    True
    """
    push, ends = np.broadcast_arrays(
        np.asarray(force, dtype=np.float64), np.asarray(end_play, dtype=np.float64)
    )
    rim = rim_direction(rim_radius)
    found = solve_pair(pair, end_play=ends, load=push[..., None] * rim)
    return RockingCurve(
        force=push.copy(),
        bearing=np.asarray(found.shell_motion @ rim),
        wheel=np.asarray(push / wheel_stiffness),
        converged=found.converged,
    )
