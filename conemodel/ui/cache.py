"""Cached calls: results kept between runs of a page, keyed by the frozen parts they depend on."""

from collections.abc import Callable, Mapping
from typing import Any

import streamlit as st

from conemodel.parts.measured_hub import MeasuredHub
from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Readings
from conemodel.parts.real_hub import RealHubReadings
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import write_part
from conemodel.show.charts.vega_lite import Spec
from conemodel.show.instrument.hub_json import hub_json
from conemodel.show.setting.end_play_chart import against_cone_position, alt_text_against_cone_position
from conemodel.solve.wheel.coasting import Coast
from conemodel.tasks.bearing.ball_loads import Loads, loads_of
from conemodel.tasks.bearing.feel_when_turned import Signature, signature
from conemodel.tasks.bearing.load_cases import SIDE_SHARE, Case
from conemodel.tasks.bearing.race_sweep import RacesSweep, sweep_races
from conemodel.tasks.bearing.rocking import Rocking, bench_and_frame
from conemodel.tasks.bearing.spin_down import spin_down
from conemodel.tasks.diagnosis.diagnose import Diagnosis, diagnose
from conemodel.tasks.job_card.advice import advise_first
from conemodel.tasks.job_card.turn_left import TurnAdvice
from conemodel.tasks.real_hub.fit import Fitted, fit_real_hub
from conemodel.tasks.real_hub.next_reading import Measuring, measure_hub
from conemodel.tasks.real_hub.readings import readings_in
from conemodel.tasks.setting.predict import Prediction, predict
from conemodel.tasks.setting.sweep import Sweep, sweep

_BY_TEXT: dict[str | type[Any], Callable[[Any], Any]] = {
    Scenario: write_part,
    Readings: write_part,
    RealHubReadings: write_part,
    MeasuredHub: write_part,
    Beliefs: write_part,
}


@st.cache_resource(max_entries=256, show_spinner=False, hash_funcs=_BY_TEXT)
def cached_prediction(scenario: Scenario) -> Prediction:
    """Return `predict` of a scenario; results are frozen, so one serves everybody."""
    return predict(scenario)


@st.cache_resource(max_entries=64, show_spinner=False, hash_funcs=_BY_TEXT)
def _swept(scenario: Scenario) -> Sweep:
    return sweep(scenario)


def cached_sweep(scenario: Scenario) -> Sweep:
    """Return the sweep of a scenario; it is the same wherever the cone stands now."""
    return _swept(scenario.with_setting(back_off=0.0))


@st.cache_resource(max_entries=64, show_spinner=False, hash_funcs=_BY_TEXT)
def _curves(scenario: Scenario) -> tuple[Spec, str]:
    sweep, prediction = _swept(scenario), cached_prediction(scenario)
    return against_cone_position(sweep, prediction), alt_text_against_cone_position(sweep, prediction)


def curves(scenario: Scenario) -> tuple[Spec, str]:
    """Return the chart over the cone's position and its words; both are the same wherever the cone stands now."""
    return _curves(scenario.with_setting(back_off=0.0))


@st.cache_resource(max_entries=64, show_spinner=False, hash_funcs=_BY_TEXT)
def _hub_of_instrument(scenario: Scenario) -> Mapping[str, Any]:
    return hub_json(scenario)


def hub_of_instrument(scenario: Scenario) -> Mapping[str, Any]:
    """Return what a browser needs to move a hub; it is the same wherever the cone stands now."""
    return _hub_of_instrument(scenario.with_setting(back_off=0.0))


@st.cache_data(max_entries=16, show_spinner=False, hash_funcs=_BY_TEXT)
def picture(scenario: Scenario, kind: str) -> bytes:
    """Return prediction and sweep of a scenario as a file, `kind` png or pdf."""
    from conemodel.show.paper.files import to_pdf, to_png
    from conemodel.show.setting.setting_sheet import (
        prediction_figure,  # loads matplotlib, so only when needed
    )

    figure = prediction_figure(cached_prediction(scenario), cached_sweep(scenario))
    return to_png(figure) if kind == "png" else to_pdf(figure)


@st.cache_data(max_entries=16, show_spinner=False, hash_funcs=_BY_TEXT)
def closing_gap_sheet(scenario: Scenario) -> bytes:
    """Return the closing gap of a scenario as PDF."""
    from conemodel.show.paper.files import to_pdf  # loads matplotlib, so only when needed
    from conemodel.show.setting.closing_gap_paint import closing_gap_figure

    return to_pdf(closing_gap_figure(cached_prediction(scenario)))


@st.cache_data(max_entries=16, show_spinner=False, hash_funcs=_BY_TEXT)
def cone_dial(scenario: Scenario, paper: str) -> bytes:
    """Return the dial for the axle of a scenario on a sheet called `paper`, as PDF."""
    from conemodel.show.paper.files import to_pdf
    from conemodel.show.setting.cone_dial import cone_dial_figure  # loads matplotlib, so only when needed

    return to_pdf(cone_dial_figure(scenario, paper=paper))


@st.cache_data(max_entries=16, show_spinner=False, hash_funcs=_BY_TEXT)
def wall_chart(scenario: Scenario) -> bytes:
    """Return the chart for the wall, how far the cone is backed off by clamp, as PDF on A3."""
    from conemodel.show.paper.files import to_pdf
    from conemodel.show.setting.wall_chart import wall_chart_figure  # loads matplotlib, so only when needed

    return to_pdf(wall_chart_figure(scenario))


@st.cache_resource(max_entries=64, show_spinner=False, hash_funcs=_BY_TEXT)
def _races(scenario: Scenario, side_share: float) -> RacesSweep:
    return sweep_races(scenario, side_share=side_share)


def cached_race_sweep(scenario: Scenario, *, side_share: float = SIDE_SHARE) -> RacesSweep:
    """Return the sweep of the races of a scenario; it is the same wherever the cone stands now."""
    return _races(scenario.with_setting(back_off=0.0), side_share)


@st.cache_resource(max_entries=128, show_spinner=False, hash_funcs=_BY_TEXT)
def cached_loads(scenario: Scenario, case: Case) -> Loads:
    """Return what the balls of a clamped hub carry under a case's load."""
    return loads_of(scenario, case)


@st.cache_resource(max_entries=64, show_spinner=False, hash_funcs=_BY_TEXT)
def cached_first_turn(hub: Scenario) -> TurnAdvice:
    """Return how far the cone of a hub is backed off first."""
    return advise_first(hub)


@st.cache_resource(max_entries=64, show_spinner="Turning the wheel …", hash_funcs=_BY_TEXT)
def cached_feel(scenario: Scenario, stage: str) -> Signature:
    """Return what a hand finds that turns the hub after a stage; dents take some tenths of a second."""
    return signature(scenario, stage=stage)


@st.cache_resource(max_entries=64, show_spinner=False, hash_funcs=_BY_TEXT)
def cached_spin_down(scenario: Scenario) -> Coast:
    """Return the clamped wheel spun hard by hand and let go."""
    return spin_down(scenario)


@st.cache_resource(max_entries=64, show_spinner=False, hash_funcs=_BY_TEXT)
def cached_rocking(scenario: Scenario) -> tuple[Rocking, Rocking]:
    """Return the rim rocked on the bench and in the frame."""
    return bench_and_frame(scenario)


@st.cache_resource(max_entries=128, show_spinner="Weighing what was found …", hash_funcs=_BY_TEXT)
def cached_diagnosis(readings: Readings, hub: Scenario | None, beliefs: Beliefs | None = None) -> Diagnosis:
    """Return what readings say about a hub, a usual one where it is None, with other `beliefs` than usual if given."""
    return diagnose(readings, hub, beliefs=beliefs)


@st.cache_resource(max_entries=128, show_spinner="Fitting your hub …", hash_funcs=_BY_TEXT)
def cached_real_hub(hub: Scenario, found: RealHubReadings) -> Fitted:
    """Return what was found on a real hub, fitted to a hub as described."""
    return fit_real_hub(hub, readings_in(found))


@st.cache_resource(max_entries=128, show_spinner="Fitting your hub …", hash_funcs=_BY_TEXT)
def cached_measuring(hub: Scenario, found: MeasuredHub) -> Measuring:
    """Return what was measured on a hub as described, and what to do next."""
    return measure_hub(hub, found)


@st.cache_data(max_entries=1, show_spinner=False)
def real_hub_page_to_print() -> bytes:
    """Return the page to take to a real hub, as PDF."""
    from conemodel.show.paper.files import to_pdf  # loads matplotlib, so only when needed
    from conemodel.show.real_hub.page_to_print import page_figure

    return to_pdf(page_figure())
