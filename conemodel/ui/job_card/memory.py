"""All cards, the latest first."""

from collections.abc import Callable

import streamlit as st

from conemodel.base.plain_text import for_page
from conemodel.record.cards import all_cards
from conemodel.record.database import Database
from conemodel.show.job_card.card_json import who_words

SHOWN = 30
"""Cards listed."""


def show_memory(take_up: Callable[[str], None]) -> None:
    """Draw the cards; `take_up` is called with the id of one that is pressed.

    Raises:
        RecordError: the record could not be read.
    """
    for card in all_cards(Database())[:SHOWN]:
        st.button(
            for_page(who_words(card)),
            key=f"take_up_{card.id}",
            on_click=take_up,
            args=(card.id,),
            width="stretch",
        )
