"""The instrument on the page Set the cone: the hub under the finger, where it was left, and the way back."""

from time import sleep

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.units import DEG
from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.numbers import exact_json
from conemodel.solve.stages.terms import STAGES
from conemodel.tasks.setting.predict import Prediction
from conemodel.ui.cache import cached_prediction, hub_of_instrument
from conemodel.ui.setting.controls import turn_to
from conemodel.ui.url_state import keep
from conemodel.ui.widgets.instrument_mount import Stage, instrument

KEY = "instrument"

ASKED, LET_GO = "asked", "let_go"
"""The setting that the page showed last, and whether a hand has let go of the cone since."""

HEAD_START = 0.1
"""How long the browser has to show what the hand waits for before all else is sent [s]."""

LAST_ACT: Stage = "clamped"
"""The act the hub is shown after at first."""

ABOVE, UNDER = 134, 0
"""Height of what stands above the instrument on the page, and of what stays at the top of the window [px]."""


def answer_the_hand() -> Scenario | None:
    """Where a hand has just let go of the cone draw the hub before all else; return the setting drawn, if so.

    All but the cone's turn is taken as it was when the page was last drawn.
    """
    asked: Scenario | None = st.session_state.get(ASKED)
    turn: float | None = st.session_state.get("turn")  # gone where another hub was chosen in the same moment
    if not st.session_state.pop(LET_GO, False) or asked is None or turn is None:
        return None
    try:
        prediction = cached_prediction(asked.with_setting(back_off=DEG.to_si(turn)))
    except ConemodelError:
        return None  # the page says so in its place
    _draw(prediction)
    sleep(HEAD_START)
    return prediction.scenario


def show_under_the_finger(prediction: Prediction, drawn: Scenario | None) -> None:
    """Draw the hub as it was left, to be turned, locked and clamped by hand, unless that is how it was `drawn`."""
    st.session_state[ASKED] = prediction.scenario
    if drawn is None:
        _draw(prediction)
    elif drawn != prediction.scenario:
        st.rerun()  # something else was changed in the same moment


def _draw(prediction: Prediction) -> None:
    scenario = prediction.scenario
    instrument(
        key=KEY,
        data={**hub_of_instrument(scenario), "exact": exact_json(prediction)},
        stage=_last_act(),
        above=ABOVE,
        under=UNDER,
        on_change=_take,
    )


def _take() -> None:
    """Take over where a hand left the cone, and which act it did last."""
    hand = st.session_state[KEY]["hand"]
    st.session_state.stage = hand["stage"]
    keep("stage", hand["stage"], LAST_ACT)
    turn_to(hand["angle"])
    st.session_state[LET_GO] = True


def _last_act() -> Stage:
    """Return the act the page was left at, or its address asks for."""
    asked = st.session_state.setdefault("stage", st.query_params.get("stage", LAST_ACT))
    return asked if asked in STAGES else LAST_ACT
