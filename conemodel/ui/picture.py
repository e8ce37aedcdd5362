"""A drawing on a page, in the form that fits the window's width."""

import streamlit as st

from conemodel.ui.widgets.mount import read_text

_PICTURE = st.components.v2.component(
    "conemodel_picture",
    html=read_text("picture.html"),
    css=read_text("picture.css"),
    js=read_text("picture.js"),
)
"""Draws SVG as it is: the frame's own HTML drops it, and for an image a browser opens a document, every time."""


def draw_by_width(name: str, *, wide: str, narrow: str, alt: str) -> None:
    """Draw one of two SVG pictures: `wide`, or `narrow` where the window is a phone's. One message holds both.

    They must be SVG of the room `show`, where every word is escaped: nothing looks through them again.
    """
    _PICTURE(key=f"picture_{name}", data={"name": name, "wide": wide, "narrow": narrow, "alt": alt})
