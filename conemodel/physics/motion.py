"""A wheel turning in place: the air on it, and where a heavy spot lets it rest.

All functions take keywords in SI and broadcast over arrays.
"""

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics.domain import require

GRAVITY = 9.80665
"""Standard acceleration of fall [m/s²]: exact by the convention of 1901."""

AIR_DENSITY = 1.2
"""Air on an ordinary day [kg/m³]."""


def air_torque(*, drag_area: Floats, radius: Floats, speed: Floats) -> Floats:
    """Return the torque of the air on a turning wheel [N·m]: ½ ρ A r³ ω².

    The power a drag area takes at the rim's own speed, ½ ρ A (ω r)³, over ω. The source gives 0.0044 m² for the
    two wheels of a bicycle on the road (from memory, page not seen); that half of it holds for one wheel turning
    in a stand is an assumption.

    Args:
        drag_area: A of one wheel [m²], 0 or more.
        radius: r of the rim [m].
        speed: ω [rad/s].

    Source: [Martin1998]
    """
    require(np.asarray(drag_area) >= 0, "drag area must be 0 m² or more")
    return 0.5 * AIR_DENSITY * drag_area * radius**3 * speed**2


def resting_angle(*, torque: Floats, mass: Floats, radius: Floats) -> Floats:
    """Return the greatest angle from straight down at which a heavy spot lets a wheel rest [rad].

    asin(M/(m g r)); a quarter turn where the torque is larger than m g r, which then holds it anywhere.

    Args:
        torque: M that resists turning from rest [N·m], 0 or more.
        mass: m of the heavy spot [kg], above 0.
        radius: r of its circle [m], above 0.

    Source: closed form, balance of moments.

    >>> round(float(np.degrees(resting_angle(torque=0.0152, mass=0.010, radius=0.310))))
    30
    """
    require(np.asarray(torque) >= 0, "torque must be 0 N·m or more")
    require(
        (np.asarray(mass) > 0) & (np.asarray(radius) > 0), "mass and radius of a heavy spot must be above 0"
    )
    angle: Floats = np.arcsin(np.minimum(np.divide(torque, mass * GRAVITY * radius), 1.0))
    return angle
