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
    word = known_visit() or secrets.token_urlsafe(12)
    st.session_state["visit_word"] = st.query_params[WORD] = word
    return word


def known_visit() -> str | None:
    """Return the word of the visit: of this session or of the address; None where nothing was begun in it."""
    if word := st.session_state.get("visit_word"):
        return str(word)
    asked = st.query_params.get(WORD, "")
    return asked if fullmatch(r"[A-Za-z0-9_-]{16}", asked) else None


def end_visit() -> None:
    """Let somebody else come: what was begun without a name is theirs no more, and no name is typed."""
    st.session_state["visit_word"] = secrets.token_urlsafe(12)
    st.session_state[NAME] = ""


def typed_name() -> str | None:
    """Return the name typed, without outer blanks, or None."""
    return " ".join(str(st.session_state.get(NAME) or "").split()) or None
