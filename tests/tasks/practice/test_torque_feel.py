"""What a twirl hands to the widget: the torque that was computed, degree by degree, its level taken out."""

import numpy as np
import pytest

from conemodel.tasks.practice.torque_feel import TABLE, finger_signature, round_to_steps, twirl_feel
from tests.tasks.practice.hubs import bench_of, standing_at


@pytest.fixture(scope="module")
def dented():
    return standing_at(bench_of(start="locked", prior={"faults": ("dents",)}), -10e-6)


def test_the_table_follows_the_torque_round_the_turn(dented):
    """Linear between computed points; the sum over whole turns of what balls take and give back is zero."""
    found, felt = finger_signature(dented.secret, dented.hub), twirl_feel(dented.secret, dented.hub)
    step = float(found.angle[1] - found.angle[0])
    assert felt.span == pytest.approx(step * found.angle.size)
    assert len(felt.pull) == min(found.angle.size, round(TABLE * felt.span / (2 * np.pi)))
    at = np.arange(len(felt.pull)) * felt.span / len(felt.pull)
    closed = np.append(found.torque, found.torque[0]) - found.torque.mean()
    expected = np.interp(at, np.append(found.angle, found.angle[0] + felt.span), closed)
    assert np.ptp(felt.pull) > 1e-3
    assert felt.pull == pytest.approx(expected, abs=0.6e-4)  # four decimals are sent
    assert felt.friction == (round_to_steps(found.level), round_to_steps(found.level))


def test_a_smooth_hub_pulls_nowhere():
    smooth = standing_at(bench_of(start="locked"), -10e-6)
    felt = twirl_feel(smooth.secret, smooth.hub)
    assert set(felt.pull) == {0.0}
    assert felt.span == pytest.approx(2 * np.pi)
