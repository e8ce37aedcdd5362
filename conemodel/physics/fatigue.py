"""Fatigue of raceways after Lundberg and Palmgren: capacity of each race, life from the loads of the balls.

All functions take keywords in SI and broadcast over arrays. The capacity's constant is printed for newtons
and millimetres; it is evaluated in those and handed back in newtons. Lives are in revolutions of one race
against the other.
"""

import numpy as np

from conemodel.base.units import Array, Floats
from conemodel.physics.domain import require

CAPACITY = 98.0665
"""Lundberg and Palmgren's constant A, ten kilograms force [N/mm^1.8]. Source: [LundbergPalmgren1947]"""


BALL_EXPONENT = 3.0
"""Life falls with this power of the load on a point contact. Source: [LundbergPalmgren1947]"""

WEIBULL_SLOPE = 10 / 9
"""Slope of the spread of lives of point contacts. Source: [LundbergPalmgren1947]"""


def cone_capacity(
    *, ball_diameter: Floats, ball_count: Floats, conformity: Floats, gamma: Floats, contact_angle: Floats
) -> Floats:
    """Return the ball load [N] that 90 % of cone raceways survive for a million revolutions.

    Qc = 98.1 (2f/(2f - 1))^0.41 (1 - γ)^1.39 (1 + γ)^(-1/3) (γ/cos α)^0.3 D^1.8 Z^(-1/3), in N and mm.
    γ/cos α is D/dm.

    Args:
        ball_diameter: D [m], above 0, up to 25.4 mm.
        ball_count: Z [-].
        conformity: f of this race [-], above 0.5.
        gamma: D cos α/dm [-], 0 up to below 1.
        contact_angle: α [rad].

    Source: [LundbergPalmgren1947], [HarrisKotzalas2007]
    """
    return _capacity(ball_diameter, ball_count, conformity, gamma, contact_angle, -1)


def cup_capacity(
    *, ball_diameter: Floats, ball_count: Floats, conformity: Floats, gamma: Floats, contact_angle: Floats
) -> Floats:
    """Return the same for the cup's raceway [N], with (1 + γ)^1.39 (1 - γ)^(-1/3).

    Arguments as for `cone_capacity`.

    Source: [LundbergPalmgren1947], [HarrisKotzalas2007]
    """
    return _capacity(ball_diameter, ball_count, conformity, gamma, contact_angle, 1)


def rotating_mean(ball_load: Array) -> Floats:
    """Return (Σ Q³/Z)^(1/3) [N], the equivalent ball load of a race that turns against the load.

    Every point of it meets every load; in a hub on its axle, the cup.

    Args:
        ball_load: Q [N], balls along the last axis.

    Source: [LundbergPalmgren1947], [HarrisKotzalas2007]
    """
    return _mean(ball_load, BALL_EXPONENT)


def stationary_mean(ball_load: Array) -> Floats:
    """Return (Σ Q^(10/3)/Z)^(3/10) [N], the equivalent ball load of a race that stands still to the load.

    Each point keeps its own load and has its own chance to fail; in a hub on its axle, the cone.

    Args:
        ball_load: Q [N], balls along the last axis.

    Source: [LundbergPalmgren1947], [HarrisKotzalas2007]
    """
    return _mean(ball_load, BALL_EXPONENT * WEIBULL_SLOPE)


def race_life(*, capacity: Floats, load: Floats) -> Floats:
    """Return L10 = 1e6 (Qc/Qe)³ [revolutions] of one raceway; inf without load.

    Args:
        capacity: Qc [N].
        load: equivalent ball load Qe [N], 0 or more.

    Source: [LundbergPalmgren1947], [HarrisKotzalas2007]
    """
    require(np.asarray(load) >= 0, "equivalent load must be 0 N or more")
    with np.errstate(divide="ignore"):
        return 1e6 * np.divide(capacity, load) ** BALL_EXPONENT


def combined_life(*lives: Floats) -> Floats:
    """Return the L10 of parts that must all survive: (Σ L^(-10/9))^(-9/10), in the unit of the lives given.

    Any number of races and rows; inf where all are.

    Source: [LundbergPalmgren1947], [HarrisKotzalas2007]

    >>> print(f"{combined_life(1e6, 1e6):.0f}")
    535887
    """
    require(len(lives) > 0, "at least one life is needed")
    with np.errstate(divide="ignore"):
        risk = sum(np.divide(1.0, np.asarray(life)) ** WEIBULL_SLOPE for life in lives)
        life: Floats = np.divide(1.0, risk) ** (1 / WEIBULL_SLOPE)
    return life


def life_under_mix(*, lives: Array, shares: Array) -> Floats:
    """Return the life of a part under several loads in turn, Σu/Σ(u/L), in the unit of the lives.

    Each load uses up its own share of what the part can take, in whatever order they come.

    Args:
        lives: L under each load, loads along the last axis; above 0, inf where a load does no harm.
        shares: u, part of all revolutions under each load [-], the last axis alike, 0 or more; they may add up to
            anything above 0.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: [Palmgren1959], [HarrisKotzalas2007]; linear sum of damage.

    >>> life_under_mix(lives=np.array([2e6, 1e6]), shares=np.array([0.5, 0.5])).round().item()
    1333333.0
    """
    whole = np.asarray(shares).sum(axis=-1)
    require(np.asarray(lives) > 0, "lives must be above 0")
    require(np.asarray(shares) >= 0, "shares must be 0 or more")
    require(whole > 0, "shares must add up to more than 0")
    damage = np.sum(np.asarray(shares) / np.asarray(lives), axis=-1)
    with np.errstate(divide="ignore"):
        life: Floats = np.divide(whole, damage)
    return life


def _capacity(
    ball_diameter: Floats, ball_count: Floats, f: Floats, gamma: Floats, contact_angle: Floats, sign: int
) -> Floats:
    require_ball(ball_diameter)
    require_races(gamma, f, f)
    groove = (2 * f / (2 * f - 1)) ** 0.41
    slope = (1 + sign * gamma) ** 1.39 / (1 - sign * gamma) ** (1 / 3)
    reach = (gamma / np.cos(contact_angle)) ** 0.3
    return CAPACITY * groove * slope * reach * (ball_diameter * 1e3) ** 1.8 * ball_count ** (-1 / 3)


def _mean(ball_load: Array, power: float) -> Floats:
    require(np.asarray(ball_load) >= 0, "ball loads must be 0 N or more")
    mean: Floats = np.mean(np.asarray(ball_load) ** power, axis=-1) ** (1 / power)
    return mean


def require_ball(ball_diameter: Floats) -> None:
    """Refuse a ball outside the range of the capacity formulas, above 0 m up to 25.4 mm."""
    size = np.asarray(ball_diameter)
    require((size > 0) & (size <= 25.4e-3), "ball diameter must be above 0 m, up to 25.4 mm")


def require_races(gamma: Floats, cone_conformity: Floats, cup_conformity: Floats) -> None:
    """Refuse a gamma outside 0 up to below 1 and a groove no wider than its ball."""
    require((np.asarray(gamma) >= 0) & (np.asarray(gamma) < 1), "gamma must be 0 up to below 1")
    for conformity in (cone_conformity, cup_conformity):
        require(
            np.asarray(conformity) > 0.5, "conformity must be above 0.5: the groove is rounder than the ball"
        )
