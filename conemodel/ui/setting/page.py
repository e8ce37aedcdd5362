"""Set the cone: what a setting becomes, stage by stage, and the turn to make."""

from collections.abc import Mapping
from functools import partial

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.base.plain_text import for_html
from conemodel.base.table import csv_text
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import write_part
from conemodel.show.formatting import STAGE_WORDS
from conemodel.show.headline import STATE_SIGNS, headline_html
from conemodel.show.instrument.pictures import stage_svg
from conemodel.show.setting.cone_marks import NOW
from conemodel.show.setting.end_play_chart import now_rows
from conemodel.show.setting.prediction_json import prediction_json
from conemodel.show.setting.tables import list_stages, list_sweep
from conemodel.show.tables import table_html
from conemodel.show.waterfall.screen import where_the_play_went
from conemodel.tasks.setting.defects import defects_of
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.sweep import Sweep
from conemodel.ui.cache import cached_prediction, cached_sweep, curves, picture
from conemodel.ui.choose_hub import choose_hub
from conemodel.ui.files import Data, offer_files, say_problems
from conemodel.ui.frame import begin_page, chart, end_page
from conemodel.ui.own_hub import say_lost_hub
from conemodel.ui.picture import draw_by_width
from conemodel.ui.setting.controls import (
    ask_given,
    ask_setting,
    start_setting,
    turn_by,
    undo_turn,
)
from conemodel.ui.setting.details import look_closer, show_defects
from conemodel.ui.setting.explanation import show_explanation
from conemodel.ui.setting.unmeasured import ask_ranges
from conemodel.ui.url_state import choice


def page() -> None:
    """Draw the page."""
    begin_page("Set the cone", "Back the cone off, lock it, close the clamp: see what the setting becomes.")
    say_lost_hub()
    with st.container(horizontal=True, vertical_alignment="bottom", key="cm-settled"):
        hub = choose_hub()
        start_setting(hub, st.session_state.hub)
        given = ask_given(hub)
        hub = ask_ranges(hub)
    _setting(hub, given)
    end_page()


@st.fragment
def _setting(hub: Scenario, given: Mapping[str, str]) -> None:
    """Draw the cone's turn and what it becomes; a turn draws this again and nothing else of the page."""
    turning, answer = st.columns([1, 2], gap="large")
    try:
        with turning:
            scenario = ask_setting(hub, given)
        prediction, sweep = cached_prediction(scenario), cached_sweep(scenario)
    except InputProblems as error:
        say_problems("This setting cannot be. What you entered is still there.", error)
        return
    except ConemodelError as error:
        st.error(f"The model found no answer for this setting: {error}. Your entries are as they were.")
        return
    troubles = defects_of(scenario)
    with answer:
        _verdict(prediction)
        trouble = st.container() if troubles else None
        _section(prediction)
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


def _verdict(prediction: Prediction) -> None:
    """Draw the headline so large that it can be read at arm's length, and the turn to make."""
    verdict = prediction.verdict
    with st.container(border=True, horizontal=True, key="cm-answer"):
        st.html(headline_html(verdict.headline, sign=STATE_SIGNS[verdict.named]))
        turn = verdict.turn_to_make
        st.button(
            "Make that turn",
            disabled=turn is None,
            on_click=turn_by,
            args=(turn.angle if turn else 0.0,),
            width="stretch",
            help="Turns the cone as advised and locks it again the same way.",
        )
        st.button(
            "Undo the last turn",
            disabled=not st.session_state.get("turns_made"),
            on_click=undo_turn,
            shortcut="Ctrl+Z",
            width="stretch",
        )


def _section(prediction: Prediction) -> None:
    """Draw the hub in section at one of its stages."""
    shown = choice(
        st.segmented_control, "The hub in section", STAGE_WORDS, key="stage", default="clamped", required=True
    )
    draw = partial(stage_svg, prediction, stage=shown)
    draw_by_width("section", draw, alt=f"The hub in section, {STAGE_WORDS[shown].lower()}")


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
        "Sheet (PDF)": ("set-the-cone.pdf", lambda: picture(scenario, "pdf")),
        "This hub (TOML)": ("hub.toml", lambda: write_part(scenario.with_ranges())),
    }
    offer_files("The address of this page holds the setting: send it as a link.", files, key="take")
