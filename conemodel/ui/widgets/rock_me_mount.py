"""The hub to be rocked, clamped and twirled, as a function to call in a page. It tells Python when that is done."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from conemodel.ui.widgets.mount import read_text

SHARED = ("travel", "words", "sheet", "dial", "whole", "hands", "grips")
"""Parts of the instrument that it is made of."""

_ROCK_ME = st.components.v2.component(
    "conemodel_rock_me",
    html=read_text("rock_me.html"),
    css=read_text("instrument_drawing.css", "rock_me.css"),
    js=read_text(
        "place.js",
        "feel.js",
        "sound.js",
        *(f"instrument_{name}.js" for name in SHARED),
        "rock_me_picture.js",
        "rock_me_wheel.js",
        "rock_me.js",
    ),
)


def rock_me(*, key: str, data: Mapping[str, Any], name: str, next_act: str, above: int, below: int) -> bool:
    """Show a hub that stands with its locknut tight and its clamp open; return whether the next act was pressed.

    Args:
        key: of the widget.
        data: the hub at one setting, as `rock_json` gives it.
        name: of the hub, in words.
        next_act: what is offered once all was done with it, in words.
        above: height of what stands above it on the page [px].
        below: height of what should be seen below it without scrolling, in a window of a desk or a tablet [px].
    """
    given = {**data, "name": name, "next": next_act, "above": above, "below": below}
    return bool(_ROCK_ME(key=key, data=given, on_go_change=lambda: None).go)
