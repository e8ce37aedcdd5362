"""Where the focus goes when the button that was pressed is gone: to the act that comes next, not to the page's top."""

import streamlit as st

from conemodel.ui.widgets.mount import read_text

_NEXT_FOCUS = st.components.v2.component("conemodel_next_focus", js=read_text("place.js", "next_focus.js"))


def hand_focus_on(place: str) -> None:
    """Hand the focus on to the main button of the container with the key `place`; with none, only note who has it.

    Call it at the same place of every run.
    """
    _NEXT_FOCUS(key="next focus", data={"place": place}, height=1)
