"""Whether the parts go together. Sizes are hand sums; facts of the trade are common practice, no source."""

import numpy as np
import pytest

from conemodel.parts.readings import Balls, Readings, Size
from conemodel.tasks.diagnosis.assumed_hub import described_hub
from conemodel.tasks.diagnosis.fit import Fit
from conemodel.tasks.diagnosis.fit_check import fit_check
from conemodel.tasks.diagnosis.fit_of_balls import packing_range


def fits(readings: Readings) -> dict[str, Fit]:
    return {fit.key: fit for fit in fit_check(readings, described_hub(readings, None))}


def mm(value: float, uncertainty: float = 0.1) -> Size:
    return Size(size=value * 1e-3, uncertainty=uncertainty * 1e-3)


def test_nine_quarter_inch_balls_with_the_pitch_circle_unknown():
    """Nine go in with some 0.7 to spare on 20.0 mm, and ten fit from 20.6 mm on: from π/asin(D/dm) by hand."""
    readings = Readings(balls_left=Balls(count=9, diameter=mm(6.35, 0.01)), balls_right=Balls(count=9))
    low, high = packing_range(readings, described_hub(readings, None), "left")
    assert low == pytest.approx(np.pi / np.arcsin(6.35 / 19.4), abs=0.06)
    assert low > 9 > low - 1
    assert high - 9 > 0.7
    packing = fits(readings)["packing_left"]
    assert packing.state == "good"
    assert "leave that room" in packing.sentence
    for words in ("add a", "add one", "smaller", "fit ten"):
        assert words not in packing.sentence


def test_a_measured_pitch_circle_narrows_the_range():
    known = Readings(pitch_diameter=mm(20.0, 0.05))
    low, high = packing_range(known, described_hub(known, None), "left")
    assert low < 9.72 < high  # hand: π/asin(6.35/20)
    assert high - low < 0.15


@pytest.mark.parametrize(("count", "words"), [(8, "no proof"), (11, "at most")])
def test_a_wrong_count_is_named(count, words):
    packing = fits(Readings(balls_left=Balls(count=count)))["packing_left"]
    assert packing.state == "wrong"
    assert words in packing.sentence


@pytest.mark.parametrize(
    ("size", "state", "words"),
    [
        (6.35, "good", "as they must"),
        (6.34, "good", "as they must"),
        (6.30, "look again", "0.050 mm off what they must be"),
        (6.20, "wrong", "not of one kind"),
    ],
)
def test_balls_are_as_they_must_be_only_where_they_measure_so(size, state, words):
    """A measurement within its error of what belongs is no proof. Sizes by hand: 6.35 mm is a quarter of an inch."""
    found = fits(
        Readings(balls_left=Balls(diameter=mm(6.35, 0.02)), balls_right=Balls(diameter=mm(size, 0.02)))
    )
    for key in ("ball_size_sides", "ball_size_right"):
        assert found[key].state == state
        assert words in found[key].sentence
        assert ("as they must." in found[key].sentence) is (state == "good")


def test_axle_length_is_width_and_protrusions():
    """146 = 135 + 5.5 + 5.5; 108 = 100 + 4 + 4."""
    right = Readings(
        axle_length=mm(146), over_locknut_width=mm(135), protrusion_left=mm(5.5), protrusion_right=mm(5.5)
    )
    assert fits(right)["axle_length"].state == "good"
    misread = fits(right.replace(protrusion_right=mm(7.5)))["axle_length"]
    assert misread.state == "wrong"
    assert "-2.0 mm" in misread.sentence


def test_dropout_margin_with_its_uncertainty():
    base = Readings(clamp="quick release", protrusion_right=mm(5), dropout_thickness=mm(6, 0.05))
    assert fits(base.replace(protrusion_left=mm(5.0)))["margin_left"].state == "good"
    assert fits(base.replace(protrusion_left=mm(5.92, 0.05)))["margin_left"].state == "look again"
    proud = fits(base.replace(protrusion_left=mm(6.4)))["margin_left"]
    assert proud.unsafe
    assert "the wheel can come out" in proud.sentence
    # level with the face is even odds: a law of the symmetric error
    assert fits(base.replace(protrusion_left=mm(6.0)))["margin_left"].chance == pytest.approx(0.5)
    assert fits(base)["margin_left"].state == "not measured"
    assert "margin_left" not in fits(base.replace(clamp="nuts"))


def test_protrusions_and_frame():
    odd = fits(Readings(protrusion_left=mm(3), protrusion_right=mm(8), over_locknut_width=mm(135)))
    assert odd["protrusions"].state == "wrong"
    assert "right" in odd["protrusions"].sentence
    wide = fits(Readings(over_locknut_width=mm(130), dropout_width=mm(126)))["frame"]
    assert wide.state == "wrong"
    assert "wider" in wide.sentence
    assert "160 N" in wide.sentence  # 4 mm at 40 N/mm
    narrow = fits(Readings(over_locknut_width=mm(126), dropout_width=mm(130)))["frame"]
    assert "narrower" in narrow.sentence
    assert fits(Readings(over_locknut_width=mm(130), dropout_width=mm(130.2)))["frame"].state == "good"


def test_thread_for_axle_nuts():
    short = Readings(
        clamp="nuts",
        thread="M10 x 1",
        protrusion_left=mm(12),
        protrusion_right=mm(20),
        dropout_thickness=mm(6),
    )
    found = fits(short)
    assert found["engagement_left"].unsafe  # 6 mm of the 8 mm a nut needs on 10 mm
    assert found["engagement_right"].state == "good"
