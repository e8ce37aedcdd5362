"""The instrument on the page Set the cone: the hub under the finger, where it was left, and the way back."""

from collections.abc import Mapping
from functools import partial
from hashlib import sha256
from typing import Any

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.units import DEG
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import write_part
from conemodel.show.instrument.numbers import exact_json, glance_json
from conemodel.solve.stages.terms import STAGES
from conemodel.tasks.setting.glance import glance_at
from conemodel.tasks.setting.predict import Prediction
from conemodel.ui.cache import hub_of_instrument
from conemodel.ui.setting.controls import nearest_turn, turn_to
from conemodel.ui.url_state import keep
from conemodel.ui.widgets.instrument_ahead import answer_ahead
from conemodel.ui.widgets.instrument_mount import Stage, instrument, take_hand

KEY = "instrument"

LAST_ACT: Stage = "clamped"
"""The act the hub is shown after at first."""

ABOVE, UNDER = 134, 0
"""Height of what stands above the instrument on the page, and of what stays at the top of the window [px]."""


def show_under_the_finger(prediction: Prediction) -> None:
    """Draw the hub as it was left, to be turned, locked and clamped by hand."""
    scenario = prediction.scenario
    instrument(
        key=KEY,
        data={**hub_of_instrument(scenario), "exact": exact_json(prediction), "ask": ask_at(scenario)},
        stage=_last_act(),
        above=ABOVE,
        under=UNDER,
        on_change=_take,
    )


def ask_at(scenario: Scenario) -> str:
    """Return the address at which a hand on this hub is answered; the same wherever its cone stands now."""
    hub = write_part(scenario.with_setting(back_off=0.0))
    return answer_ahead(sha256(hub.encode()).hexdigest(), partial(_exact_at, scenario))


def _exact_at(scenario: Scenario, angle: float) -> Mapping[str, Any] | None:
    """Return what is said of a hub where a hand has left its cone [°], None where the model finds no answer."""
    try:
        return glance_json(glance_at(scenario.with_setting(back_off=DEG.to_si(nearest_turn(angle)))))
    except ConemodelError:
        return None  # the page says so in its place


def _take() -> None:
    """Take over where a hand left the cone, and which act it did last."""
    stage, angles = take_hand(KEY)
    st.session_state.stage = stage
    keep("stage", stage, LAST_ACT)
    for angle in angles:  # each a turn of its own, however few messages they came in
        turn_to(angle)


def _last_act() -> Stage:
    """Return the act the page was left at, or its address asks for."""
    asked = st.session_state.setdefault("stage", st.query_params.get("stage", LAST_ACT))
    return asked if asked in STAGES else LAST_ACT
