"""What the widgets refuse to be given, and what they hand back to a page."""

from math import nan
from typing import Any

import pytest
import streamlit as st
from streamlit.testing.v1 import AppTest

from conemodel.base.errors import InputProblems
from conemodel.ui.widgets.contract_rock import RockCurve, RockHand
from conemodel.ui.widgets.contract_turning import SpinCurve, TurnResist
from conemodel.ui.widgets.contract_twirl import TwirlCurve, TwirlHand
from conemodel.ui.widgets.instrument_mount import take_hand


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: RockCurve(movement=[0, 1], force=[-1, 0, 1]), "one length"),
        (lambda: RockCurve(movement=[0, -1], force=[-1, 1]), "curve.movement: must not fall"),
        (lambda: RockCurve(movement=[0, 1, 2], force=[-1, -2, 1]), "curve.force: must not fall"),
        (lambda: RockCurve(movement=[0, 0, 1], force=[-1, -1, 1]), "curve: must rise"),
        (lambda: RockCurve(movement=[0, nan], force=[-1, 1]), "finite"),
        (lambda: RockCurve(movement=[0, 1], force=[0, 1]), "from below 0"),
        (lambda: RockHand(mass=0), "hand.mass"),
        (lambda: RockHand(muffle=1.5), "between 0 and 1"),
        (lambda: TwirlCurve(friction=[0.1, -0.1]), "curve.friction"),
        (lambda: TwirlCurve(friction=[]), "1 or more"),
        (lambda: TwirlHand(firm=0), "hand.firm"),
        (lambda: TurnResist(angle=[0, 1], effort=[0, 1]), "resist.effort"),
        (lambda: TurnResist(angle=[1, 0], effort=[1, 0]), "resist.angle"),
        (lambda: SpinCurve(speed=[1, 2], torque=[1, 1]), "must start at 0"),
        (lambda: SpinCurve(speed=[0, 2], torque=[0, 1]), "curve.torque"),
    ],
)
def test_a_curve_that_cannot_be_felt_is_refused(make, says):
    with pytest.raises(InputProblems, match=says):
        make()


def test_every_mistake_is_named_at_once():
    with pytest.raises(InputProblems) as caught:
        RockHand(mass=0, effort=-1, loudness=-1)
    assert len(caught.value.problems) == 3


def page():
    import streamlit as st

    from conemodel.ui.widgets.contract_twirl import TwirlCurve, TwirlFelt
    from conemodel.ui.widgets.mount import twirl_axle

    told = twirl_axle(
        key="axle",
        drawing={},
        curve=TwirlCurve(friction=[0.01]),
        felt=TwirlFelt(turning="Smooth.", let_go="It runs on."),
        set_id=2,
    )
    st.text(f"{told.sequence} {told.angle} {told.full_turn}" if told else "nothing yet")


def test_a_page_hears_nothing_before_the_first_gesture_and_then_the_last():
    app = AppTest.from_function(page)
    app.run()
    assert [text.value for text in app.text] == ["nothing yet"]
    hand = {"sequence": 4, "set_id": 2, "angle": -0.5, "turned": -0.8, "full_turn": True, "let_go": False}
    app.session_state["axle"] = {"hand": hand}
    app.run()
    assert [text.value for text in app.text] == ["4 -0.5 True"]


def test_of_turns_told_of_twice_each_is_heard_once_and_in_its_order(monkeypatch):
    state: dict[str, Any] = {}
    monkeypatch.setattr(st, "session_state", state)

    def tell(*turns: tuple[int, float]) -> tuple[str, list[float]]:
        told = [{"sequence": number, "angle": angle} for number, angle in turns]
        state["hub"] = {"hand": {"sequence": turns[-1][0], "stage": "locked", "turns": told}}
        return take_hand("hub")

    assert tell((1, 84.0)) == ("locked", [84.0])
    assert tell((1, 84.0), (2, 0.0), (3, 90.0)) == ("locked", [0.0, 90.0])
    assert tell((2, 0.0), (3, 90.0), (4, 90.0)) == ("locked", [90.0])
