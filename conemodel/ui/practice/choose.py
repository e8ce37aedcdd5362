"""Which exercise is on the bench: chosen, or named by a link, which holds no hidden number."""

from contextlib import suppress

import streamlit as st

from conemodel.base.plain_text import one_line
from conemodel.record.database import RecordError
from conemodel.tasks.practice.catalogue import ladder, ladder_titles
from conemodel.ui.practice.begin import (
    NOW_KEY,
    PROBLEM_KEY,
    SITTINGS_KEY,
    begin_another_hub,
    begin_from_address,
    begin_round,
    leave_bench,
    take_chosen,
    take_file,
    take_up_kept,
)
from conemodel.ui.practice.name import ask_name
from conemodel.ui.practice.session import Sitting
from conemodel.ui.practice.unfinished import offer_unfinished, say_how_often
from conemodel.ui.visit import recall_name, typed_name

ROUNDS = {True: "Training", False: "Assessed"}
"""The rounds of an exercise, by whether they are coached."""


def choose() -> Sitting | None:
    """Draw the chooser and return the exercise under way, None while none is chosen.

    Raises:
        ConemodelError: it cannot be opened.
    """
    state = st.session_state
    state.setdefault(SITTINGS_KEY, {})
    if NOW_KEY not in state:
        begin_from_address()
        recall_name()
    if NOW_KEY not in state:
        return None
    sitting: Sitting = state[SITTINGS_KEY][state[NOW_KEY]]
    names = exercise_titles()
    state.exercise = sitting.link.exercise
    st.selectbox(
        "Exercise",
        list(names),
        format_func=lambda name: names[name],
        key="exercise",
        on_change=take_chosen,
        label_visibility="collapsed",
    )
    _choose_round(sitting)
    with st.popover("Name, link", width="content"):
        _more(sitting)
    with suppress(RecordError):  # said where an act is to be kept
        sitting.keeping.call_it(typed_name())
        offer_unfinished(sitting.keeping, names, take_up_kept)
    say_problem()
    st.query_params["exercise"] = sitting.link.exercise
    st.query_params["link"] = sitting.link.code
    return sitting


def say_problem() -> None:
    """Say why what was asked for could not be used, if it could not."""
    if problem := st.session_state.get(PROBLEM_KEY):
        here = " Here is another hub." if NOW_KEY in st.session_state else ""
        st.warning(f"That could not be used.{here}")
        st.code(problem, language=None, wrap_lines=True)


def exercise_titles() -> dict[str, str]:
    """Return what every exercise that can be chosen is called, by its name."""
    titles = ladder_titles()
    for sitting in st.session_state[SITTINGS_KEY].values():
        if sitting.own is not None:
            titles[sitting.link.exercise] = f"Your own: {one_line(sitting.own.name)}"
    return titles


def _choose_round(sitting: Sitting) -> None:
    """Draw which round it is: coached, or assessed; the other one begins with a new hub."""
    file = sitting.own or ladder()[sitting.link.exercise]
    if not file.assessed:
        return
    key = f"{sitting.stand.name} round"

    def changed() -> None:
        if (wanted := st.session_state[key]) in ROUNDS and wanted != sitting.link.training:
            begin_round(sitting, training=wanted)

    st.session_state[key] = sitting.link.training
    st.segmented_control(
        "Round",
        list(ROUNDS),
        format_func=ROUNDS.__getitem__,
        key=key,
        on_change=changed,
        required=True,
        label_visibility="collapsed",
    )


def _more(sitting: Sitting) -> None:
    """Draw what is not needed at every turn."""
    ask_name()
    st.button("Start over, another hub", on_click=begin_another_hub, width="stretch")
    st.button("Today's plan", on_click=leave_bench, width="stretch")
    with suppress(RecordError):
        say_how_often(sitting.link.exercise)
    if pages := st.session_state.get("pages"):
        st.page_link(pages["progress"], label="Progress and classes", width="stretch")
        st.page_link(pages["my-hand"], label="My hand, measured", width="stretch")
    st.markdown(
        "**Send this hub as a link.** Everybody on this server gets the same hub. The link gives nothing away."
    )
    if sitting.own is not None:
        st.markdown("Send the exercise's file too: the link does not carry it.")
    st.caption(
        "The address above the page leads to your own bench, as it stands: keep it to go on elsewhere."
    )
    link = f"/practise?exercise={sitting.link.exercise}&link={sitting.link.code}"
    st.code(link, language=None, wrap_lines=True)
    bring_file()


def bring_file() -> None:
    """Draw the field for an exercise of one's own."""
    st.file_uploader(
        "An exercise of your own (TOML, up to 64 KB)",
        type=["toml"],
        key="exercise_file",
        on_change=take_file,
    )
