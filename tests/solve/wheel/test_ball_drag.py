"""Drag from load, whichever way the balls lean."""

from dataclasses import replace

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.solve.equilibrium.unloaded import unloaded
from conemodel.solve.stages.terms import pair_of
from conemodel.solve.wheel.ball_drag import load_drag

FOLDER = library.SCENARIOS


def test_drag_does_not_ask_which_way_the_balls_lean():
    # Friction: against the motion on either flank of the groove. The same loads, the contact angles turned round.
    pair = pair_of(cm.load_scenario(FOLDER / "touring-rear.toml"))
    solution = unloaded(pair, np.array([-2e-5]))
    turned_round = replace(
        solution,
        left=replace(solution.left, contact_angle=-solution.left.contact_angle),
        right=replace(solution.right, contact_angle=-solution.right.contact_angle),
    )
    there, back = load_drag(pair, solution), load_drag(pair, turned_round)
    assert there.rolling.item() > 0
    assert there.spinning.item() > 0
    assert back.rolling == pytest.approx(there.rolling, rel=1e-12)
    assert back.spinning == pytest.approx(there.spinning, rel=1e-12)


@pytest.mark.parametrize("turns", [1.5, 2.0, 3.0])
def test_a_hub_far_too_loose_still_has_an_answer(turns):
    # Three turns out is the most a setting may say; it must be answered, not refused for a sum that went negative.
    scenario = cm.load_scenario(FOLDER / "touring-rear.toml").with_setting(back_off=2 * np.pi * turns)
    prediction = cm.predict(scenario)
    assert prediction.verdict.state == "loose"
    assert prediction.stages["ridden"].torque > 0
    assert not prediction.stages["ridden"].valid
