"""My hand: pairs of hubs to be felt, the difference following the answers; then threshold and bias, over time."""

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.plain_text import for_page
from conemodel.show.hand.wording import usual_words
from conemodel.tasks.hand.kinds import KINDS, Kind
from conemodel.tasks.hand.procedure import PAIRS
from conemodel.ui.files import say_problems
from conemodel.ui.frame import begin_page, end_page
from conemodel.ui.hand.pairs import ask_pairs, minutes_for
from conemodel.ui.hand.result import show_history, show_result
from conemodel.ui.hand.session import PROBLEM, begin, begin_under, kept_here, leave, left_here, under_way
from conemodel.ui.url_state import choice
from conemodel.ui.visit import NAME, recall_name

PARTS = {"play": "Play", "tightness": "Tightness"}

LEAD = "How small a difference do you tell, and do you lean to one side?"

WHAT_IT_IS = f"""
Two hubs at a time, {PAIRS} times, some {minutes_for(PAIRS)} minutes. Feel both and say which has more. The difference
follows your answers: it shrinks until you can just tell, and stays there. Nothing tells you whether you were right
until the end.
Every answer is kept at once: break off at any pair, and go on from there later.
"""

NAMELESS = (
    "Break off whenever you like: every answer is kept, without a name; this page's address leads back to it."
)

NAMED = "Break off whenever you like: every answer is kept under {}, and goes on from there."

STYLE = """
<style>
.st-key-cm-take > *, .st-key-cm-answer > * {flex: 1 1 0; min-width: 0}
.st-key-cm-hand h2 {padding: 0.2rem 0}
</style>
"""


def page() -> None:
    """Draw the page."""
    recall_name()
    head, part = st.container(), st.container()
    with part:
        kind = KINDS[_choose_kind()]
    try:
        sitting = under_way(kind)
        with head:  # while hubs are felt, all room is theirs
            begin_page("My hand", "" if sitting and not sitting.finished else LEAD)
            st.html(STYLE)
        if problem := st.session_state.pop(PROBLEM, None):
            say_problems("That could not be kept. What was answered before stands; try again.", problem)
        if sitting is None:
            _offer(kind)
        elif sitting.finished:
            show_result(sitting)
            _draw_ways_on(kind, sitting.name)
        else:
            ask_pairs(sitting.id)
            st.caption(for_page(NAMED.format(sitting.name)) if sitting.name else NAMELESS)
            _draw_leave()
        _say_waiting(kind)
    except ConemodelError as error:
        say_problems("No hand can be measured just now. Nothing that was answered is lost.", error)
    end_page()


def _choose_kind() -> str:
    return choice(
        st.segmented_control,
        "What to measure",
        PARTS,
        key="measure",
        default="play",
        required=True,
        label_visibility="collapsed",
    )


def _offer(kind: Kind) -> None:
    """Draw what it is, and the way in; what whoever is here found before stands below."""
    st.markdown(WHAT_IT_IS)
    st.caption(usual_words(kind))
    with st.container(horizontal=True, vertical_alignment="bottom"):
        st.text_input("Your name, or none", key=NAME, max_chars=60, persist_state="session", width=320)
        st.button("Begin", type="primary", on_click=begin, args=(kind,))
    if pages := st.session_state.get("pages"):
        st.page_link(pages["real-hub"], label="Your hand on a real hub", width="content")
    if done := [one for one in kept_here(kind) if one.finished]:
        show_history(done)


def _say_waiting(now: Kind) -> None:
    """Say what was broken off to measure something else: nothing of it is lost."""
    for kind in KINDS.values():
        if kind != now and (left := left_here(kind)):
            st.caption(
                f"**{PARTS[kind.name]}** waits at pair {len(left.answers) + 1} of {PAIRS}; nothing of it is lost. "
                "Choose it above to go on."
            )


def _draw_ways_on(kind: Kind, name: str | None) -> None:
    with st.container(horizontal=True):
        st.button("Measure it again", on_click=begin_under, args=(kind, name))
        _draw_leave()


def _draw_leave() -> None:
    st.button("Another person", on_click=leave, help="What was answered stays, and can be gone on with.")
