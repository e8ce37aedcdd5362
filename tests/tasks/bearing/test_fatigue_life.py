"""Life against setting: the curve every handbook draws."""

import numpy as np
import pytest

import conemodel as cm
from conemodel.tasks.bearing.fatigue_life import WHAT_LIFE_SAYS, life_ratio
from tests.hand_calculated_hub import hand_calculated

ENDS = 1e-6 * np.array([-50.0, -30.0, -15.0, 0.0, 50.0])


@pytest.fixture(scope="module")
def hub(root):
    return hand_calculated(cm.load_scenario(root / "scenarios" / "touring-rear.toml"))


def test_ratios_of_a_rear_hub(hub):
    # Computed outside the project for nine 6.35 balls on 20, 600 N, with 90 N side; its best is of its own grid.
    found = life_ratio(hub, end_play=ENDS)
    assert found.alone["straight"] == pytest.approx([0.13, 0.50, 1.00, 0.85, 0.52], abs=0.025)
    assert found.alone["side"] == pytest.approx([0.53, 1.00, 0.88, 0.74, 0.50], abs=0.04)


@pytest.mark.parametrize("name", ["touring-rear", "road-front", "mixed-rows", "one-ball-short"])
@pytest.mark.parametrize("share", [0.0, 0.2, 1.0])
def test_the_peak_lies_in_light_preload_and_life_falls_on_both_sides(root, name, share):
    # Law of every handbook's curve; a light preload is a few hundred newtons at most.
    found = life_ratio(cm.load_scenario(root / "scenarios" / f"{name}.toml"), side_share=share)
    assert -60e-6 < found.best < 0
    tight, loose = found.end_play < found.best - 3e-6, found.end_play > found.best + 3e-6
    assert np.all(np.diff(found.mixed[tight]) > 0)
    assert np.all(np.diff(found.mixed[loose]) < 0)
    assert found.mixed.max() == pytest.approx(1, abs=2e-3)


def test_tightness_is_punished_more_than_play(hub):
    found = life_ratio(hub, end_play=np.array([-100e-6, 100e-6]))
    assert found.mixed[0] < found.mixed[1] / 4
    assert "none of which is in this curve" in WHAT_LIFE_SAYS


def test_the_mix_lies_between_its_parts_and_all_of_one_is_that_one(hub):
    # Sum of damage: closed form at both ends of the mix.
    only = life_ratio(hub, side_share=0.0)
    assert only.mixed == pytest.approx(only.alone["straight"], rel=1e-12)
    sideways = life_ratio(hub, side_share=1.0)
    assert sideways.mixed == pytest.approx(sideways.alone["side"], rel=1e-12)
    assert sideways.best < life_ratio(hub).best < only.best


def test_a_share_that_cannot_be_is_refused(hub):
    with pytest.raises(ValueError, match="0 to 1"):
        life_ratio(hub, side_share=1.5)


def test_curve_and_solved_points_agree(hub):
    # The curve is drawn between solved points.
    curve = life_ratio(hub)
    assert np.interp(ENDS, curve.end_play, curve.mixed) == pytest.approx(
        life_ratio(hub, end_play=ENDS).mixed, abs=0.01
    )
