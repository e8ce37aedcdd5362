"""The fold under the verdict in which one watches what one did, beside what a careful hand does with the same hub."""

from typing import Any

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.plain_text import for_page
from conemodel.show.practice.replay_json import replay_json
from conemodel.tasks.practice.replay import replay_of
from conemodel.ui.practice.session import Sitting
from conemodel.ui.widgets.replay_mount import play_replay


@st.fragment
def show_replay(sitting: Sitting) -> None:
    """Draw the fold; nothing is worked out before it is opened."""
    name = sitting.stand.name
    folded = st.expander("Watch what you did", key=f"{name} replay fold", on_change="rerun")
    if not folded.open:
        return
    with folded:
        number = _choose_hub(sitting)
        try:
            data = _data_of(sitting, number)
        except ConemodelError as error:
            st.caption(f"This hub cannot be shown again: {for_page(str(error))}")
            return
        if data["cue"] is None:
            st.caption("Nothing was missed that a hand could have found.")
        play_replay(key=f"{name} replay {number}", data=data)


def _data_of(sitting: Sitting, number: int) -> dict[str, Any]:
    """Return what is shown of one hub, worked out once: what was done does not change any more."""
    key = f"{sitting.stand.name} replay data {number}"
    if key not in st.session_state:
        st.session_state[key] = replay_json(replay_of(sitting.stand.bench, number))
    return dict(st.session_state[key])


def _choose_hub(sitting: Sitting) -> int:
    """Return which of several hubs is watched: at first the one that went wrong first."""
    marked = sitting.marked
    if marked is None or len(marked.hubs) == 1:
        return 0
    wrong = next((hub.hub for hub in marked.hubs if not hub.passed), 0)
    chosen = st.segmented_control(
        "Hub",
        range(len(marked.hubs)),
        format_func=lambda number: f"{number + 1} {'✓' if marked.hubs[number].passed else '→'}",
        default=wrong,
        required=True,
        key=f"{sitting.stand.name} replay hub",
    )
    return int(chosen)
