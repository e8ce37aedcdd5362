"""The instrument alone on a page; the address says what of: ?hub=touring-rear&angle=90&stage=clamped&hide=good.

Several hubs stand in one address, `hub=road-front thru-axle`, and are shown one after the other.
"""

from typing import Any

import streamlit as st

from conemodel.base.units import DEG
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario
from conemodel.show.instrument.hub_json import hub_json
from conemodel.show.instrument.numbers import exact_json
from conemodel.tasks.setting.predict import predict
from conemodel.ui.widgets.instrument_mount import instrument

KEY = "hub in hand"
asked = st.query_params
st.set_page_config(layout="wide")
st.session_state.setdefault("angle", float(asked.get("angle", "90")))
st.session_state.setdefault("place", 0)


@st.cache_data
def read(name: str, side: str) -> Scenario:
    scenario = load_scenario(f"scenarios/{name}.toml")
    return scenario.replace(hub=scenario.hub.replace(adjustable_side=side)) if side else scenario


@st.cache_data
def whole(scenario: Scenario) -> dict[str, Any]:
    return hub_json(scenario)


def take() -> None:
    st.session_state.angle = st.session_state[KEY]["hand"]["angle"]


def undo() -> None:
    st.session_state.angle = 72.0


def go_on() -> None:
    st.session_state.place += 1


@st.fragment
def show() -> None:
    hub = read(asked.get("hub", "touring-rear").split()[st.session_state.place], asked.get("side", ""))
    scenario = hub.with_setting(back_off=DEG.to_si(st.session_state.angle))
    hidden = [each for each in asked.get("hide", "").split() if each]
    moved = instrument(
        key=KEY,
        data={**whole(hub), "exact": exact_json(predict(scenario))},
        stage=asked.get("stage", "clamped"),  # type: ignore[arg-type]
        hide=hidden,  # type: ignore[arg-type]
        on_change=take,
    )
    st.text(f"returned: {moved}")


show()
st.title("The instrument")
st.button("Undo", on_click=undo)
st.button("Next hub", on_click=go_on)
