"""Job cards: a card for each hub in hand, and what all cards remember."""

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.plain_text import for_page
from conemodel.record.cards import begin_card
from conemodel.record.database import Database
from conemodel.ui.files import say_problems
from conemodel.ui.frame import begin_page, end_page
from conemodel.ui.job_card.in_hand import show_card
from conemodel.ui.job_card.keep_a_copy import keep_a_copy
from conemodel.ui.job_card.memory import STYLE, show_memory
from conemodel.ui.visit import CARD, ask_for_name

NOT_BEGUN = "job_card_not_begun"
"""Where the reason stands why no card could be begun, until it is said."""

LEAD = "What was found, done and measured on the hub in your hand. Every tap is kept at once, on this computer only."

WITH_NAME = "Stands beside each answer you give. This browser remembers it until it is emptied here."


def page() -> None:
    """Draw the page."""
    card_id = st.query_params.get(CARD)
    begin_page("Job cards", "" if card_id else LEAD)
    st.html(STYLE)
    try:
        if card_id:
            st.button("All cards", on_click=_put_down, icon=":material/arrow_back:", key="job_card_back")
            show_card(card_id)
        else:
            st.button("New card", on_click=_begin, type="primary", icon=":material/add:", key="job_card_new")
            if problem := st.session_state.pop(NOT_BEGUN, ""):
                say_problems("No card could be begun.", problem)
            show_memory(take_up)
            keep_a_copy()
        with st.expander("Who works here"):
            ask_for_name("Mechanic's name, or none", WITH_NAME, WITH_NAME)
    except ConemodelError as error:
        st.error(f"The record could not be read or written: {for_page(str(error))}")
    end_page()


def take_up(card_id: str) -> None:
    """Take a card in hand: its id stands in the address."""
    st.query_params[CARD] = card_id


def _put_down() -> None:
    st.query_params.pop(CARD, None)


def _begin() -> None:
    try:
        take_up(begin_card(Database()).id)
    except ConemodelError as error:
        st.session_state[NOT_BEGUN] = str(error)
