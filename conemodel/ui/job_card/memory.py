"""What all cards remember: wheels to be looked at again, cards found by any words, and the faults they tell of."""

from collections.abc import Callable, Iterable
from datetime import date

import streamlit as st

from conemodel.base.table import csv_text
from conemodel.record.cards import all_cards
from conemodel.record.database import Database
from conemodel.show.job_card.memory_words import card_line, list_faults_found, recheck_line
from conemodel.tasks.job_card.faults import count_faults
from conemodel.tasks.job_card.memory import find_cards, list_rechecks
from conemodel.ui.files import offer_file
from conemodel.ui.frame import table

SHOWN = 12
"""Cards and rechecks listed at first; the others are found by words."""

TakeUp = Callable[[str], None]

STYLE = """
<style>
.st-key-cm-cards button {min-height: 48px; justify-content: flex-start; text-align: left}
.st-key-cm-cards button > div {justify-content: flex-start}
.st-key-cm-cards {gap: 0.5rem}
.st-key-cm-cards [data-testid=stHeading] {padding-bottom: 0.4rem}
[data-testid=stMain] [data-testid^=stBaseButton], [data-testid=stMain] [data-testid=stTextInputRootElement] {
  min-height: 48px;
}
</style>
"""


def show_memory(take_up: TakeUp) -> None:
    """Draw what all cards remember; `take_up` is called with the id of a card that is pressed.

    Raises:
        RecordError: the record could not be read.
    """
    cards = all_cards(Database())
    words = st.text_input("Find: tag, customer, wheel, hub, any words", key="job_card_words")
    with st.container(key="cm-cards"):
        if words.strip():
            found = find_cards(cards, words)
            st.subheader(f"{len(found)} of {len(cards)} cards", anchor=False)
            _list(((card.id, card_line(card)) for card in found), "found", take_up)
            return
        if rechecks := list_rechecks(cards, date.today()):
            st.subheader("To be looked at again", anchor=False)
            _list(((each.card.id, recheck_line(each)) for each in rechecks), "recheck", take_up)
        if cards:
            st.subheader("Latest cards", anchor=False)
            _list(((card.id, card_line(card)) for card in cards), "latest", take_up)
        else:
            st.caption("No card yet. Begin one for the hub in your hand.")
    if counted := count_faults(cards):
        with st.expander("Faults found, over all cards"):
            table(list_faults_found(counted))
            offer_file("Faults found (CSV)", "faults.csv", csv_text(list_faults_found(counted)))


def _list(lines: Iterable[tuple[str, str]], name: str, take_up: TakeUp) -> None:
    """Draw a button for each line, and say how many more there are."""
    listed = list(lines)
    for card_id, words in listed[:SHOWN]:
        st.button(words, key=f"{name}_{card_id}", on_click=take_up, args=(card_id,), width="stretch")
    if len(listed) > SHOWN:
        st.caption(f"{len(listed) - SHOWN} more: find them by words.")
