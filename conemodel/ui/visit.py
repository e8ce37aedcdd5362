"""Who is here: the random word of the visit, kept in the address, and the name typed, if one was.

By its word a browser finds again what it began, without a name and with nothing stored for it: a reload, another tab, a
bookmark or the same address on a phone go on where it was. Who gives that address away shares what was begun. A name
that was typed is all the browser keeps, so that it is asked once.
"""

import secrets
from contextlib import suppress
from re import fullmatch
from urllib.parse import quote, unquote

import streamlit as st

from conemodel.base.errors import InputProblems
from conemodel.record.names import LONGEST_NAME, clean_name

WORD = "visit"
"""Stands in the address for the word of the visit."""

NAME = "practise_name"
"""Where the name typed is kept; it is the same on all pages that ask for one."""

COOKIE = "practise_name"
"""Under what the browser keeps it."""

CARD = "card"
"""Stands in the address for the id of a job card: the one in hand, or the one whose hub is measured."""

CARD_IN_HAND = "card_in_hand"
"""Where the id of the job card stands that was opened last in this visit."""

KEPT = 365 * 24 * 3600
"""How long a browser keeps it [s]."""


def visit() -> str:
    """Return the word of the visit: of this session, of the address, or a new one; and keep it in the address."""
    word = known_visit() or secrets.token_urlsafe(12)
    st.session_state["visit_word"] = word
    if st.query_params.get(WORD) != word:
        st.query_params[WORD] = word
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


def recall_name() -> str:
    """Return the name of whoever is here, as typed in this visit or kept by the browser; empty for none."""
    if NAME not in st.session_state:
        st.session_state[NAME] = remembered_name()
    return typed_name() or ""


def remembered_name() -> str:
    """Return the name the browser keeps, empty if it is none that can be kept in the record."""
    with suppress(InputProblems):
        return clean_name(unquote(st.context.cookies.get(COOKIE, ""))) or ""
    return ""


def ask_for_name(label: str, with_name: str, without_name: str) -> None:
    """Draw the field for the name and what it means, with one and without; the browser remembers what stands in it."""
    recall_name()
    st.text_input(label, key=NAME, max_chars=LONGEST_NAME, persist_state="session")
    name = recall_name()
    st.caption(with_name if name else without_name)
    if name != remembered_name():
        age = KEPT if name else 0
        # percent-encoded, a name is letters, figures and signs that end neither the string nor the cookie
        text = f"{COOKIE}={quote(name, safe='')}; max-age={age}; path=/; samesite=lax"
        st.html(f'<script>document.cookie = "{text}"</script>', unsafe_allow_javascript=True)
