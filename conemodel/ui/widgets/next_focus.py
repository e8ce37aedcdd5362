"""Where the focus goes when a person's own act has changed what the page is about: to that, not to the page's top."""

import streamlit as st

from conemodel.ui.widgets.mount import read_text

_NEXT_FOCUS = st.components.v2.component("conemodel_next_focus", js=read_text("place.js", "next_focus.js"))


def hand_focus_on(place: str, *, turn: str, key: str = "next focus") -> None:
    """Hand the focus on where `turn` changes, to what is of the class ``cm-landing`` below the key `place`.

    What the page opens with changes nothing; with no place the focus stays. Call it at the same place of every run; in
    a part of a page that runs alone under a `key` of its own.
    """
    _NEXT_FOCUS(key=key, data={"place": place, "turn": turn}, height=1)
