"""What a turning row of balls resists with: load, grease and spin of the balls on the races.

All functions take keywords in SI and broadcast over arrays.
"""

import numpy as np
from scipy.special import ellipe

from conemodel.base.units import Floats
from conemodel.physics.domain import require

BOOK_VISCOSITY_SPEED = 1e6 * 60 / (2 * np.pi)
"""The books' νn [mm²/s · rev/min] in one m²/s · rad/s."""

SLOW = 2000.0
"""The books' νn below which grease drags alike at any speed [mm²/s · rev/min]. Source: [Palmgren1959]"""


def palmgren_viscous(*, f0: Floats, viscosity_speed: Floats, pitch_diameter: Floats) -> Floats:
    """Return the torque of the lubricant in one row [N·m], whatever its load.

    In the books' units 1e-7 f0 (νn)^(2/3) dm³ N·mm from νn = 2000 upwards, 160e-7 f0 dm³ below.
    The two differ by 0.8 % where they meet.

    Args:
        f0: factor of bearing and lubricant [-], 0 or more; 2 for an angular contact row with ordinary grease,
            two to five times that with fresh grease.
        viscosity_speed: kinematic viscosity of the base oil times speed, ν ω [m²/s · rad/s], 0 or more.
        pitch_diameter: dm [m].

    Raises:
        OutOfDomain: a negative value.

    Source: [Palmgren1959], [HarrisKotzalas2007]
    """
    require((np.asarray(f0) >= 0) & (np.asarray(viscosity_speed) >= 0), "f0 and viscosity x speed 0 or more")
    book = np.asarray(viscosity_speed) * BOOK_VISCOSITY_SPEED
    factor = np.where(book >= SLOW, 1e-7 * book ** (2 / 3), 160e-7)
    cubic_mm = (np.asarray(pitch_diameter) * 1e3) ** 3
    torque: Floats = (f0 * factor * cubic_mm * 1e-3)[()]
    return torque


def palmgren_load(*, f1: Floats, load: Floats, pitch_diameter: Floats) -> Floats:
    """Return the torque f1 F dm [N·m] that the load on one row makes.

    Args:
        f1: factor [-], see `angular_contact_f1`.
        load: the bearing load that counts for friction [N], 0 or more.
        pitch_diameter: dm [m].

    Raises:
        OutOfDomain: a negative load.

    Source: [Palmgren1959], [HarrisKotzalas2007]
    """
    require(np.asarray(load) >= 0, "load must be 0 N or more")
    return f1 * load * pitch_diameter


def angular_contact_f1(*, static_ratio: Floats) -> Floats:
    """Return the load factor f1 = 0.001 (P0/C0)^0.33 [-] of an angular contact row.

    Args:
        static_ratio: equivalent static load over static rating P0/C0 [-], 0 or more.

    Raises:
        OutOfDomain: a negative ratio.

    Source: [Palmgren1959], [HarrisKotzalas2007]
    """
    require(np.asarray(static_ratio) >= 0, "static load ratio must be 0 or more")
    return 0.001 * static_ratio**0.33


def spinning_moment(*, friction: Floats, load: Floats, semi_major: Floats, ellipticity: Floats) -> Floats:
    """Return the moment 3/8 μ Q a E(k) [N·m] that resists one ball spinning about its contact normal.

    Args:
        friction: μ of the sliding contact [-].
        load: Q [N].
        semi_major: a [m].
        ellipticity: k = a/b [-], 1 or more; E is the complete elliptic integral of parameter 1 - 1/k².

    Raises:
        OutOfDomain: an ellipticity below 1.

    Source: [HarrisKotzalas2007]

    >>> round(
    ...     float(spinning_moment(friction=0.1, load=100.0, semi_major=1e-3, ellipticity=1.0) * 1e3), 3
    ... )  # N·mm
    5.89
    """
    require(np.asarray(ellipticity) >= 1, "ellipticity must be 1 or more")
    moment: Floats = 0.375 * friction * load * semi_major * ellipe(1 - np.asarray(ellipticity) ** -2.0)
    return moment


def quoted_bearing_power(*, road_speed: Floats) -> Floats:
    """Return the power the bearings of both wheels of a bicycle take, V (91 + 8.7 V)·1e-3 [W].

    A whole-hub measurement, seen as a quotation: a figure to compare with, not to compute from.

    Args:
        road_speed: V [m/s], 0 or more.

    Source: [Martin1998]

    >>> round(float(quoted_bearing_power(road_speed=10.0)), 2)
    1.78
    """
    require(np.asarray(road_speed) >= 0, "road speed must be 0 m/s or more")
    return road_speed * (91 + 8.7 * road_speed) * 1e-3
