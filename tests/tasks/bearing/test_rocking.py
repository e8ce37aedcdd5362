"""Rocking the rim: play, contact and wheel flex told apart."""

import numpy as np
import pytest

import conemodel as cm
from conemodel.tasks.bearing.rocking import bench_and_frame, rock
from tests.hand_calculated_hub import hand_calculated


@pytest.fixture(scope="module")
def hub(root):
    return hand_calculated(cm.load_scenario(root / "scenarios" / "touring-rear.toml"))


def test_a_perfect_bearing_with_wheel_flex_moves_and_has_no_play(hub):
    found = rock(hub, end_play=-1e-5)
    assert found.dead_band == 0.0
    # By hand: ±20 N over 60 N/mm.
    assert found.total[-1] - found.total[0] > 2 * 20 / 60e3
    assert found.wheel[-1] == pytest.approx(20 / 60e3, rel=1e-12)
    soft = rock(hub.replace(wheel=hub.wheel.replace(side_stiffness=30e3)), end_play=-1e-5)
    assert soft.bearing == pytest.approx(found.bearing, rel=1e-12)
    assert soft.dead_band == 0.0


@pytest.mark.parametrize(("push", "moved"), [(5, 0.044), (20, 0.115)])
def test_just_touching_moves_in_the_bearing_alone(hub, push, moved):
    # Computed outside the project for a rear hub at e = 0, stop to stop; the angle of that hub is not stated.
    found = rock(hub, end_play=0.0, push=push)
    assert (found.bearing[-1] - found.bearing[0]) * 1e3 == pytest.approx(moved, rel=0.12)
    assert found.dead_band == 0.0


def test_bench_and_frame_differ_by_the_clamp_and_not_by_the_wheel(hub):
    bench, frame = bench_and_frame(hub)
    assert bench.dead_band > frame.dead_band > 0
    assert bench.wheel == pytest.approx(frame.wheel, rel=1e-12)
    assert (bench.stage, frame.stage) == ("locked", "clamped")


def test_the_curve_is_odd_and_stiffens_with_preload(hub):
    # Mirror symmetry of a hub with two equal rows: pushing the other way mirrors the movement.
    found = rock(hub, end_play=-2e-5)
    assert found.bearing == pytest.approx(-found.bearing[::-1], abs=1e-9)
    assert np.ptp(found.bearing) < np.ptp(rock(hub, end_play=0.0).bearing)
    assert np.all(np.diff(found.total) > 0)


def test_what_is_not_play_nor_wheel_is_contact(hub):
    found = rock(hub, end_play=5e-5)
    whole = found.total[-1] - found.total[0]
    assert whole == pytest.approx(found.dead_band + found.contact + 2 * found.wheel[-1], rel=1e-9)
    assert found.contact > 0
