"""The field for the name somebody practises under: asked once, remembered by the browser, or none."""

from urllib.parse import quote

import streamlit as st

from conemodel.record.names import LONGEST_NAME
from conemodel.ui.visit import COOKIE, NAME, recall_name, remembered_name

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


def ask_name() -> None:
    """Draw the field for the name, and have the browser remember what stands in it."""
    recall_name()
    st.text_input("Your name, or none", key=NAME, max_chars=LONGEST_NAME, persist_state="session")
    name = recall_name()
    st.caption(WITH_NAME if name else WITHOUT_NAME)
    if name != remembered_name():
        age = KEPT if name else 0
        # percent-encoded, a name is letters, figures and signs that end neither the string nor the cookie
        text = f"{COOKIE}={quote(name, safe='')}; max-age={age}; path=/; samesite=lax"
        st.html(f'<script>document.cookie = "{text}"</script>', unsafe_allow_javascript=True)
