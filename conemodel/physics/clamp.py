"""What clamps the wheel: the quick-release cam and its rod. Bolts and axle nuts obey the screw law of `tightening`.

All functions take keywords in SI and broadcast over arrays. The cam's angle φ is counted from the position of
greatest lift, so a lever closes from a large angle towards 0.
"""

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics import thread
from conemodel.physics.domain import require

BISECTIONS = 60
"""Halvings of a quarter turn, enough for the last digit."""


def quick_release_force(
    *, eccentricity: Floats, pickup_angle: Floats, closed_angle: Floats, stiffness: Floats
) -> Floats:
    """Return the clamp force T = k ε (cos φ_closed - cos φ_pickup) [N] of a closed cam.

    Args:
        eccentricity: ε [m], 0 or more.
        pickup_angle: φ at which the lever first meets resistance [rad], -π to π. No nearer to 0 than
            `closed_angle`: no force.
        closed_angle: φ of the closed lever [rad], -π/2 to π/2; below 0 is past the greatest lift.
        stiffness: k of skewer, axle, lever, nut and dropouts in series [N/m], 0 or more.

    Raises:
        OutOfDomain: a value outside those ranges.

    Source: derived; the lift of an eccentric against a spring.
    """
    _require_cam(eccentricity, closed_angle, stiffness)
    require(np.abs(pickup_angle) <= np.pi, "pick-up angle must be within half a turn")
    force: Floats = stiffness * eccentricity * np.maximum(np.cos(closed_angle) - np.cos(pickup_angle), 0.0)
    return force


def hand_limited_force(
    *,
    hand_torque: Floats,
    eccentricity: Floats,
    closed_angle: Floats,
    stiffness: Floats,
    cam_friction: Floats,
    cam_radius: Floats,
) -> Floats:
    """Return the largest closed clamp force [N] a hand can reach with `hand_torque` [N·m] at the lever.

    The least over φ, from the closed lever to a quarter turn, of k ε (cos φ_closed - cos φ) + M/(ε sin φ +
    μ r): what is still to be gained at φ plus what the hand can hold there. That sum is convex in φ, so its
    slope is halved down to zero.

    The cam as for `quick_release_force`, with eccentricity and stiffness above 0; `cam_friction` μ of cam on pin [-]
    and `cam_radius` r of the rubbing surface [m], 0 or more.

    Source: derived; the lift of `quick_release_force`, and the work of lift and friction at the lever.
    """
    _require_cam(eccentricity, closed_angle, stiffness)
    rub = np.asarray(cam_friction) * cam_radius
    require(
        (np.asarray(eccentricity) > 0) & (np.asarray(stiffness) > 0), "eccentricity and stiffness above 0"
    )
    require((np.asarray(hand_torque) >= 0) & (rub >= 0), "hand torque and cam friction must be 0 or more")
    pull = stiffness * eccentricity
    low = np.maximum(closed_angle, 0.0) + 0.0 * (rub + pull + hand_torque)
    high = np.full_like(low, np.pi / 2)
    for _ in range(BISECTIONS):
        middle = (low + high) / 2
        lever = eccentricity * np.sin(middle) + rub
        rising = pull * np.sin(middle) * lever**2 > hand_torque * eccentricity * np.cos(middle)
        low, high = np.where(rising, low, middle), np.where(rising, middle, high)
    lever = eccentricity * np.sin(high) + rub
    return pull * (np.cos(closed_angle) - np.cos(high)) + hand_torque / lever


def skewer_yield_force(*, diameter: Floats, pitch: Floats, yield_strength: Floats) -> Floats:
    """Return the force [N] that yields a threaded rod at its stress area π/4 ((d2 + d3)/2)².

    Args:
        diameter: nominal d [m].
        pitch: P [m].
        yield_strength: [Pa], 0 or more.

    Source: [VDI2230]

    >>> print(f"{skewer_yield_force(diameter=5e-3, pitch=0.8e-3, yield_strength=640e6):.0f} N")
    9077 N
    """
    require(np.asarray(yield_strength) >= 0, "yield strength must be 0 Pa or more")
    return yield_strength * np.pi / 4 * thread.stress_diameter(diameter=diameter, pitch=pitch) ** 2


def required_force_against_removal(*, removal_force: Floats, friction: Floats, faces: int) -> Floats:
    """Return the clamp force R/(μ n) [N] that holds a wheel by friction alone.

    Args:
        removal_force: R on the whole axle [N].
        friction: μ at the dropouts [-], above 0.
        faces: rubbing faces that each feel the full clamp force, two a side [-], 1 or more.

    Raises:
        OutOfDomain: no friction or no face.

    Source: derived; dry friction. The force to resist: [EN14766].
    """
    require((np.asarray(friction) > 0) & (faces >= 1), "friction must be above 0, with at least one face")
    return removal_force / (friction * faces)


def _require_cam(eccentricity: Floats, closed_angle: Floats, stiffness: Floats) -> None:
    require(
        (np.asarray(eccentricity) >= 0) & (np.asarray(stiffness) >= 0), "eccentricity and stiffness 0 or more"
    )
    require(
        np.abs(closed_angle) <= np.pi / 2, "closed angle must be within a quarter turn of the greatest lift"
    )
