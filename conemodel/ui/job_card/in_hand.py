"""One card in hand: each tap is in the record before anything else is done."""

from collections.abc import Mapping
from datetime import date
from functools import partial

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.base.plain_text import for_file_name, for_page
from conemodel.parts.scenario import Scenario
from conemodel.record.cards import NoCard, answer, find_card
from conemodel.record.database import Database
from conemodel.record.same_wheel import cards_known_alike
from conemodel.show.job_card.condition_pictures import condition_pictures
from conemodel.show.job_card.on_page import Beside, card_on_page
from conemodel.show.palette import tones
from conemodel.tasks.job_card.card import Card, Place, Value
from conemodel.tasks.job_card.this_wheel import last_of_wheel
from conemodel.ui.files import offer_file
from conemodel.ui.job_card.hub_in_hand import (
    advice_now,
    hub_as_measured,
    measure_hub_of,
    offered_besides,
)
from conemodel.ui.own_hub import take_own_hub
from conemodel.ui.visit import CARD_IN_HAND, typed_name
from conemodel.ui.widgets.job_card_mount import Tap, job_card, taps_of

REMEMBERED = 200
"""Taps whose ids are remembered, so that one that is sent twice is kept once."""

NOT_KEPT = "job_card_not_kept"
"""Where it stands that a tap came for a card that is no longer there, until it is said."""


TO_MEASURE = "job_card_to_measure"
"""Stands while the way to Measure a hub was asked for and not gone yet."""


@st.fragment
def show_card(card_id: str) -> None:
    """Draw a card; a tap draws nothing else again, so what goes wrong is said here: no page is there to catch it."""
    try:
        _draw(card_id)
    except NoCard as error:
        lost = " The last tap was not kept." if st.session_state.pop(NOT_KEPT, False) else ""
        st.error(f"{error}{lost}")
    except ConemodelError as error:
        st.error(f"The record could not be read or written: {for_page(str(error))}")


def _draw(card_id: str) -> None:
    """Draw a card.

    Raises:
        NoCard: it is not in the record.
        RecordError: the record could not be read.
    """
    card, key = find_card(card_id, Database()), f"job_card_{card_id}"
    st.session_state[CARD_IN_HAND] = card_id
    if st.session_state.pop(TO_MEASURE, False):
        measure_hub_of(card)
    beside = beside_of(card)
    job_card(
        key=key,
        data=card_on_page(card, beside),
        pictures=condition_pictures(tones(dark=st.context.theme.type == "dark")),
        kept=_done(),
        trouble=st.session_state.pop("job_card_trouble", ""),
        on_taps=partial(_take, card_id, key),
        on_measure=_go_to_measure,
    )
    words = "This card on paper, with a tag (PDF, A5)"
    name = f"job-card-{for_file_name(card.text('tag')) or card_id[:8]}.pdf"
    offer_file(words, name, partial(_on_paper, card_id), key="job_card_pdf")
    if beside.hub:
        _carry_hub(beside.hub)


def _on_paper(card_id: str) -> bytes:
    """Return a card as it stands when it is asked for, as PDF."""
    from conemodel.show.job_card.sheet import card_pdf  # loads matplotlib, so only when needed

    return card_pdf(find_card(card_id, Database()))


def _carry_hub(hub: Scenario) -> None:
    """Draw what takes the hub of a card to the other screens."""
    words = "Take this card's hub to the other screens"
    st.button(words, key="job_card_carry", on_click=take_own_hub, args=(hub,))


def beside_of(card: Card) -> Beside:
    """Return what is known besides a card.

    Raises:
        RecordError: the record could not be read.
    """
    hub = hub_as_measured(card)
    before = last_of_wheel(card, cards_known_alike(card, Database()))
    return Beside(
        today=date.today(),
        before=before,
        hub=hub,
        offers=offered_besides(card, before),
        advice=advice_now(card, hub),
    )


def _take(card_id: str, key: str) -> None:
    """Keep the taps that came; what cannot be kept is said, and what the record refuses for now is sent again."""
    done, troubles = _done(), []
    for tap in taps_of(key):
        if tap.id in done:
            continue
        try:
            answer(card_id, _with_advice(card_id, tap), Database(), by=typed_name())
        except InputProblems as error:
            troubles.append(f"Not taken: {error}")
        except NoCard:
            st.session_state[NOT_KEPT] = True
            return
        except ConemodelError as error:
            troubles.append(str(error))
            break
        done.append(tap.id)
    del done[:-REMEMBERED]
    st.session_state.job_card_trouble = " ".join(troubles)


def _go_to_measure() -> None:
    st.session_state[TO_MEASURE] = True


def _done() -> list[str]:
    done: list[str] = st.session_state.setdefault("job_card_done", [])
    return done


def _with_advice(card_id: str, tap: Tap) -> Mapping[Place, Value]:
    """Return what a tap answers, with what was advised where it says how the cone was turned."""
    turned = [
        place.where for place, value in tap.answers.items() if place.step == "turn" and value is not None
    ]
    if not turned:
        return tap.answers
    card = find_card(card_id, Database())
    advised = advice_now(card, hub_as_measured(card))
    new = {
        Place("advice", where): advised[where].words
        for where in turned
        if where in advised and card.answer("turn", where) is None
    }
    return {**tap.answers, **new}
