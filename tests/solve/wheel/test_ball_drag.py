"""Drag from load, whichever way the balls lean."""

from dataclasses import replace

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.solve.equilibrium.unloaded import solve_unloaded
from conemodel.solve.stages.terms import pair_of
from conemodel.solve.wheel.ball_drag import SPIN_FRICTION, load_drag

FOLDER = library.SCENARIOS


def test_drag_does_not_ask_which_way_the_balls_lean():
    # Friction: against the motion on either flank of the groove. The same loads, the contact angles turned round.
    pair = pair_of(cm.load_scenario(FOLDER / "touring-rear.toml"))
    solution = solve_unloaded(pair, np.array([-2e-5]))
    turned_round = replace(
        solution,
        left=replace(solution.left, contact_angle=-solution.left.contact_angle),
        right=replace(solution.right, contact_angle=-solution.right.contact_angle),
    )
    there, back = load_drag(pair, solution), load_drag(pair, turned_round)
    assert there.torque.item() > 0
    assert there.spinning.item() > 0
    assert back.torque == pytest.approx(there.torque, rel=1e-12)
    assert back.spinning == pytest.approx(there.spinning, rel=1e-12)


@pytest.mark.parametrize("turns", [1.5, 2.0, 3.0])
def test_a_hub_far_too_loose_still_has_an_answer(turns):
    # Three turns out is the most a setting may say; it must be answered, not refused for a sum that went negative.
    scenario = cm.load_scenario(FOLDER / "touring-rear.toml").with_setting(back_off=2 * np.pi * turns)
    prediction = cm.predict(scenario)
    assert prediction.verdict.state == "loose"
    assert prediction.stages["ridden"].torque > 0
    assert not prediction.stages["ridden"].valid


@pytest.mark.parametrize("name", ["touring-rear", "road-front"])
@pytest.mark.parametrize("conformity", [0.54, 0.56, 0.60])
def test_spin_alone_accounts_for_the_published_load_part(name, conformity):
    """Two accounts of one friction: the published factor, measured on whole bearings, holds sliding and spin.

    Spin alone must then give the same torque at a friction of sliding steel, from a film's 0.05 to greased 0.12
    (handbook range, memory), at every preload: a factor without spin in it would fall far below.
    """
    scenario = cm.load_scenario(FOLDER / f"{name}.toml")
    pair = pair_of(scenario)
    open_grooves = {"cone_conformity": conformity, "cup_conformity": conformity}
    pair = pair.replace(left=pair.left.replace(**open_grooves), right=pair.right.replace(**open_grooves))
    drag = load_drag(pair, solve_unloaded(pair, np.linspace(-6e-5, -1e-5, 6)))
    friction = SPIN_FRICTION * drag.torque / drag.spinning
    assert ((friction > 0.05) & (friction < 0.12)).all()
    assert friction.max() / friction.min() < 1.1
    assert drag.upper == pytest.approx(drag.spinning, rel=1e-12)


def test_the_band_is_wider_the_closer_the_grooves():
    """By the closed form 3/8 μ Q a E(k): a closer groove has a longer ellipse to spin over, the factor stays."""
    pair = pair_of(cm.load_scenario(FOLDER / "touring-rear.toml"))
    widths = []
    for conformity in (0.54, 0.56, 0.60):
        grooves = {"cone_conformity": conformity, "cup_conformity": conformity}
        given = pair.replace(left=pair.left.replace(**grooves), right=pair.right.replace(**grooves))
        drag = load_drag(given, solve_unloaded(given, np.array([-3e-5])))
        widths.append((drag.upper / drag.torque).item())
    assert widths[0] > widths[1] > widths[2] > 1


def test_an_unloaded_ball_has_no_band():
    pair = pair_of(cm.load_scenario(FOLDER / "touring-rear.toml"))
    drag = load_drag(pair, solve_unloaded(pair, np.array([5e-5])))
    assert drag.torque.item() == drag.upper.item() == 0.0
