"""The record of all cards taken out and in, copied, and a customer's data deleted."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.record.backups import back_up, known_copies, restore
from conemodel.record.card_exchange import export_cards, import_cards
from conemodel.record.card_file import FILE_NOTE
from conemodel.record.customers import count_customer, delete_customer
from conemodel.record.database import Database
from conemodel.ui.files import YOURS, offer_file, say_problems

SAID, REFUSED = "job_card_copy_said", "job_card_copy_refused"
"""Where stands what came of the last act, until it is said."""


def keep_a_copy() -> None:
    """Draw the fold in which cards are taken out and in, copied, put back and deleted."""
    words = "Keep a copy, move to another computer, delete a customer"
    folded = st.expander(words, key="job_card_copy", on_change="rerun")
    if not folded.open:
        return
    with folded:
        _say_what_came()
        st.caption("Everything stays on this computer; nothing is sent anywhere.")
        offer_file("All cards, with their history (JSON)", "job-cards.json", lambda: export_cards(Database()))
        st.file_uploader(
            "Cards from another computer (JSON)", type=["json"], key="job_card_file", on_change=_bring_in
        )
        st.button("Back up the whole record", on_click=_act, args=(_back_up,))
        _ask_restore()
        _ask_delete()


def _ask_restore() -> None:
    copies = [path for path in known_copies(Database()) if path.is_file()]
    if not copies:
        return
    with st.popover("Put a backup back"):
        st.warning(
            "The whole record, practice and all, becomes what it was then. What stands there now is kept aside."
        )
        chosen = st.selectbox("Backup", copies, format_func=lambda path: path.name, key="job_card_backup")
        st.button("Put it back", on_click=_act, args=(partial(_restore, chosen),))


def _ask_delete() -> None:
    with st.popover("Delete a customer"):
        st.warning(
            "Every card of this customer is deleted for good, history too. Copies that still hold it are named."
        )
        name = st.text_input("Customer, as on the cards", key="job_card_customer")
        cards, former = count_customer(name, Database())
        if name.strip():
            st.markdown(_named(cards, former))
        st.button("Delete for good", on_click=_act, args=(partial(_delete, name),), disabled=not name.strip())


def _named(cards: int, former: int) -> str:
    """Return what would be deleted of a customer, in words."""
    if not cards and not former:
        return "No such customer on any card."
    return f"Cards deleted: **{cards}**. Cards of others that lose this name: **{former}**."


def _bring_in() -> None:
    if (sent := st.session_state.job_card_file) is not None:
        _act(partial(_import, sent.getvalue()))


def _act(act: Callable[[], str]) -> None:
    """Do something to the record, and keep what came of it to be said."""
    try:
        st.session_state[SAID] = act()
    except ConemodelError as error:
        st.session_state[REFUSED] = str(error)


def _say_what_came() -> None:
    if said := st.session_state.pop(SAID, ""):
        st.success("Done.")
        st.code(said, language=None, wrap_lines=True)
    if refused := st.session_state.pop(REFUSED, ""):
        say_problems("Not done.", refused)


def _import(sent: bytes) -> str:
    came = import_cards(sent, Database(), name=YOURS)
    return f"cards added: {came.added}, continued: {came.continued}, with nothing new: {came.unchanged}"


def _back_up() -> str:
    return f"{back_up(Database())}: written. {FILE_NOTE}"


def _restore(path: Path) -> str:
    aside = restore(path, Database())
    return f"The record is now what {path.name} holds. " + (
        f"What stood there before: {aside}" if aside else ""
    )


def _delete(name: str) -> str:
    return "\n".join(delete_customer(name, Database()).lines)
