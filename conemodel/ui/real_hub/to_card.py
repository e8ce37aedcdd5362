"""A measured hub put on the job card in hand: the card that was opened last in this visit."""

import json

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.plain_text import for_page
from conemodel.parts.measured_hub import MeasuredHub
from conemodel.record.cards import answer, find_card
from conemodel.record.database import Database
from conemodel.show.real_hub.measured_wording import headline_words
from conemodel.tasks.job_card.advice import answers_of_measured
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.real_hub.next_reading import Measuring
from conemodel.tasks.real_hub.taken_over import measured_summary
from conemodel.ui.real_hub.next_entry import MEASURED, found_so_far
from conemodel.ui.visit import CARD_IN_HAND, typed_name

READ_FOR = "measured_for_card"
"""Where the id of the card stands for whose hub the readings are; none before a card asked for them."""

OF_OTHERS = "measured_of_cards"
"""Where readings wait that were taken for other cards, by the card's id."""


def read_for(card_id: str) -> None:
    """Measure the hub of a card: readings that were taken for another one wait for that one."""
    before = st.session_state.get(READ_FOR)
    if before not in (None, card_id):
        waiting: dict[str, MeasuredHub] = st.session_state.setdefault(OF_OTHERS, {})
        waiting[before] = found_so_far()
        MEASURED.take(waiting.get(card_id, MeasuredHub()))
    st.session_state[READ_FOR] = card_id


def offer_card(measuring: Measuring) -> None:
    """Draw the button that puts a measured hub on the card in hand, and once it stands there the way to it."""
    card_id = st.session_state.get(CARD_IN_HAND)
    if card_id is None or measuring.turn is None:
        return
    try:
        card = find_card(card_id, Database())
    except ConemodelError:  # deleted since, or the record cannot be read: nothing can be put there
        return
    which = (
        f"the card of tag {for_page(card.text('tag'))}" if card.answer("tag") else "the card without a tag"
    )
    if card.answer("measured") != _record(measuring):
        st.button(f"Put it on {which}", key="measured_to_card", on_click=_put, args=(card, measuring))
        return
    st.markdown(f"It stands on {which}.")
    if pages := st.session_state.get("pages"):
        st.page_link(pages["job-cards"], label=f"To {which}", query_params={"card": card.id})


def _put(card: Card, measuring: Measuring) -> None:
    try:
        advised = _advised(measuring)
        answer(card.id, answers_of_measured(card, _record(measuring), advised), Database(), by=typed_name())
    except ConemodelError as error:
        st.toast(f"Not put on the card: {for_page(str(error))}")


def _record(measuring: Measuring) -> str:
    return json.dumps(measured_summary(measuring), ensure_ascii=False)


def _advised(measuring: Measuring) -> str:
    """Return the turn advised in words, empty where none is to be made."""
    if measuring.turn is None or not measuring.turn.worth_making:
        return ""
    said, below = headline_words(measuring)
    return f"{said} from the pen line. {below}"
