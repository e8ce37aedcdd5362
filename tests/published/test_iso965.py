"""Pitch diameter tolerances of [ISO965-1]: the printed tables, grade by grade.

Seen: external grades in a handbook's reprint of the ISO table; internal grades 4, 5, 6 and the allowance of g in
tap and screw makers' tables; limits of M6×0.75, M8×1.25, M10×1.5 and, inside, M9×1 and M10×1. Not seen: internal
grades 7 and 8, 6g of M9×1 and M10×1 (put together from the printed allowance and tolerance).
"""

import pytest

from conemodel.base.errors import OutOfDomain
from conemodel.physics.thread import axial_backlash
from conemodel.physics.thread_tolerance import iso965_pitch_diameter_limits

EXTERNAL = {
    # diameter of the range, pitch: grades 3 to 9 [µm]
    (10, 0.75): (50, 63, 80, 100, 125),
    (10, 1): (56, 71, 90, 112, 140, 180, 224),
    (10, 1.25): (60, 75, 95, 118, 150, 190, 236),
    (10, 1.5): (67, 85, 106, 132, 170, 212, 265),
    (12, 1): (60, 75, 95, 118, 150, 190, 236),
    (12, 1.25): (67, 85, 106, 132, 170, 212, 265),
    (12, 1.5): (71, 90, 112, 140, 180, 224, 280),
    (12, 1.75): (75, 95, 118, 150, 190, 236, 300),
    (16, 2): (80, 100, 125, 160, 200, 250, 315),
    (20, 2.5): (85, 106, 132, 170, 212, 265, 335),
}
INTERNAL = {(6, 1): (95, 118, 150), (8, 1.25): (100, 125, 160), (9, 1.25): (100, 125, 160)}


def limits(diameter, pitch, tolerance_class):
    return iso965_pitch_diameter_limits(
        diameter=diameter * 1e-3, pitch=pitch * 1e-3, tolerance_class=tolerance_class
    )


def width(*thread):
    low, high = limits(*thread)
    return (high - low) * 1e6


@pytest.mark.parametrize(("diameter", "pitch"), EXTERNAL)
def test_external_table(diameter, pitch):
    printed = EXTERNAL[diameter, pitch]
    found = [width(diameter, pitch, f"{grade}h") for grade in range(3, 3 + len(printed))]
    assert found == pytest.approx(printed, abs=1e-6)


@pytest.mark.parametrize(("diameter", "pitch"), INTERNAL)
def test_internal_table(diameter, pitch):
    found = [width(diameter, pitch, f"{grade}H") for grade in (4, 5, 6)]
    assert found == pytest.approx(INTERNAL[diameter, pitch], abs=1e-6)


def test_internal_grades_from_memory():
    # M10×1: 7H 190, 8H 236.
    assert [width(10, 1, f"{grade}H") for grade in (7, 8)] == pytest.approx([190, 236], abs=1e-6)


@pytest.mark.parametrize(
    ("thread", "printed"),
    [
        ((10, 1, "6H"), (9.350, 9.500)),
        ((9, 1, "6H"), (8.350, 8.500)),
        ((10, 1, "6g"), (9.212, 9.324)),
        ((9, 1, "6g"), (8.212, 8.324)),
        ((6, 0.75, "6g"), (5.391, 5.491)),
        ((8, 1.25, "6g"), (7.042, 7.160)),
        ((10, 1.5, "6g"), (8.862, 8.994)),
        ((12, 1.75, "6g"), (10.679, 10.829)),  # memory
        ((10, 1.5, "6H"), (9.026, 9.206)),  # memory
    ],
)
def test_limits(thread, printed):
    assert [size * 1e3 for size in limits(*thread)] == pytest.approx(printed, abs=6e-4)


def test_an_allowance_lies_as_far_inside_as_outside():
    assert limits(10, 1, "6G").low - limits(10, 1, "6H").low == pytest.approx(26e-6)
    assert limits(10, 1, "6h").high - limits(10, 1, "6g").high == pytest.approx(26e-6)


@pytest.mark.parametrize("diameter", [9, 10])
def test_backlash_of_a_medium_fit(diameter):
    # 0.0150 mm to 0.1663 mm, worked out from the printed limits.
    axle, cone = limits(diameter, 1, "6g"), limits(diameter, 1, "6H")
    least = axial_backlash(pitch_diameter_clearance=cone.low - axle.high) * 1e3
    most = axial_backlash(pitch_diameter_clearance=cone.high - axle.low) * 1e3
    assert (least, most) == pytest.approx((0.0150, 0.1663), abs=5e-5)


@pytest.mark.parametrize(
    "thread",
    [
        (5.6, 1, "6g"),
        (22.5, 1, "6g"),
        (10, 0.97692, "6g"),
        (10, 1, "6x"),
        (10, 1, "2g"),
        (10, 1, "9H"),
        (10, 1, ""),
    ],
)
def test_what_the_table_does_not_hold_is_refused(thread):
    with pytest.raises(OutOfDomain, match="tolerance class"):
        limits(*thread)
