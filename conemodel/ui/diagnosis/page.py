"""Check a hub: from what a mechanic can measure or feel to what to do."""

import streamlit as st
from streamlit.delta_generator import DeltaGenerator

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.base.plain_text import for_page
from conemodel.base.table import csv_text
from conemodel.parts.readings import Readings
from conemodel.parts.toml_files import read_part, write_part
from conemodel.show.diagnosis.field_names import label_of
from conemodel.show.diagnosis.tables import list_spread
from conemodel.show.diagnosis.text import check_json, check_text
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from conemodel.ui.cache import cached_diagnosis
from conemodel.ui.diagnosis.address import keep_in_address, take_address
from conemodel.ui.diagnosis.entries import (
    NOT_LOOKED,
    QUICK,
    forget,
    keep,
    read,
    readings_of,
    widget,
)
from conemodel.ui.diagnosis.own_hand import ask_own_hand
from conemodel.ui.diagnosis.questions import ask_confounders, ask_hub, ask_more, ask_quick, take_own_hub
from conemodel.ui.diagnosis.result import show_answer, show_details
from conemodel.ui.diagnosis.rounds import ask_round
from conemodel.ui.files import YOURS, Data, ask_file, offer_file, offer_files
from conemodel.ui.frame import begin_page, end_page, say_no_answer

STYLE = """
<style>
.cm-big {display: flex; flex-wrap: wrap; gap: 0.2rem 2.2rem; margin: 0.4rem 0 0}
.cm-big b {display: block; font-size: var(--cm-value); line-height: 1.2}
[data-testid=stButtonGroup] button {min-height: 48px; min-width: 48px}
.stButtonGroup > label {margin: 0; min-height: 0}
@media (max-width: 640px) and (min-height: 700px) {
  .cm-verdict {position: fixed; inset: auto 0 0; z-index: 5; padding: 0.4rem 1rem; pointer-events: none}
  .cm-verdict, .cm-stop {background: var(--cm-paper); border-top: 3px solid; margin: 0}
  .cm-verdict .cm-state {font-size: var(--cm-value)}
  [data-testid=stMainBlockContainer] {padding-bottom: 12rem}
}
.cm-next {border-left: 4px solid; padding: 0.2rem 0 0.2rem 0.8rem; margin: 0.6rem 0 0}
</style>
"""


def page() -> None:
    """Draw the page."""
    begin_page(
        "Check a hub",
        "Three answers give a first result. Anything you measure makes it surer. Skip what you like.",
    )
    st.html(STYLE)
    take_address()
    take_own_hub()
    # on a phone the four places stand one below the other in this order
    (asking, said), (more, rest) = (st.columns([2, 3], gap="large") for _ in range(2))
    with asking:
        quick = ask_quick()
        with st.expander("Rule these out first: what else could rock?"):
            quick |= ask_confounders()
        beliefs = ask_own_hand()
    rounds = more.container()
    with more:
        ask_more()
        hub = ask_hub()
        _files()
    left_out = keep_in_address()
    with said:
        _show_damage()
    try:
        readings = readings_of(quick)
        if left_out:
            with more:
                _offer_left_out(readings, left_out)
        diagnosis = None if _is_blank(readings) else cached_diagnosis(readings, hub, beliefs)
    except InputProblems as error:
        with said:
            _show_problems(error)
        return end_page()
    except ConemodelError as error:
        with said:
            say_no_answer(error, " for these readings")
        return end_page()
    with said:
        show_answer(diagnosis)
    if diagnosis is not None:
        _show_result(diagnosis, rounds, rest)
    return end_page()


def _show_result(diagnosis: Diagnosis, rounds: DeltaGenerator, rest: DeltaGenerator) -> None:
    """Draw the result, its details and the rounds that follow from it."""
    with rounds:
        ask_round(diagnosis)
    with rest:
        show_details(diagnosis)
        _offer_files(diagnosis)


def _is_blank(readings: Readings) -> bool:
    """Return whether nothing was measured, felt or looked at."""
    return readings.replace(name="", story="") == Readings(name="", story="")


def _show_problems(error: InputProblems) -> None:
    """Show every mistake in what was entered, all at once."""
    with st.container(border=True):
        st.subheader("These readings are not possible", anchor=False)
        st.markdown("What you entered is still there. To put right:")
        for problem in error.problems:
            st.error(for_page(str(problem)))


def _show_damage() -> None:
    """Say what of the address could not be read, until somebody has seen it."""
    problems = st.session_state.get("check_address_problems", ())
    if not problems:
        return
    with st.container(border=True):
        st.error("Part of this address could not be read. The answer rests on the rest.")
        st.markdown("\n".join(f"- {for_page(str(problem))}" for problem in problems))
        st.button("I have read this", on_click=_forget_damage, key="check_damage_seen")


def _forget_damage() -> None:
    st.session_state.check_address_problems = ()


def _offer_left_out(readings: Readings, left_out: tuple[str, ...]) -> None:
    """Say what the address has no room for, and offer all that is entered as a file."""
    st.warning(
        f"Too long for the address: {', '.join(map(label_of, left_out))}. A reload loses it, and a link does not carry "
        "it: keep the file, or say it in fewer words."
    )
    label, text = "Readings, all of them (TOML)", write_part(readings)
    offer_file(label, "readings.toml", text, width="stretch", key="check_left_out")


def _files() -> None:
    """Draw the upload of a file of readings, and the button that clears all entries."""
    folded, below = st.popover("Load readings, or start afresh", width="stretch"), st.container()
    with folded:
        keep("name", st.text_input("What to call this hub", key=widget("name"), placeholder="A hub") or None)
        keep("story", st.text_area("What is the matter", key=widget("story")) or None)
        refused = "File not taken. What you entered is as it was."
        ask_file("Readings", _take, key="check_file", refused=refused, below=below)
        st.button("Clear everything", on_click=_clear, width="stretch")


def _take(sent: bytes) -> None:
    """Enter the readings in a file just brought."""
    read(read_part(Readings, sent, name=YOURS))


def _clear() -> None:
    """Clear all entries."""
    forget()
    _forget_damage()
    st.session_state.check_rounds = ()
    for name in QUICK.values():
        st.session_state[name] = NOT_LOOKED


def _offer_files(diagnosis: Diagnosis) -> None:
    """Offer everything shown as files."""
    files: dict[str, tuple[str, Data]] = {
        "Readings (TOML)": ("readings.toml", lambda: write_part(diagnosis.readings)),
        "Result (text)": ("check.txt", lambda: check_text(diagnosis)),
        "Sheet, A5 (PDF)": ("check.pdf", lambda: _sheet(diagnosis)),
        "Result (JSON)": ("check.json", lambda: check_json(diagnosis)),
        "Curves (CSV)": ("end-play.csv", lambda: csv_text(list_spread(diagnosis))),
    }
    lead = "The address of this page holds all that is entered: keep it, or send it as a link."
    offer_files(lead, files, key="check_take")


def _sheet(diagnosis: Diagnosis) -> bytes:
    """Return answer and readings on a sheet of A5, as PDF."""
    from conemodel.show.diagnosis.sheet import check_figure
    from conemodel.show.paper.files import to_pdf  # loads matplotlib, so only when needed

    return to_pdf(check_figure(diagnosis))
