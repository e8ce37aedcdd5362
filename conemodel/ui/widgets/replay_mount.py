"""The replay of a hub as a function to call in a page: both paths, act by act. It tells Python nothing."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from conemodel.ui.widgets.mount import read_text

SCRIPTS = (
    "place.js",
    "instrument_sheet.js",
    "bench_hub.js",
    "replay_chart.js",
    "replay_track.js",
    "replay.js",
)
"""Its script, in the order in which its parts use each other."""

STYLES = ("instrument_drawing.css", "replay.css")
"""How it looks."""

_REPLAY = st.components.v2.component(
    "conemodel_replay",
    html=read_text("replay.html"),
    css=read_text(*STYLES),
    js=read_text(*SCRIPTS),
)


def play_replay(*, key: str, data: Mapping[str, Any]) -> None:
    """Show a replay, as `replay_json` gives it; `key` of the widget."""
    _REPLAY(key=key, data=dict(data))
