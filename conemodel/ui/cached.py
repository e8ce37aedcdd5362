"""Calls whose answers are kept between runs, keyed by the frozen parts they depend on."""

from collections.abc import Callable
from typing import Any

import streamlit as st

from conemodel.parts.files import write_part
from conemodel.parts.scenario import Scenario
from conemodel.tasks.predict import Prediction, predict
from conemodel.tasks.study import Sweep, sweep

_BY_TEXT: dict[str | type[Any], Callable[[Any], Any]] = {Scenario: write_part}


@st.cache_resource(max_entries=256, show_spinner=False, hash_funcs=_BY_TEXT)
def predicted(scenario: Scenario) -> Prediction:
    """Return `predict` of a scenario; results are frozen, so one serves everybody."""
    return predict(scenario)


@st.cache_resource(max_entries=64, show_spinner=False, hash_funcs=_BY_TEXT)
def _swept(scenario: Scenario) -> Sweep:
    return sweep(scenario)


def swept(scenario: Scenario) -> Sweep:
    """Return the sweep of a scenario; it is the same wherever the cone stands now."""
    return _swept(scenario.with_setting(back_off=0.0))


@st.cache_data(max_entries=16, show_spinner=False, hash_funcs=_BY_TEXT)
def picture(scenario: Scenario, kind: str) -> bytes:
    """Return prediction and sweep of a scenario as a file, `kind` png or pdf."""
    from conemodel.show.drawings import (
        prediction_figure,
        to_pdf,
        to_png,
    )  # brings matplotlib: only when asked

    figure = prediction_figure(predicted(scenario), swept(scenario))
    return to_png(figure) if kind == "png" else to_pdf(figure)
