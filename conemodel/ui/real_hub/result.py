"""What the readings of a real hub tell, largest first; kept under a name, and over weeks beside practice."""

from functools import partial

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.base.plain_text import for_html, for_page
from conemodel.base.table import csv_text
from conemodel.parts.real_hub import RealHubReadings
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import write_part
from conemodel.record.database import Database
from conemodel.record.hand_sittings import sittings
from conemodel.record.real_hubs import KeptHub, delete_real_hubs, keep_real_hub, real_hubs
from conemodel.show.real_hub.chart import alt_text_of_real_hub, real_hub_svg
from conemodel.show.real_hub.over_weeks import NOT_ALIKE, PRACTICE, REAL, Once, list_over_weeks
from conemodel.show.real_hub.text import list_readings, list_told, real_hub_json
from conemodel.show.real_hub.wording import (
    COUNTS_AS,
    ONLY_REAL,
    TRUTH,
    headline_words,
    lock_words,
    misfit_words,
)
from conemodel.tasks.hand.kinds import KINDS
from conemodel.tasks.real_hub.fit import Fitted
from conemodel.tasks.real_hub.lock_at import lock_at
from conemodel.tasks.real_hub.told import what_is_told
from conemodel.ui.cache import cached_real_hub
from conemodel.ui.files import offer_file, say_problems
from conemodel.ui.frame import table
from conemodel.ui.picture import draw_by_width

NOT_KEPT = "real_hub_not_kept"
"""Where the reason stands why something could not be kept, until it is said."""


def show_result(found: RealHubReadings, hub: Scenario) -> None:
    """Draw what readings, at least one, say of a hub and a hand."""
    fitted = cached_real_hub(hub, found)
    told = what_is_told(fitted)
    state, below = headline_words(told["felt_play"], fitted)
    st.html(
        f'<p class="cm-verdict"><span class="cm-state">{for_html(state)}</span>'
        f'<span class="cm-sure">{for_html(below)}</span></p>'
    )
    if words := misfit_words(fitted):
        st.warning(for_page(words))
    if words := lock_words(lock_at(fitted)):
        st.markdown(for_page(words))
    st.caption(f"{TRUTH} {ONLY_REAL}")
    with st.container(key="cm-lines"):
        draw_by_width("real_hub", partial(real_hub_svg, fitted), alt=alt_text_of_real_hub(fitted))
    st.caption(COUNTS_AS)
    table(list_told(told))
    with st.expander("Every reading beside the model"):
        table(list_readings(fitted))
    _offer(found, fitted)


def _offer(found: RealHubReadings, fitted: Fitted) -> None:
    with st.container(horizontal=True):
        offer_file("Readings (TOML)", "real-hub.toml", lambda: write_part(found))
        offer_file("Result (JSON)", "real-hub.json", lambda: real_hub_json(found, fitted))


def offer_keeping(found: RealHubReadings, hub: Scenario, name: str) -> None:
    """Draw the button that keeps a go, and say what could not be kept."""
    if problem := st.session_state.pop(NOT_KEPT, None):
        say_problems("That could not be kept. What you entered is still there.", problem)
    if not name:
        st.caption("With your name it can be kept and set beside practice over weeks.")
        return
    st.button("Keep it under my name", type="primary", on_click=_keep, args=(found, hub, name))


def _keep(found: RealHubReadings, hub: Scenario, name: str) -> None:
    try:
        keep_real_hub(found, hub, Database(), name=name)
        st.toast("Kept.")
    except ConemodelError as error:
        st.session_state[NOT_KEPT] = error


def show_over_weeks(name: str) -> None:
    """Draw everything kept under a name, on real hubs and in practice.

    Raises:
        RecordError: the record could not be read.
    """
    kept = real_hubs(name, Database())
    practised = [one for one in sittings(name, KINDS["play"], Database()) if one.finished]
    if not kept and not practised:
        return
    st.header("Over weeks", anchor=False)
    st.caption(NOT_ALIKE)
    goes = [_once(one) for one in kept]
    for sitting in practised:
        threshold = sitting.estimate.threshold.through(sitting.kind.size)
        goes.append(Once(made_at=sitting.begun_at, where=PRACTICE, threshold=threshold))
    listed = list_over_weeks(goes)
    table(listed)
    offer_file("All of it (CSV)", "real-hubs.csv", csv_text(listed))
    if kept:
        with st.popover("Delete the real hubs"):
            st.markdown("Every real hub kept under this name is deleted for good. Practice stays.")
            st.button("Delete", on_click=_delete, args=(name,))


def _once(kept: KeptHub) -> Once:
    """Return what a go found, with what its readings tell only."""
    fitted = cached_real_hub(kept.hub, kept.readings)
    told = {} if fitted.clash else what_is_told(fitted)
    known = {name: one.now for name, one in told.items() if one.told}
    return Once(
        made_at=kept.made_at,
        where=REAL,
        hub=kept.hub.name.partition(",")[0],
        threshold=known.get("felt_play"),
        slack=known.get("slack"),
        clamp_give=known.get("clamp_give"),
    )


def _delete(name: str) -> None:
    try:
        st.toast(f"{delete_real_hubs(name, Database())} real hubs deleted.")
    except ConemodelError as error:
        st.session_state[NOT_KEPT] = error


def show_problems(error: InputProblems) -> None:
    """Show every mistake in what was entered, all at once."""
    with st.container(border=True):
        st.subheader("These numbers are not possible", anchor=False)
        st.markdown("What you entered is still there. To put right:")
        for problem in error.problems:
            st.error(for_page(str(problem)))
