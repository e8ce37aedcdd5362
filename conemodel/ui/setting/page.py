"""Set the cone: what a setting becomes, stage by stage, and the turn to make."""

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.base.plain_text import for_html
from conemodel.base.table import csv_text
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import write_part
from conemodel.show.headline import under_headline_html
from conemodel.show.instrument.pictures import stage_svg
from conemodel.show.setting.closing_gap_paint import closing_gap_svg
from conemodel.show.setting.cone_marks import NOW
from conemodel.show.setting.end_play_chart import now_rows
from conemodel.show.setting.prediction_json import prediction_json
from conemodel.show.setting.tables import list_stages, list_sweep
from conemodel.show.tables import table_html
from conemodel.show.waterfall.screen import where_the_play_went
from conemodel.tasks.setting.defects import defects_of
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.sweep import Sweep
from conemodel.ui.cache import (
    cached_prediction,
    cached_sweep,
    closing_gap_sheet,
    cone_dial,
    curves,
    picture,
    wall_chart,
)
from conemodel.ui.choose_hub import choose_hub, say_known
from conemodel.ui.files import Data, offer_files, say_problems
from conemodel.ui.frame import begin_page, chart, end_page, say_no_answer
from conemodel.ui.own_hub import say_lost_hub
from conemodel.ui.setting.controls import ask_by_numbers, start_setting
from conemodel.ui.setting.details import look_closer, show_defects
from conemodel.ui.setting.explanation import show_explanation
from conemodel.ui.setting.under_the_finger import show_under_the_finger


def page() -> None:
    """Draw the page."""
    begin_page("Set the cone")
    say_lost_hub()
    with st.container(horizontal=True, vertical_alignment="bottom", key="cm-settled"):
        hub = choose_hub()
    say_known(hub)
    start_setting(hub, st.session_state.hub)
    _setting(hub)
    end_page()


@st.fragment
def _setting(hub: Scenario) -> None:
    """Draw the hub under the finger and all about its setting; a gesture draws this again and nothing else."""
    shown = st.container()
    try:
        scenario = ask_by_numbers(hub)
        prediction, sweep = cached_prediction(scenario), cached_sweep(scenario)
    except InputProblems as error:
        with shown:
            say_problems("This setting is not possible. What you entered is still there.", error)
        return
    except ConemodelError as error:
        with shown:
            say_no_answer(error, " for this setting")
        return
    troubles = defects_of(scenario)
    with shown:
        show_under_the_finger(prediction)
        st.html(under_headline_html(prediction.verdict.headline))
        trouble = st.container() if troubles else None
    _details(prediction, sweep)
    look_closer(prediction)
    if trouble:
        with trouble:  # last, because a dented hub takes some tenths of a second
            show_defects(prediction, troubles)


def _details(prediction: Prediction, sweep: Sweep) -> None:
    """Draw everything else a prediction has to say."""
    with st.container(horizontal=True, gap="large", key="cm-pair"):
        st.html(where_the_play_went(prediction))
        spec, words = curves(prediction.scenario)
        chart(spec, key="curves", alt=words, moving={NOW: now_rows(sweep, prediction)})
    st.html(table_html(list_stages(prediction)) + _notes(prediction))
    show_explanation(prediction)
    _downloads(prediction, sweep)


def _notes(prediction: Prediction) -> str:
    """Return what else should be known."""
    notes = "".join(f"<li>{for_html(note)}</li>" for note in prediction.verdict.notes)
    return f"<h2>Know this too</h2><ul>{notes}</ul>" if notes else ""


def _downloads(prediction: Prediction, sweep: Sweep) -> None:
    """Offer everything shown as files."""
    scenario = prediction.scenario
    files: dict[str, tuple[str, Data]] = {
        "Numbers (JSON)": ("prediction.json", lambda: prediction_json(prediction)),
        "Curves (CSV)": ("cone-position.csv", lambda: csv_text(list_sweep(sweep))),
        "Picture (PNG)": ("set-the-cone.png", lambda: picture(scenario, "png")),
        "The closing gap (PDF)": ("closing-gap.pdf", lambda: closing_gap_sheet(scenario)),
        "The closing gap (SVG)": ("closing-gap.svg", lambda: closing_gap_svg(prediction)),
        "The bearing, clamped (SVG)": ("bearing.svg", lambda: stage_svg(prediction, stage="clamped")),
        "Sheet (PDF)": ("set-the-cone.pdf", lambda: picture(scenario, "pdf")),
        "Cone dial, A4 (PDF)": ("cone-dial-a4.pdf", lambda: cone_dial(scenario, "A4")),
        "Cone dial, Letter (PDF)": ("cone-dial-letter.pdf", lambda: cone_dial(scenario, "Letter")),
        "Wall chart, A3 (PDF)": ("wall-chart.pdf", lambda: wall_chart(scenario)),
        "This hub (TOML)": ("hub.toml", lambda: write_part(scenario.with_ranges())),
    }
    offer_files("The address of this page holds the setting: send it as a link.", files, key="take")
