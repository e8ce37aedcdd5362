"""A drawing on a page, in the form that fits the window's width."""

from collections.abc import Callable

import streamlit as st

from conemodel.ui.widgets.mount import read_text

_PICTURE = st.components.v2.component(
    "conemodel_picture",
    html=read_text("picture.html"),
    css=read_text("picture.css"),
    js=read_text("place.js", "picture.js"),
)
"""Draws SVG as it is: the frame's own HTML drops it, and for an image a browser opens a document, every time."""


def draw_by_width(name: str, draw: Callable[..., str], *, alt: str) -> None:
    """Draw an SVG picture, compact where the window is a phone's. One message holds both.

    `draw` takes `dark` and `compact` and returns SVG of the room `show`, where every word is escaped: nothing looks
    through it again.
    """
    dark = st.context.theme.type == "dark"
    wide, narrow = draw(dark=dark, compact=False), draw(dark=dark, compact=True)
    _PICTURE(key=f"picture_{name}", data={"name": name, "wide": wide, "narrow": narrow, "alt": alt})
