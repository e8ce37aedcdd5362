"""The closed form of free play for small motions, the check on the convex programme."""

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair


def linear_free_play(pair: Pair, *, end_play: npt.ArrayLike, direction: npt.ArrayLike) -> Array:
    """Return the travel (...) [m] of small motions between two continuous rings of balls.

    The check on `solve_free_play`. Each row lets its apex, where the contact lines meet the axle, move sideways by
    `tan α` times the axial room the row has. Faults of balls and races are left out. Too large for real end
    play: at 0.1 mm by some 10 to 30 per cent. Negative end play gives 0.
    """
    room = np.maximum(np.asarray(end_play, dtype=np.float64), 0.0)
    along, y, z, about_y, about_z = np.moveaxis(np.asarray(direction, dtype=np.float64), -1, 0)
    reach = [
        (pair.row_spacing / 2 + row.pitch_diameter / 2 * np.tan(row.contact_angle), np.tan(row.contact_angle))
        for row in (pair.left, pair.right)
    ]
    (left, tan_left), (right, tan_right) = reach
    # work of the direction on a sideways movement of each apex; a tilt about z lifts y, about y lowers z
    on_right = np.hypot(y * left + about_z, z * left - about_y) / (left + right)
    on_left = np.hypot(y * right - about_z, z * right + about_y) / (left + right)
    up = np.maximum(along + 2 * tan_left * on_left, -along + 2 * tan_right * on_right)
    down = np.maximum(-along + 2 * tan_left * on_left, along + 2 * tan_right * on_right)
    travel: Array = room / 2 * (up + down)
    return travel
