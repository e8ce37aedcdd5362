"""Drag in parts, spin-down and heavy spot of whole wheels."""

import numpy as np
import pytest

import conemodel as cm
from conemodel.tasks.bearing.spin_down import (
    WHY_SPIN_PROVES_NOTHING,
    against_quoted,
    drag_of,
    heavy_spot,
    spin_down,
    spin_times_of,
)
from conemodel.tasks.setting.good_range import window_of


@pytest.fixture(scope="module")
def hub(root):
    return cm.load_scenario(root / "scenarios" / "touring-rear.toml")


def test_parts_of_the_drag_add_up_and_each_answers_to_its_own_cause(hub):
    plain = drag_of(hub, end_play=-2e-5)
    assert plain.total == pytest.approx(plain.load + plain.grease + plain.seals, rel=1e-12)
    assert plain.total_upper - plain.total == pytest.approx(plain.load_upper - plain.load, rel=1e-9)
    # By hand, slow: 160e-7·2·20³ = 0.256 N·mm a row; fresh grease three times that.
    assert float(plain.grease) == pytest.approx(2 * 0.256e-3, rel=1e-9)
    fresh = drag_of(hub.replace(condition=hub.condition.replace(grease="fresh")), end_play=-2e-5)
    assert fresh.grease == pytest.approx(3 * plain.grease, rel=1e-9)
    assert fresh.load == plain.load
    sealed = drag_of(hub.replace(condition=hub.condition.replace(seal_torque=0.02)), end_play=-2e-5)
    assert float(sealed.total - plain.total) == pytest.approx(0.015, rel=1e-9)


def test_grease_drags_more_the_faster_from_the_branch_on(hub):
    # By hand: 300 mm²/s at 6.667 rev/min is νn = 2000; at 32 times the speed 32^(2/3) = 10.08 times the torque.
    slow, fast = (
        float(drag_of(hub, end_play=0.0, speed=2 * np.pi * n / 60).grease) for n in (6.667001, 6.667001 * 32)
    )
    assert fast / slow == pytest.approx(10.08, rel=1e-3)


def test_the_spin_down_keeps_the_books(hub):
    found = spin_down(hub, end_play=-1e-5)
    assert sum(found.spent.values()) == pytest.approx(found.start_energy, rel=1e-6)
    assert set(found.spent) == {"load", "grease", "seals", "air"}
    # The same motion with the variables parted, another algorithm.
    _, other = spin_times_of(hub, end_play=np.array([-1e-5]))
    assert other == pytest.approx(found.stop_time, rel=1e-5)


def test_the_loosest_hub_spins_longest(root):
    # Common practice, no source: never judge by spin time.
    for name in ("touring-rear", "road-front", "city-nutted"):
        scenario = cm.load_scenario(root / "scenarios" / f"{name}.toml")
        end_play = np.linspace(-60e-6, 60e-6, 25)
        _, time = spin_times_of(scenario, end_play=end_play)
        window = window_of(scenario)
        longest = end_play[np.argmax(time)]
        assert longest >= window.loose_edge
        assert np.all(np.diff(time[end_play < 0]) > 0)
        # and hardly tells one loose setting from another
        loose = time[end_play > window.loose_edge]
        assert np.ptp(loose) < 0.02 * loose.mean()
    assert "proves" not in WHY_SPIN_PROVES_NOTHING
    assert "never that it is right" in WHY_SPIN_PROVES_NOTHING


def test_a_heavy_spot_rests_where_its_moment_is_the_torque(hub):
    # Closed form: m g r sin(angle) = M. By hand 0.010·9.81·0.310 = 30.41 N·mm, the trade's valve test.
    found = heavy_spot(hub, end_play=0.0)
    assert found.moment * 1e3 == pytest.approx(30.41, abs=0.01)
    assert found.swings
    assert np.sin(found.angle) * found.moment == pytest.approx(found.torque, rel=1e-9)


def test_a_tight_hub_does_not_swing(hub):
    found = heavy_spot(hub, end_play=-6e-5)
    assert found.torque > found.moment
    assert not found.swings
    assert found.angle == pytest.approx(np.pi / 2)
    edge = heavy_spot(hub, end_play=-6e-5, spot=(0.010 * found.torque / found.moment * 1.0001, 0.310))
    assert edge.swings


def test_the_factor_against_the_quoted_figure_is_computed(hub):
    found = against_quoted(hub, end_play=-1e-5)
    lower, upper = found.factors
    assert lower * found.quoted == pytest.approx(float(found.computed.total), rel=1e-12)
    assert upper * found.quoted == pytest.approx(float(found.computed.total_upper), rel=1e-12)
    assert against_quoted(hub, end_play=-6e-5).factors[1] > 2 * upper
