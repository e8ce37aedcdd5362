"""Likelihoods of what fingers and a weight tell: grease drags beside the balls, and hides a ripple."""

import numpy as np
import pytest

from conemodel.parts.priors import Beliefs
from conemodel.tasks.bearing.feel_words import FELT_CHANGE, FELT_TORQUE
from conemodel.tasks.diagnosis.assumed_hub import usual_hub
from conemodel.tasks.diagnosis.likelihood import TURNING_WORDS, Feel, turning_chances, weight_likelihood
from conemodel.tasks.diagnosis.model import model_of
from tests.tasks.diagnosis.simulated import readings_of


@pytest.mark.parametrize("drag", [0.0, 4e-3, 20e-3])
def test_a_starting_weight_is_likeliest_where_grease_and_balls_add_up_to_it(drag):
    """Sum of torques about the axle: what starts the wheel overcomes both."""
    beliefs = Beliefs().replace(other_drag=drag)
    read, balls = 0.05, np.linspace(0.0, 0.08, 8001)
    # a narrow spread, so that its growth with the torque does not move the peak
    found = weight_likelihood(
        balls, read=read, uncertainty=1e-5, beliefs=beliefs.replace(other_drag_spread=1e-5)
    )
    off = (read - drag - balls) / np.hypot(np.hypot(1e-5, 1e-5), 0.2 * balls)
    assert found == pytest.approx(
        np.exp(-(off**2) / 2) / (np.hypot(np.hypot(1e-5, 1e-5), 0.2 * balls) * (2 * np.pi) ** 0.5), rel=1e-9
    )


@pytest.mark.parametrize("drag", [0.0, 5e-3, 40e-3])
def test_a_ripple_at_the_threshold_of_all_that_drags_is_felt_by_half_of_all_hands(drag):
    """Weber's law on the whole torque, the grease's part included; a median is a half."""
    beliefs = Beliefs().replace(other_drag=drag, slip=1e-9)
    balls = 0.06
    ripple = max(FELT_CHANGE * (balls + drag), FELT_TORQUE)
    feel = Feel(np.array(balls), np.array(ripple), np.array(-2.0), np.array(0.0))
    assert turning_chances(feel, beliefs)[TURNING_WORDS.index("notchy")] == pytest.approx(0.5, abs=1e-8)


def test_dents_ripple_by_the_way_the_balls_roll_on_the_cone():
    """Virtual work on tracks that roll without slip: their radii share the pitch diameter.

    A ball between a standing cone and a turning cup has its centre at half the cup's speed. So the balls go round
    by R/(r + R) of the wheel, R and r the radii of the tracks, and along the cone by r R/(r + R) a radian.
    """
    rear, beliefs = usual_hub("rear"), Beliefs()
    row = rear.hub.left
    reach = row.ball_diameter * np.cos(row.contact_angle)
    cone, cup = (row.pitch_diameter - reach) / 2, (row.pitch_diameter + reach) / 2
    model = model_of(readings_of({"turns_closed": "notchy"}), rear, beliefs)
    dents = {case.dent: i for i, case in enumerate(model.cases) if case.dent}
    assert dents
    for depth, i in dents.items():
        slope = np.pi * depth / (2 * beliefs.dent_half_length)
        expected = slope * cone * cup / (cone + cup) / np.sin(row.contact_angle)
        assert model.ripple_per_newton[i, 0, 0] == pytest.approx(expected, rel=1e-12)
