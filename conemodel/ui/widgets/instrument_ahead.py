"""What a hand waits for on letting go of the instrument, answered alone, before anything else of its page is drawn.

All that the front end is sent for it is a few numbers, and all that it renews is an empty place beside the instrument.
The instrument tells its page of the hand once these numbers can be seen.
"""

from collections.abc import Callable, Mapping
from typing import Any

import streamlit as st

from conemodel.ui.widgets.mount import read_text

_AHEAD = st.components.v2.component(
    "conemodel_instrument_ahead", js=read_text("place.js", "instrument_ahead.js")
)


@st.fragment
def answer_ahead(*, key: str, exact: Callable[[float], Mapping[str, Any] | None]) -> None:
    """Answer the hand on the page's instrument; call it beside that one, inside a fragment.

    Args:
        key: of the answer.
        exact: what is said with the cone at an angle [°], as `exact_json` gives it; None where nothing can be.
    """
    hand = (st.session_state.get(key) or {}).get("hand")
    answer = {"sequence": hand["sequence"], "exact": exact(hand["angle"])} if hand else {}
    _AHEAD(key=key, data=answer, default={"hand": None}, on_hand_change=lambda: None)
