"""A measured hub put on a job card: the one it is measured for, else the one that was opened last in this visit."""

import json
from contextlib import suppress

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.base.plain_text import for_page
from conemodel.parts.measured_hub import MeasuredHub
from conemodel.parts.toml_files import read_part
from conemodel.record.cards import answer, begin_card, find_card
from conemodel.record.database import Database
from conemodel.tasks.job_card.advice import answers_of_measured
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.measured import readings_kept
from conemodel.tasks.real_hub.next_reading import Measuring
from conemodel.tasks.real_hub.taken_over import measured_summary
from conemodel.ui.real_hub.next_entry import MEASURED, found_so_far
from conemodel.ui.url_state import keep
from conemodel.ui.visit import CARD, CARD_IN_HAND, typed_name

READ_FOR = "measured_for_card"
"""Where the id of the card stands for whose hub the readings are; none before a card asked for them."""

OF_OTHERS = "measured_of_cards"
"""Where readings wait that were taken for other cards, by the card's id."""

NO_CARD = ""
"""Stands for the card's id where readings were taken for none."""


def read_for(card: Card) -> None:
    """Measure the hub of a card: readings that were taken for another one, or for none, wait for it.

    Those of this card go on from where they were left in this visit, else from what stands on it. Readings for no card
    are its own where it has none.
    """
    before, now, kept = st.session_state.get(READ_FOR, NO_CARD), found_so_far(), _kept_on(card)
    waiting: dict[str, MeasuredHub] = st.session_state.setdefault(OF_OTHERS, {})
    if before != card.id and now.marks and (before or kept.marks):
        waiting[before], now = now, MeasuredHub()
    if not now.marks:
        now = waiting.pop(card.id, kept)
    MEASURED.take(now if now.marks else kept)
    st.session_state[READ_FOR] = card.id


def _kept_on(card: Card) -> MeasuredHub:
    """Return the readings that stand on a card, none where there are none to go on from."""
    if text := readings_kept(card.text("measured")):
        with suppress(InputProblems):
            return read_part(MeasuredHub, text.encode(), name="the readings of this card")
    return MeasuredHub(read_by=found_so_far().read_by)


def offer_set_aside() -> None:
    """Draw the way back to readings for no card that wait while the hub of a card is measured."""
    if NO_CARD in st.session_state.get(OF_OTHERS, {}):
        st.button("Back to the readings without a card", on_click=_take_set_aside)


def _take_set_aside() -> None:
    waiting: dict[str, MeasuredHub] = st.session_state[OF_OTHERS]
    if READ_FOR in st.session_state:
        waiting[st.session_state[READ_FOR]] = found_so_far()
    for place in (READ_FOR, CARD_IN_HAND):
        st.session_state.pop(place, None)
    st.query_params.pop(CARD, None)
    MEASURED.take(waiting.pop(NO_CARD))


def card_measured(*, begun: bool) -> Card | None:
    """Name the card whose hub is measured and return it, None for none; the address keeps it through a reload.

    Readings that were `begun` stay with the card they were taken for, those to come are for the card in hand. One that
    is not to be had is said, and nothing else changes.
    """
    of_visit = (begun and st.session_state.get(READ_FOR)) or st.session_state.get(CARD_IN_HAND)
    wanted = of_visit or st.query_params.get(CARD)
    if not wanted:
        return None
    keep(CARD, wanted, "")
    try:
        card = find_card(wanted, Database())
    except ConemodelError as error:
        for place in (READ_FOR, CARD_IN_HAND):
            if st.session_state.get(place) == wanted:
                del st.session_state[place]
        st.warning(
            f"{for_page(str(error))} The readings stand: any card opened under Job cards can take them."
        )
        return None
    if not of_visit:
        st.session_state[CARD_IN_HAND] = card.id
    if not of_visit or not begun:
        st.session_state[READ_FOR] = card.id
    st.caption(f"For {_which(card)}.")
    return card


def offer_card(measuring: Measuring, card: Card | None) -> None:
    """Draw the button that puts a measured hub on a card, a new one for none, and once it is there the way to it."""
    if not measuring.tells_slack:
        return
    if card is None:
        st.button("New job card with this", key="measured_to_new", on_click=_begin_with, args=(measuring,))
        return
    which = _which(card)
    if card.answer("measured") != _record(measuring):
        st.button(f"Put it on {which}", key="measured_to_card", on_click=_put, args=(card, measuring))
        return
    st.markdown(f"It stands on {which}.")
    if pages := st.session_state.get("pages"):
        st.page_link(pages["job-cards"], label=f"To {which}", query_params={CARD: card.id})


def _which(card: Card) -> str:
    return f"the card of tag {for_page(card.text('tag'))}" if card.answer("tag") else "the card without a tag"


def _begin_with(measuring: Measuring) -> None:
    try:
        card = begin_card(Database())
    except ConemodelError as error:
        st.toast(f"No card could be begun: {for_page(str(error))}")
        return
    st.session_state[CARD_IN_HAND] = st.session_state[READ_FOR] = card.id
    _put(card, measuring)


def _put(card: Card, measuring: Measuring) -> None:
    try:
        answer(card.id, answers_of_measured(card, _record(measuring)), Database(), by=typed_name())
    except ConemodelError as error:
        st.toast(f"Not put on the card: {for_page(str(error))}")


def _record(measuring: Measuring) -> str:
    return json.dumps(measured_summary(measuring), ensure_ascii=False)
