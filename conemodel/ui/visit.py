"""Who is here: the random word of the visit, kept in the address, and the name typed, if one was.

By its word a browser finds again what it began, without a name and with nothing stored in it: a reload, another tab, a
bookmark or the same address on a phone go on where it was. Who gives that address away shares what was begun.
"""

import secrets
from re import fullmatch

import streamlit as st

WORD = "visit"
"""Stands in the address for the word of the visit."""

NAME = "practise_name"
"""Where the name typed is kept; it is the same on all pages that ask for one."""


def visit() -> str:
    """Return the word of the visit: of this session, of the address, or a new one; and keep it in the address."""
    asked = st.query_params.get(WORD, "")
    fresh = asked if fullmatch(r"[A-Za-z0-9_-]{16}", asked) else secrets.token_urlsafe(12)
    word = str(st.session_state.setdefault("visit_word", fresh))
    st.query_params[WORD] = word
    return word


def end_visit() -> None:
    """Let somebody else come: what was begun without a name is theirs no more, and no name is typed."""
    st.session_state["visit_word"] = secrets.token_urlsafe(12)
    st.session_state[NAME] = ""


def typed_name() -> str | None:
    """Return the name typed, without outer blanks, or None."""
    return " ".join(str(st.session_state.get(NAME) or "").split()) or None
