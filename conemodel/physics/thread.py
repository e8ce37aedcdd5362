"""Metric 60 degree threads: diameters, limits, backlash, lead and the torque a load makes.

All functions take keywords in SI and broadcast over arrays.
"""

from typing import NamedTuple

import numpy as np

from conemodel.base.units import Array, Floats
from conemodel.physics.domain import require

HALF_ANGLE = np.pi / 6
"""Half the flank angle of a 60 degree thread [rad]. Source: [ISO68-1]"""

TRIANGLE = np.sqrt(3) / 2
"""Height H of the fundamental triangle over the pitch [-]. Source: [ISO68-1]"""

DEVIATION = {
    "h": (0.0, 0.0),
    "g": (-15.0, -11.0),
    "f": (-30.0, -11.0),
    "e": (-50.0, -11.0),
    "H": (0.0, 0.0),
    "G": (15.0, 11.0),
}
"""Fundamental deviation by position: constant [µm] and slope on the pitch [µm/mm]. Source: [ISO965-1]"""

EXTERNAL_GRADE = {3: 0.5, 4: 0.63, 5: 0.8, 6: 1.0, 7: 1.25, 8: 1.6, 9: 2.0}
"""Pitch diameter tolerance over that of external grade 6 [-], external threads. Source: [ISO965-1]"""

INTERNAL_GRADE = {4: 0.85, 5: 1.06, 6: 1.32, 7: 1.7, 8: 2.12}
"""Pitch diameter tolerance over that of external grade 6 [-], internal threads. Source: [ISO965-1]"""

DIAMETER_STEPS = np.array([5.6, 11.2, 22.4])
"""Ends of the diameter ranges [mm] within which one tolerance holds. Source: [ISO965-1]"""

R40 = np.array(
    [
        *(1.00, 1.06, 1.12, 1.18, 1.25, 1.32, 1.40, 1.50, 1.60, 1.70, 1.80, 1.90, 2.00, 2.12, 2.24, 2.36),
        *(2.50, 2.65, 2.80, 3.00, 3.15, 3.35, 3.55, 3.75, 4.00, 4.25, 4.50, 4.75, 5.00, 5.30, 5.60, 6.00),
        *(6.30, 6.70, 7.10, 7.50, 8.00, 8.50, 9.00, 9.50, 10.0),
    ]
)
"""Preferred numbers, one decade, to which tolerances are rounded. Source: [ISO3]"""


class Limits(NamedTuple):
    """Smallest and largest permitted size [m]."""

    low: float
    high: float


def pitch_diameter(*, diameter: Floats, pitch: Floats) -> Floats:
    """Return the basic pitch diameter d2 = D2 = d - 3/4 H [m].

    Source: [ISO68-1]

    >>> print(f"{pitch_diameter(diameter=10e-3, pitch=1e-3) * 1e3:.5f} mm")
    9.35048 mm
    """
    return _positive(diameter - 0.75 * TRIANGLE * pitch, pitch)


def minor_diameter_internal(*, diameter: Floats, pitch: Floats) -> Floats:
    """Return the basic minor diameter of the internal thread D1 = d - 5/4 H [m].

    Source: [ISO68-1]
    """
    return _positive(diameter - 1.25 * TRIANGLE * pitch, pitch)


def root_diameter(*, diameter: Floats, pitch: Floats) -> Floats:
    """Return the root diameter of the external thread d3 = d - 17/12 H [m].

    Source: [ISO68-1]
    """
    return _positive(diameter - 17 / 12 * TRIANGLE * pitch, pitch)


def advance(*, angle: Floats, lead: Floats) -> Floats:
    """Return how far a screw turned by `angle` [rad] moves along its axis [m]; turned out, both are positive.

    >>> print(f"{advance(angle=np.radians(90), lead=1e-3) * 1e3:.2f} mm")
    0.25 mm
    """
    return lead * angle / (2 * np.pi)


def angle(*, advance: Floats, lead: Floats) -> Floats:
    """Return the turn [rad] that moves a screw of this `lead` [m] by `advance` [m]."""
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


def iso965_pitch_diameter_limits(*, diameter: float, pitch: float, tolerance_class: str) -> Limits:
    """Return the limits of the pitch diameter by tolerance class, such as ``6g`` (axle) or ``6H`` (cone).

    The tolerance is 90 P^0.4 d^0.1 µm times the grade's factor, d the geometric mean of the standard's
    diameter range, rounded to a preferred number as the printed tables are.

    Args:
        diameter: nominal d [m], above 5.6 mm up to 22.4 mm, where the rounding was checked.
        pitch: P [m], 0.75 mm to 2.5 mm, likewise.
        tolerance_class: grade and position; lower case e f g h with grades 3 to 9, upper case G H with 4 to
        8.

    Raises:
        OutOfDomain: an unknown class, or a size outside those ranges.

    Source: [ISO965-1]

    >>> low, high = iso965_pitch_diameter_limits(diameter=10e-3, pitch=1e-3, tolerance_class="6g")
    >>> print(f"{low * 1e3:.3f} to {high * 1e3:.3f} mm")
    9.212 to 9.324 mm
    """
    grade, position = _split(tolerance_class)
    internal = position.isupper()
    factor = (INTERNAL_GRADE if internal else EXTERNAL_GRADE).get(grade)
    require(factor is not None, f"tolerance class {tolerance_class!r} has no such grade")
    assert factor is not None
    width = _tolerance(diameter * 1e3, pitch * 1e3, factor) * 1e-6
    constant, slope = DEVIATION[position]
    nearest = (
        float(pitch_diameter(diameter=diameter, pitch=pitch)) + round(constant + slope * pitch * 1e3) * 1e-6
    )
    return Limits(nearest, nearest + width) if internal else Limits(nearest - width, nearest)


def self_locking_friction(*, diameter: Floats, pitch: Floats) -> Floats:
    """Return the thread friction above which an axial load cannot unscrew the thread [-].

    μ = P cos 30° / (π d2): where the torque arm of `thread_torque_arm` for loosening is zero.

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

    Source: [VDI2230]
    """
    arm: Floats = friction * pitch_diameter(diameter=diameter, pitch=pitch) / (2 * np.cos(HALF_ANGLE))
    return arm


def _positive(size: Floats, pitch: Floats) -> Floats:
    require((np.asarray(size) > 0) & (np.asarray(pitch) > 0), "pitch must be above 0 m and fit the diameter")
    return size


def _split(tolerance_class: str) -> tuple[int, str]:
    grade, position = tolerance_class[:-1], tolerance_class[-1:]
    require(
        grade.isdecimal() and position in DEVIATION,
        f"tolerance class {tolerance_class!r} must be a grade and one of {', '.join(DEVIATION)}",
    )
    return int(grade), position


def _tolerance(diameter_mm: float, pitch_mm: float, factor: float) -> float:
    """Return the rounded pitch diameter tolerance [µm]."""
    step = int(np.searchsorted(DIAMETER_STEPS, round(diameter_mm, 9)))
    require(0 < step < len(DIAMETER_STEPS), "diameter must be above 5.6 mm, up to 22.4 mm")
    require(0.75 <= round(pitch_mm, 9) <= 2.5, "pitch must be 0.75 mm to 2.5 mm")
    mean = np.sqrt(DIAMETER_STEPS[step - 1] * DIAMETER_STEPS[step])
    return preferred(factor * 90 * pitch_mm**0.4 * mean**0.1)


def preferred(value: float) -> float:
    """Return the number of the R40 series nearest to `value`, above 0.

    Source: [ISO3]

    >>> preferred(110.7), preferred(146.1)
    (112.0, 150.0)
    """
    decade = 10.0 ** np.floor(np.log10(value))
    series: Array = R40 * decade
    return float(series[np.argmin(np.abs(series - value))])
