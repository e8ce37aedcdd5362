"""Heat: how a hub's parts grow when they are warmer than when its cone was set, and what that does to end play.

All functions take keywords in SI and broadcast over arrays. Growth is counted from the hub's middle outboard and
from its axis out. The cones stand outboard of the cups, so cups that move apart close the bearing.
"""

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics.domain import require

EXPANSION = {"steel": 11.5e-6, "aluminium": 23e-6, "titanium": 8.6e-6}
"""Linear expansion of what hubs are made of [1/K]. Handbook values, from memory."""


def thermal_growth(*, length: Floats, expansion: Floats, warming: Floats) -> Floats:
    """Return how much longer a `length` becomes, α l ΔT [m].

    Args:
        length: l, along the axle or a radius [m].
        expansion: α of its material [1/K], 0 or more.
        warming: ΔT, how much warmer it is than when the cone was set [K]; below 0 for colder.

    Raises:
        OutOfDomain: a negative expansion.

    Source: closed form; the definition of linear expansion.

    >>> print(f"{thermal_growth(length=60e-3, expansion=23e-6, warming=20.0) * 1e6:.1f} µm")
    27.6 µm
    """
    require(np.asarray(expansion) >= 0, "expansion must be 0 1/K or more")
    growth: Floats = np.asarray(length) * expansion * warming
    return growth


def row_end_play_from_growth(
    *,
    contact_angle: Floats,
    cup_outboard: Floats,
    cup_radial: Floats,
    cone_outboard: Floats,
    cone_radial: Floats,
    ball_growth: Floats,
) -> Floats:
    """Return what growing parts add to end play at one row [m].

    -(x_cup - x_cone) + (r_cup - r_cone) cot α - ΔD/sin α: the gap along the line of contact over sin α, growth taken
    at the two points where ball and race touch. First order: no row is turned or flattened by it.

    Args:
        contact_angle: α [rad], above 0, below π/2.
        cup_outboard: movement of the cup's track outboard x_cup [m].
        cup_radial: growth of its radius r_cup [m].
        cone_outboard: movement of the cone's track outboard x_cone [m].
        cone_radial: growth of its radius r_cone [m].
        ball_growth: growth of the balls' diameter ΔD [m].

    Raises:
        OutOfDomain: an angle outside that range.

    Source: derived; growth projected on the line of contact.
    """
    angle = np.asarray(contact_angle)
    require((angle > 0) & (angle < np.pi / 2), "contact angle must be above 0, below a right angle")
    apart = np.asarray(cup_radial) - cone_radial
    closing = np.asarray(cup_outboard) - cone_outboard
    opened: Floats = apart / np.tan(angle) - ball_growth / np.sin(angle) - closing
    return opened


def pressed_ring_share(
    *,
    bore: Floats,
    joint: Floats,
    outside: Floats,
    ring_young: Floats,
    shell_young: Floats,
    ring_poisson: Floats = 0.3,
    shell_poisson: Floats = 0.33,
) -> Floats:
    """Return how much of a growing shell's extra strain the bore of a ring pressed into it takes up [-].

    0: the ring grows as if alone, 1: as if it were thin. Two thick rings under plane stress that stay in touch:
    [2 c²/(E_r (c² - a²))] / {[(c² + a²)/(c² - a²) - ν_r]/E_r + [(b² + c²)/(b² - c²) + ν_s]/E_s}. Their press fit must
    be tighter than what heat takes off it; once it is loose the share is 0.

    Args:
        bore: diameter of the ring's inside, where the balls run, 2a [m], above 0.
        joint: diameter at which ring and shell meet 2c [m], above the bore.
        outside: outer diameter of the shell there 2b [m], above the joint.
        ring_young: E_r of the ring [Pa], above 0.
        shell_young: E_s of the shell [Pa], above 0.
        ring_poisson: ν_r [-], 0 up to 0.5.
        shell_poisson: ν_s [-], 0 up to 0.5.

    Raises:
        OutOfDomain: diameters out of order, a modulus or Poisson's ratio outside its range.

    Source: closed form; Lamé's thick rings, equal pressure and equal movement where they meet.
    """
    a, c, b = (np.asarray(size, dtype=np.float64) for size in (bore, joint, outside))
    require(
        (a > 0) & (c > a) & (b > c), "bore, joint and outside must be above 0 m, each above the one before"
    )
    require(
        (np.asarray(ring_young) > 0) & (np.asarray(shell_young) > 0), "young's modulus must be above 0 Pa"
    )
    for ratio in (ring_poisson, shell_poisson):
        require((np.asarray(ratio) >= 0) & (np.asarray(ratio) <= 0.5), "Poisson's ratio must be 0 to 0.5")
    wall = c**2 - a**2
    ring = ((c**2 + a**2) / wall - ring_poisson) / ring_young
    shell = ((b**2 + c**2) / (b**2 - c**2) + shell_poisson) / shell_young
    share: Floats = 2 * c**2 / (ring_young * wall) / (ring + shell)
    return share


def fit_taken_by_heat(*, joint: Floats, ring_growth: Floats, shell_growth: Floats) -> Floats:
    """Return how much of a press fit's interference on the diameter heat takes off [m]; below 0 where it adds.

    Args:
        joint: diameter at which ring and shell meet [m].
        ring_growth: free thermal strain of the ring α ΔT [-].
        shell_growth: that of the shell [-].

    Source: derived; difference of the two free diameters.

    >>> print(f"{fit_taken_by_heat(joint=31e-3, ring_growth=9.2e-4, shell_growth=18.4e-4) * 1e6:.1f} µm")
    28.5 µm
    """
    taken: Floats = np.asarray(joint) * (np.asarray(shell_growth) - ring_growth)
    return taken
