"""Balls all a little too large or too small: the same hub as one drawn round those balls."""

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.scenario import Scenario
from conemodel.solve.equilibrium.wheel_positions import touching_end_play
from conemodel.solve.stages.terms import pair_of

REAR = library.SCENARIOS / "touring-rear.toml"


def with_oversize(scenario: Scenario, oversize: float) -> Scenario:
    rows = scenario.condition
    left, right = (row.replace(ball_oversize=oversize) for row in (rows.left, rows.right))
    return scenario.replace(condition=rows.replace(left=left, right=right))


def drawn_round(scenario: Scenario, oversize: float) -> Scenario:
    """Return the same races as seen by balls of the other size: groove radii and their centres stay."""
    row = scenario.hub.left
    ball, nominal = row.ball_diameter + oversize, row.ball_diameter
    apart = (row.cone_conformity + row.cup_conformity - 1) * nominal
    angle = np.arccos(apart * np.cos(row.contact_angle) / (apart - oversize))
    cup_arm = row.cup_conformity * nominal - nominal / 2
    across = row.pitch_diameter / 2 - cup_arm * np.cos(row.contact_angle)
    along = scenario.hub.row_spacing / 2 + cup_arm * np.sin(row.contact_angle)
    arm = row.cup_conformity * nominal - ball / 2
    same = row.replace(
        ball_diameter=ball,
        pitch_diameter=2 * (across + arm * np.cos(angle)),
        contact_angle=float(angle),
        cone_conformity=row.cone_conformity * nominal / ball,
        cup_conformity=row.cup_conformity * nominal / ball,
    )
    spacing = 2 * (along - arm * np.sin(angle))
    return scenario.replace(hub=scenario.hub.replace(left=same, right=same, row_spacing=float(spacing)))


@pytest.mark.parametrize("oversize", [-100e-6, -50e-6, -20e-6, 20e-6, 50e-6, 100e-6])
def test_odd_balls_are_advised_like_the_hub_drawn_round_them(oversize: float) -> None:
    """Geometry alone: two descriptions of one hub.

    The rubbing of the one is taken at the nominal contact angle, and follows its cotangent: 1.19 at 40°, 0.92 at
    the 47° of balls a tenth of a millimetre short. So the width of its good range is off by up to some 9 %.
    """
    scenario = cm.load_scenario(REAR)
    odd, drawn = cm.predict(with_oversize(scenario, oversize)), cm.predict(drawn_round(scenario, oversize))
    for name in ("contact", "locked", "clamped"):
        one, other = odd.stages[name], drawn.stages[name]
        assert one.preload == pytest.approx(other.preload, rel=0.01, abs=1e-6)
        assert one.rim_play == pytest.approx(other.rim_play, rel=0.02, abs=1e-7)
    assert odd.window.width == pytest.approx(drawn.window.width, rel=0.10)
    assert odd.verdict.turn is not None
    assert drawn.verdict.turn is not None
    assert odd.verdict.turn.needed == pytest.approx(drawn.verdict.turn.needed, abs=3e-6)
    moved = odd.stages["contact"].end_play - drawn.stages["contact"].end_play
    assert touching_end_play(pair_of(with_oversize(scenario, oversize))) == pytest.approx(moved, abs=1e-6)
