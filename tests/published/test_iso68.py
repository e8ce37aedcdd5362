"""Basic diameters of [ISO68-1] for the threads of axles: M9×1 in front, M10×1 behind."""

import numpy as np
import pytest

from conemodel.physics.thread import (
    HALF_ANGLE,
    axial_backlash,
    pitch_diameter,
    root_diameter,
)


@pytest.mark.parametrize(
    ("diameter", "d2", "d3"),
    [(10, 9.35048, 8.77313), (9, 8.35048, 7.77313)],
)
def test_basic_diameters(diameter, d2, d3):
    # d - 0.649519 P, d - 1.226869 P; the printed tables round to 0.001.
    size = {"diameter": diameter * 1e-3, "pitch": 1e-3}
    assert pitch_diameter(**size) * 1e3 == pytest.approx(d2, abs=5e-6)
    assert root_diameter(**size) * 1e3 == pytest.approx(d3, abs=5e-6)


def test_coarse_m10_as_printed():
    # 9.026, 8.160 seen in an online table of DIN 13.
    size = {"diameter": 10e-3, "pitch": 1.5e-3}
    found = [f(**size) * 1e3 for f in (pitch_diameter, root_diameter)]
    assert found == pytest.approx([9.026, 8.160], abs=5e-4)


def test_backlash_by_drawing_the_flanks():
    # Two straight flanks 30° off the radial direction, crossed by two pitch cylinders half the clearance apart:
    # geometry, no formula of the package.
    clearance = 0.1e-3
    outward = np.array([np.sin(HALF_ANGLE), np.cos(HALF_ANGLE)])  # along a flank: axial, radial
    one_flank = clearance / 2 * outward[0] / outward[1]
    assert axial_backlash(pitch_diameter_clearance=clearance) == pytest.approx(2 * one_flank, rel=1e-12)
