"""Limits of a thread's pitch diameter by tolerance class."""

from functools import lru_cache
from typing import NamedTuple

from conemodel.physics.domain import require
from conemodel.physics.thread import pitch_diameter

ALLOWANCE = {0.75: 22, 1.0: 26, 1.25: 28, 1.5: 32, 1.75: 34, 2.0: 38, 2.5: 42}
"""Distance of positions g and G from the basic size [µm], by pitch [mm]; h and H have none.
Source: [ISO965-1]"""

_PITCHES = f"a tolerance class goes with one of the pitches {', '.join(f'{p:g}' for p in ALLOWANCE)} mm"

GRADE_STEPS = {
    **{
        f"{grade}{position}": -12 + steps
        for position in "gh"
        for grade, steps in {3: 0, 4: 4, 5: 8, 6: 12, 7: 16, 8: 20, 9: 24}.items()
    },
    **{
        f"{grade}{position}": steps
        for position in "GH"
        for grade, steps in {4: -3, 5: 1, 6: 5, 7: 9, 8: 13}.items()
    },
}
"""Preferred numbers between a class's pitch diameter tolerance and that of 6g and 6h: the standard's factors,
0.5 to 2 outside and 0.85 to 2.12 inside, are themselves of the R40 series. Source: [ISO965-1]"""

DIAMETER_RANGES = ((5.6, 11.2), (11.2, 22.4))
"""Ranges of the nominal diameter [mm], above the first up to the second. Source: [ISO965-1]"""

R40 = (
    *(1.00, 1.06, 1.12, 1.18, 1.25, 1.32, 1.40, 1.50, 1.60, 1.70, 1.80, 1.90, 2.00, 2.12, 2.24, 2.36),
    *(2.50, 2.65, 2.80, 3.00, 3.15, 3.35, 3.55, 3.75, 4.00, 4.25, 4.50, 4.75, 5.00, 5.30, 5.60, 6.00),
    *(6.30, 6.70, 7.10, 7.50, 8.00, 8.50, 9.00, 9.50),
)
"""Preferred numbers, one decade. Source: [ISO3]"""


class SizeLimits(NamedTuple):
    """Smallest and largest permitted size [m]."""

    low: float
    high: float


def iso965_pitch_diameter_limits(*, diameter: float, pitch: float, tolerance_class: str) -> SizeLimits:
    """Return the limits of the pitch diameter [m] by tolerance class, such as ``6g`` (axle) or ``6H`` (cone).

    The tolerance of grade 6 outside is 90 P^0.4 d^0.1 µm, d the geometric mean of the standard's range,
    rounded to a preferred number; the other grades lie whole preferred numbers above and below. Within the
    sizes taken here this is the printed table.

    Args:
        diameter: nominal d [m], above 5.6 mm, up to 22.4 mm.
        pitch: P [m], one of the standard's from 0.75 mm to 2.5 mm (not 0.8 mm).
        tolerance_class: 3 to 9 with g or h (outside), 4 to 8 with G or H (inside).

    Raises:
        OutOfDomain: an unknown class, or a size that is not among those.

    Source: [ISO965-1]

    >>> low, high = iso965_pitch_diameter_limits(diameter=10e-3, pitch=1e-3, tolerance_class="6g")
    >>> print(f"{low * 1e3:.3f} to {high * 1e3:.3f} mm")
    9.212 to 9.324 mm
    """
    require(
        tolerance_class in GRADE_STEPS,
        "tolerance class must be such as 6g or 6H: 3 to 9 with g or h, 4 to 8 with G or H",
    )
    pitch_mm = round(pitch * 1e3, 6)
    require(pitch_mm in ALLOWANCE, _PITCHES)
    width = _tolerance(diameter * 1e3, pitch_mm, GRADE_STEPS[tolerance_class]) * 1e-6
    allowance = ALLOWANCE[pitch_mm] * 1e-6 if tolerance_class[-1] in "gG" else 0.0
    basic = float(pitch_diameter(diameter=diameter, pitch=pitch))
    if tolerance_class[-1].isupper():
        return SizeLimits(basic + allowance, basic + allowance + width)
    return SizeLimits(basic - allowance - width, basic - allowance)


@lru_cache(maxsize=256)
def _tolerance(diameter_mm: float, pitch_mm: float, steps: int) -> float:
    """Return the pitch diameter tolerance [µm], so many preferred numbers from that of external grade 6."""
    size = round(diameter_mm, 6)
    ranges = [(above, up_to) for above, up_to in DIAMETER_RANGES if above < size <= up_to]
    require(len(ranges) == 1, "a tolerance class goes with a diameter above 5.6 mm, up to 22.4 mm")
    above, up_to = ranges[0]
    formula = 90 * pitch_mm**0.4 * (above * up_to) ** 0.05
    place = min(range(-len(R40), 2 * len(R40)), key=lambda place: abs(formula - 100 * _preferred(place)))
    return 100 * _preferred(place + steps)


def _preferred(place: int) -> float:
    """Return the preferred number at a place of the R40 series; place 0 is 1, place 40 is 10."""
    decade, within = divmod(place, len(R40))
    return R40[within] * 10.0**decade
