"""Under which name somebody practises: asked once, remembered by the browser, or none."""

from urllib.parse import quote, unquote

import streamlit as st

from conemodel.base.errors import InputProblems
from conemodel.record.names import LONGEST_NAME, clean_name
from conemodel.ui.visit import NAME, typed_name

COOKIE = "practise_name"
"""Under what the browser keeps it."""

KEPT = 365 * 24 * 3600
"""How long a browser keeps it [s]."""

WITH_NAME = (
    "What you do is kept under this name on the computer that runs this, and comes up again when it is due. This "
    "browser remembers the name until it is emptied here. Anyone who types it sees what is kept."
)
WITHOUT_NAME = (
    "Without a name what you do is kept as nobody's, and only this page's own address leads back to it: a reload goes "
    "on, and so does another day from a bookmark. With a name, it comes up again wherever you type it."
)
"""What a name means, and what none does."""


def recall_name() -> str:
    """Return the name somebody practises under, as typed in this visit or remembered by the browser; empty for none."""
    if NAME not in st.session_state:
        st.session_state[NAME] = _remembered()
    return typed_name() or ""


def _remembered() -> str:
    """Return the name the browser sent, empty if it is none that can be kept."""
    try:
        return clean_name(unquote(st.context.cookies.get(COOKIE, ""))) or ""
    except InputProblems:
        return ""


def ask_name() -> None:
    """Draw the field for the name, and have the browser remember what stands in it."""
    recall_name()
    st.text_input("Your name, or none", key=NAME, max_chars=LONGEST_NAME, persist_state="session")
    name = recall_name()
    st.caption(WITH_NAME if name else WITHOUT_NAME)
    if name != _remembered():
        age = KEPT if name else 0
        # percent-encoded, a name is letters, figures and signs that end neither the string nor the cookie
        text = f"{COOKIE}={quote(name, safe='')}; max-age={age}; path=/; samesite=lax"
        st.html(f'<script>document.cookie = "{text}"</script>', unsafe_allow_javascript=True)
