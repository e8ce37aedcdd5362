"""The fold under the verdict in which one watches what one did, beside what a careful hand does with the same hub."""

from typing import Any

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.plain_text import for_page
from conemodel.show.practice.replay_json import replay_json
from conemodel.tasks.practice.marking import ExerciseMark
from conemodel.tasks.practice.replay import replay_of
from conemodel.tasks.practice.session import Bench
from conemodel.ui.widgets.replay_mount import play_replay


@st.fragment
def show_replay(name: str, bench: Bench, marked: ExerciseMark) -> None:
    """Draw the fold of an exercise that is done, `name` its own in the session; a closed one costs nothing."""
    folded = st.expander("Watch what you did", key=f"{name} replay fold", on_change="rerun")
    if not folded.open:
        return
    with folded:
        number = _choose_hub(name, marked)
        try:
            data = _data_of(name, bench, number)
        except ConemodelError as error:
            st.caption(f"This hub cannot be shown again: {for_page(str(error))}")
            return
        if data["cue"] is None:
            st.caption("Nothing was missed that a hand could have found.")
        play_replay(key=f"{name} replay {number}", data=data)


def _data_of(name: str, bench: Bench, number: int) -> dict[str, Any]:
    """Return what is shown of one hub, worked out once: what was done does not change any more."""
    key = f"{name} replay data {number}"
    if key not in st.session_state:
        st.session_state[key] = replay_json(replay_of(bench, number))
    return dict(st.session_state[key])


def _choose_hub(name: str, marked: ExerciseMark) -> int:
    """Return which of several hubs is watched: at first the one that went wrong first."""
    hubs = marked.hubs
    if len(hubs) == 1:
        return 0
    chosen = st.segmented_control(
        "Hub",
        range(len(hubs)),
        format_func=lambda number: f"{number + 1} {'✓' if hubs[number].passed else '→'}",
        default=next((hub.hub for hub in hubs if not hub.passed), 0),
        required=True,
        key=f"{name} replay hub",
    )
    return int(chosen)
