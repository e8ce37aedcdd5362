"""Metric 60 degree threads: diameters, backlash, lead and the torque a load makes.

All functions take keywords in SI and broadcast over arrays.
"""

import numpy as np

from conemodel.base.units import Floats
from conemodel.physics.domain import require

HALF_ANGLE = np.pi / 6
"""Half the flank angle of a 60 degree thread [rad]. Source: [ISO68-1]"""

TRIANGLE = np.sqrt(3) / 2
"""Height H of the fundamental triangle over the pitch [-]. Source: [ISO68-1]"""


def pitch_diameter(*, diameter: Floats, pitch: Floats) -> Floats:
    """Return the basic pitch diameter d2 = D2 = d - 3/4 H [m].

    Args:
        diameter: nominal d [m], above 17/12 H.
        pitch: P [m], above 0; H = √3/2 P.

    Raises:
        OutOfDomain: no pitch, or one too coarse for the diameter.

    Source: [ISO68-1]

    >>> print(f"{pitch_diameter(diameter=10e-3, pitch=1e-3) * 1e3:.5f} mm")
    9.35048 mm
    """
    return _positive(diameter - 0.75 * TRIANGLE * pitch, pitch)


def root_diameter(*, diameter: Floats, pitch: Floats) -> Floats:
    """Return the root diameter of the external thread d3 = d - 17/12 H [m].

    Arguments as for `pitch_diameter`.

    Source: [ISO68-1]
    """
    return _positive(diameter - 17 / 12 * TRIANGLE * pitch, pitch)


def stress_diameter(*, diameter: Floats, pitch: Floats) -> Floats:
    """Return the diameter of a bar as strong as the external thread (d2 + d3)/2 [m].

    Arguments as for `pitch_diameter`.

    Source: [VDI2230]

    >>> print(f"{stress_diameter(diameter=10e-3, pitch=1e-3) * 1e3:.3f} mm")
    9.062 mm
    """
    middle = pitch_diameter(diameter=diameter, pitch=pitch)
    return (middle + root_diameter(diameter=diameter, pitch=pitch)) / 2


def advance(*, angle: Floats, lead: Floats) -> Floats:
    """Return how far a screw moves along its axis [m]; turned out, both are positive.

    Args:
        angle: the turn [rad].
        lead: advance in one turn [m].

    Source: geometry of a helix.

    >>> print(f"{advance(angle=np.radians(90), lead=1e-3) * 1e3:.2f} mm")
    0.25 mm
    """
    return lead * angle / (2 * np.pi)


def angle(*, advance: Floats, lead: Floats) -> Floats:
    """Return the turn [rad] that moves a screw along its axis: the reverse of `advance`.

    Args:
        advance: along the axis [m].
        lead: advance in one turn [m], above 0.

    Source: geometry of a helix.
    """
    require(np.asarray(lead) > 0, "lead must be above 0 m")
    return 2 * np.pi * advance / lead


def axial_backlash(*, pitch_diameter_clearance: Floats) -> Floats:
    """Return the free axial movement b = (D2 - d2) tan 30° [m] of a thread in its mate.

    Args:
        pitch_diameter_clearance: internal less external pitch diameter D2 - d2 [m], 0 or more.

    Raises:
        OutOfDomain: a negative clearance: the parts do not go together.

    Source: [ISO68-1], the flank angle; the rest is geometry: half the clearance on each of two flanks.
    """
    require(np.asarray(pitch_diameter_clearance) >= 0, "pitch diameter clearance must be 0 m or more")
    backlash: Floats = pitch_diameter_clearance * np.tan(HALF_ANGLE)
    return backlash


def clearance_for_backlash(*, axial_backlash: Floats) -> Floats:
    """Return the clearance on the pitch diameter D2 - d2 = b / tan 30° [m] that gives an axial backlash b [m].

    Args:
        axial_backlash: b [m].

    Source: [ISO68-1], the flank angle.

    >>> print(f"{clearance_for_backlash(axial_backlash=0.09e-3) * 1e6:.0f} µm")
    156 µm
    """
    clearance: Floats = axial_backlash / np.tan(HALF_ANGLE)
    return clearance


def self_locking_friction(*, diameter: Floats, pitch: Floats) -> Floats:
    """Return the thread friction above which an axial load cannot unscrew the thread [-].

    μ = P cos 30° / (π d2): where the torque arm of `thread_torque_arm` for loosening is zero.
    Arguments as for `pitch_diameter`.

    Source: [VDI2230]
    """
    friction: Floats = pitch * np.cos(HALF_ANGLE) / (np.pi * pitch_diameter(diameter=diameter, pitch=pitch))
    return friction


def thread_torque_arm(*, diameter: Floats, pitch: Floats, friction: Floats, tightening: bool) -> Floats:
    """Return torque over axial force [m] to turn a loaded thread.

    ±P/2π + μ d2 / (2 cos 30°): plus when turned against the load, minus when the load helps. A negative arm
    means that the thread runs by itself.

    Args:
        diameter: nominal d [m].
        pitch: P [m].
        friction: μG [-], 0 or more.
        tightening: whether the thread moves against its load.

    Source: [VDI2230]
    """
    require(np.asarray(friction) >= 0, "thread friction must be 0 or more")
    climb = pitch / (2 * np.pi) if tightening else -pitch / (2 * np.pi)
    return climb + thread_friction_arm(diameter=diameter, pitch=pitch, friction=friction)


def thread_friction_arm(*, diameter: Floats, pitch: Floats, friction: Floats) -> Floats:
    """Return friction torque over axial force in a thread μ d2 / (2 cos 30°) [m].

    Arguments as for `thread_torque_arm`.

    Source: [VDI2230]
    """
    arm: Floats = friction * pitch_diameter(diameter=diameter, pitch=pitch) / (2 * np.cos(HALF_ANGLE))
    return arm


def _positive(size: Floats, pitch: Floats) -> Floats:
    require((np.asarray(size) > 0) & (np.asarray(pitch) > 0), "pitch must be above 0 m and fit the diameter")
    return size
