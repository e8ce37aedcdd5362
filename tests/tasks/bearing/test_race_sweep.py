"""The whole sweep of load, pressure, drag, spin and life: the same numbers as one by one."""

import numpy as np
import pytest

import conemodel as cm
from conemodel.tasks.bearing.ball_loads import loads_over
from conemodel.tasks.bearing.fatigue_life import life_ratio
from conemodel.tasks.bearing.race_sweep import sweep_races
from conemodel.tasks.bearing.spin_down import drag_of, spin_times_of
from conemodel.tasks.setting.good_range import window_of
from conemodel.tasks.setting.sweep import sweep

ANGLES = np.linspace(-0.2, 2.0, 60)


@pytest.fixture(scope="module")
def hub(root):
    return cm.load_scenario(root / "scenarios" / "touring-rear.toml")


@pytest.fixture(scope="module")
def found(hub):
    return sweep_races(hub, cone_angle=ANGLES)


def test_it_stands_where_the_other_sweep_stands(hub, found):
    assert found.end_play == pytest.approx(sweep(hub, cone_angle=ANGLES).end_play_clamped, abs=1e-12)


@pytest.mark.parametrize("case", ["straight", "side", "impact"])
def test_worst_and_bands_as_solved_one_by_one(hub, found, case):
    # The bands are drawn between a few solved end plays, over kinks where another ball becomes the worst: within 2 %;
    # dents go with the square of the load.
    alone = loads_over(hub, case, end_play=found.end_play)
    for name in ("ball_load", "cone_pressure", "cup_pressure", "margin", "dent"):
        swept, solved = getattr(found.worst[case], name), getattr(alone, name)
        assert swept.value == pytest.approx(solved.value, rel=1e-9)
        near = 0.04 if name == "dent" else 0.02
        assert swept.low == pytest.approx(solved.low, rel=near)
        assert swept.high == pytest.approx(solved.high, rel=near)


def test_life_spin_and_drag_as_one_by_one(hub, found):
    assert found.life.mixed == pytest.approx(life_ratio(hub, end_play=found.end_play).mixed, rel=1e-9)
    assert found.spin_time == pytest.approx(spin_times_of(hub, end_play=found.end_play)[1], rel=1e-9)
    one = drag_of(hub, end_play=float(found.end_play[20]), speed=2 * np.pi)
    assert found.drag.total[20] == pytest.approx(float(one.total), rel=1e-9)


def test_the_longest_spin_lies_on_the_loose_side(hub, found):
    longest = found.end_play[np.argmax(found.spin_time)]
    assert longest >= window_of(hub).loose_edge


def test_a_wheel_that_carries_nothing_has_no_band(hub):
    idle = hub.replace(wheel=hub.wheel.replace(radial_load=0.0, side_load=0.0, impact_load=0.0))
    loose = sweep_races(idle, cone_angle=np.linspace(1.5, 2.0, 30)).worst["impact"]
    assert np.all(loose.ball_load.value == 0)
    assert np.all(loose.cone_pressure.high == 0)
    assert np.all(np.isinf(loose.margin.value))


def test_without_any_load_life_is_best_where_no_ball_is_pinched(hub):
    idle = hub.replace(wheel=hub.wheel.replace(radial_load=0.0, side_load=0.0))
    assert life_ratio(idle, end_play=np.array([-3e-5, 5e-5])).mixed[1] == pytest.approx(1)


def test_a_cone_that_does_not_stay_where_it_was_turned_to_is_followed(root):
    # The end plays are those of the sweep of end play and preload: one hub, one story.
    adrift = cm.load_scenario(root / "scenarios" / "touring-rear.toml").with_setting(axle_held="nothing")
    assert sweep_races(adrift).end_play == pytest.approx(sweep(adrift).end_play_clamped)
    held = cm.load_scenario(root / "scenarios" / "touring-rear.toml")
    assert np.ptp(sweep(held).end_play_clamped - sweep(adrift).end_play_clamped) > 1e-6
