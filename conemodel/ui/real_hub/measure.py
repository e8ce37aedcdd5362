"""Measure a hub: plays read at pen marks, one after the other as the program asks, until the turn is sure enough."""

from functools import partial

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.base.plain_text import for_html, for_page
from conemodel.parts.known_doubts import doubts_of
from conemodel.parts.measured_hub import MeasuredHub
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import read_part, write_part
from conemodel.show.real_hub.chart import alt_text_of_real_hub, real_hub_svg
from conemodel.show.real_hub.measured_text import list_known, measured_json
from conemodel.show.real_hub.measured_wording import (
    headline_words,
    next_words,
    reached_words,
    stands_words,
    worn_words,
)
from conemodel.show.real_hub.misfit_words import misfit_words
from conemodel.show.real_hub.text import list_readings
from conemodel.show.real_hub.wording import TRUTH
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.real_hub.next_reading import Measuring
from conemodel.tasks.real_hub.reached import Reached, Unmeasured, reached
from conemodel.tasks.real_hub.taken_over import measured_scenario
from conemodel.ui.cache import cached_measuring
from conemodel.ui.choose_hub import choose_hub
from conemodel.ui.files import YOURS, ask_file, offer_file
from conemodel.ui.frame import begin_page, end_page, say_no_answer, table
from conemodel.ui.own_hub import take_own_hub
from conemodel.ui.picture import draw_by_width
from conemodel.ui.real_hub.next_entry import MEASURED, ask_how_read, ask_next, clear, found_so_far, take_back
from conemodel.ui.real_hub.to_card import card_measured, offer_card, offer_set_aside

DESCRIBED = "measured_as_described"
"""Where the measured hub that was taken over stands beside the same as it was described."""

LEAD = "Read the play at a pen mark: locknut loose, locked, clamped. It says the turn for this hub, and when to stop."

STYLE = """
<style>
.st-key-cm-measure [data-testid=stNumberInputContainer] {height: 56px}
.st-key-cm-measure [data-testid=stNumberInputContainer] input {font-size: var(--cm-value)}
.st-key-cm-measure [data-testid=stNumberInputContainer] button {width: 52px; min-width: 52px; height: 54px}
.st-key-cm-measure .stButton button, .st-key-cm-measure [data-testid=stPopoverButton] {min-height: 52px}
.st-key-cm-measure [data-testid=stButtonGroup] button,
.st-key-cm-measure [data-testid=stPageLink] a {min-height: 48px}
.st-key-cm-plays > * {flex: 1 1 40%; min-width: 9rem; width: auto}
.st-key-cm-lines {max-width: 640px}
@media (max-width: 1000px) {
  .st-key-cm-measure [data-testid=stHorizontalBlock]:has(> [data-testid=stColumn]) {flex-wrap: wrap}
  .st-key-cm-measure [data-testid=stColumn] {min-width: 100%}
}
</style>
"""


def page() -> None:
    """Draw the page."""
    begin_page("Measure a hub", LEAD)
    st.html(STYLE)
    with st.container(key="cm-measure"):
        asking, said = st.columns([5, 6], gap="large")
        with asking:
            card = card_measured(begun=bool(found_so_far().marks))
            hub = _as_described(choose_hub())
            found = ask_how_read(found_so_far())
            MEASURED.keep(chosen=bool(found.marks))
        try:
            measuring = cached_measuring(hub, found)
        except ConemodelError as error:
            say_no_answer(error, " for these readings")
            measuring = None
        with asking:
            if measuring is not None:
                _draw_headline(measuring)
                ask_next(measuring)
            _draw_undo(found)
        with said:
            if measuring is not None and measuring.fitted.readings:
                _draw_result(measuring, hub, card)
            st.caption(reached_words(*_reached(found)))
    end_page()


def _as_described(hub: Scenario) -> Scenario:
    """Return the hub as it was before it was measured: no reading may count twice."""
    taken, described = st.session_state.get(DESCRIBED, (None, None))
    return described if hub == taken else hub


def _reached(found: MeasuredHub) -> tuple[Reached, Unmeasured]:
    gauges, unmeasured = reached()
    return gauges[found.read_by], unmeasured


def _draw_headline(measuring: Measuring) -> None:
    """Draw the turn with its chance, and above all else what does not fit."""
    state, below = headline_words(measuring)
    st.html(
        f'<p class="cm-verdict"><span class="cm-state">{for_html(state)}</span>'
        f'<span class="cm-sure">{for_html(below)}</span></p>'
    )
    for words in (misfit_words(measuring), worn_words(measuring), *doubts_of(measuring.fitted.hub.scenario)):
        if words:
            st.warning(for_page(words))
    act, why = next_words(measuring)
    with st.container(border=True):
        st.markdown(f"**Next:** {for_page(act)}")
        st.caption(for_page(why))


def _draw_undo(found: MeasuredHub) -> None:
    with st.container(horizontal=True):
        st.button("Take back the last", on_click=take_back, disabled=not found.marks)
        with st.popover("Clear"):
            st.markdown("Every reading of this hub is cleared.")
            st.button("Clear all", on_click=clear)
        offer_set_aside()
    with st.expander("Bring readings as a file"):
        ask_file("Readings", _take, key="measured_file", refused="Not taken. The readings are as they were.")


def _take(sent: bytes) -> None:
    """Take the readings in a file just brought."""
    MEASURED.take(read_part(MeasuredHub, sent, name=YOURS))


def _draw_result(measuring: Measuring, hub: Scenario, card: Card | None) -> None:
    """Draw the lines and what is known, and hand it on."""
    if words := stands_words(measuring.turn):
        st.markdown(for_page(words))
    with st.container(key="cm-lines"):
        draw_by_width(
            "measured", partial(real_hub_svg, measuring.fitted), alt=alt_text_of_real_hub(measuring.fitted)
        )
    if not measuring.doubt:
        table(list_known(measuring))
        st.caption(TRUTH)
    with st.expander("Every reading beside the model"):
        table(list_readings(measuring.fitted))
    offer_card(measuring, card)
    with st.container(horizontal=True):
        if measuring.tells_slack:
            st.button("Take this hub to Set the cone and Check", on_click=_take_over, args=(measuring, hub))
        offer_file("Readings (TOML)", "measured-hub.toml", lambda: write_part(measuring.found))
        offer_file("Result (JSON)", "measured-hub.json", lambda: measured_json(measuring))


def _take_over(measuring: Measuring, hub: Scenario) -> None:
    """Choose the hub with slack and clamp as measured, on every page."""
    try:
        taken = measured_scenario(measuring, hub)
    except InputProblems as error:
        st.toast(f"Not taken over: {for_page(str(error))}")
        return
    take_own_hub(taken)
    st.session_state[DESCRIBED] = (taken, hub)
    st.toast("Taken over: your own hub, slack and clamp as measured.")
