"""Load ratings of a ball row by the standards, static and dynamic, and the dent a load leaves.

All functions take keywords in SI and broadcast over arrays. Formulas whose constants are printed for
newtons and millimetres are evaluated in those and handed back in SI; each says so. Lives are in revolutions
of one race against the other.
"""

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics import hertz
from conemodel.physics.domain import require
from conemodel.physics.fatigue import CAPACITY, require_ball, require_races
from conemodel.physics.race_curvature import Curvature, cone_curvature, cup_curvature

STATIC_PRESSURE = 4200e6
"""Peak pressure that defines the static rating [Pa]; it leaves a dent of about 1e-4 D. Source: [ISO76]"""

RATING_YOUNG, RATING_POISSON = 207e9, 0.3
"""Steel the static ratings assume: Young's modulus [Pa] and Poisson's ratio [-]. Source: [ISO76]"""

MODERN_STEEL = 1.3
"""Factor bm of contemporary ball bearings with filling-slot-free races [-]. Source: [ISO281]"""


def iso76_f0(
    *,
    gamma: Floats,
    cone_conformity: Floats = 0.52,
    cup_conformity: Floats = 0.53,
    pressure: Floats = STATIC_PRESSURE,
) -> Floats:
    """Return the static factor f0 = min Q/(5 D²) [Pa] for radial load; the printed tables are in MPa.

    Q is the ball load at which the worse race reaches `pressure`; 5 is the published ratio of the worst
    ball to the mean.

    Args:
        gamma: D cos α/dm [-], 0 up to below 1.
        cone_conformity: f of the inner race [-].
        cup_conformity: f of the outer race [-].
        pressure: [Pa].

    Source: [ISO76]

    >>> print(f"{iso76_f0(gamma=0.2) / 1e6:.1f}")
    14.0
    """
    return _ball_capacity(gamma, cone_conformity, cup_conformity, pressure) / 5


def iso76_thrust_f0(
    *,
    gamma: Floats,
    cone_conformity: Floats = 0.54,
    cup_conformity: Floats = 0.54,
    pressure: Floats = STATIC_PRESSURE,
) -> Floats:
    """Return the static factor f0 = min Q/D² [Pa] for axial load, which all balls share alike.

    Arguments as for `iso76_f0`.

    Source: [ISO76]
    """
    return _ball_capacity(gamma, cone_conformity, cup_conformity, pressure)


def static_axial_rating(
    *, f0: Floats, ball_count: Floats, ball_diameter: Floats, contact_angle: Floats
) -> Floats:
    """Return the static axial rating C0a = f0 Z D² sin α [N].

    Args:
        f0: [Pa], see `iso76_thrust_f0`.
        ball_count: Z of the row [-].
        ball_diameter: D [m].
        contact_angle: α [rad].

    Source: [ISO76]
    """
    return f0 * ball_count * ball_diameter**2 * np.sin(contact_angle)


def iso281_fc(*, gamma: Floats, cone_conformity: Floats = 0.52, cup_conformity: Floats = 0.52) -> Floats:
    """Return the dynamic factor fc [N/mm^1.8] that the standard tabulates, from the formula behind the table.

    fc = 0.41 × 0.95 × 98.0665 (2 fi/(2 fi - 1))^0.41 γ^0.3 (1-γ)^1.39 (1+γ)^(-1/3)
    × (1 + (1.04 ((1-γ)/(1+γ))^1.72 (fi/fo (2 fo - 1)/(2 fi - 1))^0.41)^(10/3))^(-3/10). With both
    conformities at 0.52 this is the table, to its rounding.

    Args:
        gamma: D cos α/dm [-], 0 up to below 1.
        cone_conformity: f of the inner race [-], above 0.5.
        cup_conformity: f of the outer race [-], above 0.5.

    Source: [ISO281], [LundbergPalmgren1947]

    >>> print(f"{iso281_fc(gamma=0.2):.1f}")
    59.9
    """
    require_races(gamma, cone_conformity, cup_conformity)
    closeness = (
        cone_conformity / cup_conformity * (2 * cup_conformity - 1) / (2 * cone_conformity - 1)
    ) ** 0.41
    cup_part = (1.04 * ((1 - gamma) / (1 + gamma)) ** 1.72 * closeness) ** (10 / 3)
    slope = gamma**0.3 * (1 - gamma) ** 1.39 / (1 + gamma) ** (1 / 3)
    groove = (2 * cone_conformity / (2 * cone_conformity - 1)) ** 0.41
    return 0.41 * 0.95 * CAPACITY * groove * slope * (1 + cup_part) ** -0.3


def dynamic_radial_rating(
    *,
    fc: Floats,
    ball_count: Floats,
    ball_diameter: Floats,
    contact_angle: Floats,
    rows: int = 1,
    steel: Floats = MODERN_STEEL,
) -> Floats:
    """Return Cr = bm fc (i cos α)^0.7 Z^(2/3) D^1.8 [N], for balls up to 25.4 mm.

    Args:
        fc: [N/mm^1.8], see `iso281_fc`.
        ball_count: Z of one row [-].
        ball_diameter: D [m], above 0, up to 25.4 mm.
        contact_angle: α [rad].
        rows: i [-].
        steel: bm [-].

    Raises:
        OutOfDomain: a larger ball, for which the standard has another formula.

    Source: [ISO281]
    """
    require_ball(ball_diameter)
    angle = (rows * np.cos(contact_angle)) ** 0.7
    return steel * fc * angle * ball_count ** (2 / 3) * (ball_diameter * 1e3) ** 1.8


def dynamic_axial_rating(*, radial_rating: Floats, contact_angle: Floats) -> Floats:
    """Return Ca = 1.91 tan α (1 - sin α/3) Cr [N] of a row that carries axial load only.

    Args:
        radial_rating: Cr of one row [N].
        contact_angle: α [rad].

    Source: [ISO281], annex
    """
    return 1.91 * np.tan(contact_angle) * (1 - np.sin(contact_angle) / 3) * radial_rating


def permanent_set(*, load: Floats, ball_diameter: Floats, curvature: Curvature) -> Floats:
    """Return the depth [m] of the dent that stays after a load: 1.3e-7 Q²/D ρ' ρ'' mm, in N and mm.

    ρ' and ρ'' are the curvature sums in the two principal planes. Ball and race together, for through-
    hardened steel about as hard as a bearing's.

    Args:
        load: Q [N], 0 or more.
        ball_diameter: D [m], above 0.
        curvature: of ball and race.

    Source: [Palmgren1959], [HarrisKotzalas2007]
    """
    require(np.asarray(load) >= 0, "load must be 0 N or more")
    require(np.asarray(ball_diameter) > 0, "ball diameter must be above 0 m")
    planes = curvature.total**2 * (1 - curvature.difference**2) / 4
    return 1.3e-7 * 1e-12 * load**2 / ball_diameter * planes


def _ball_capacity(
    gamma: Floats, cone_conformity: Floats, cup_conformity: Floats, pressure: Floats
) -> Floats:
    """Return min Q/D² [Pa] of the two races: a ball of 1 m, as the load at a pressure goes with D²."""
    modulus = hertz.equivalent_modulus(young=RATING_YOUNG, poisson=RATING_POISSON)
    cone = cone_curvature(ball_diameter=1.0, conformity=cone_conformity, gamma=gamma)
    cup = cup_curvature(ball_diameter=1.0, conformity=cup_conformity, gamma=gamma)
    worse: Floats = np.minimum(
        hertz.load_at_pressure(pressure=pressure, curvature=cone, modulus=modulus),
        hertz.load_at_pressure(pressure=pressure, curvature=cup, modulus=modulus),
    )
    return worse
