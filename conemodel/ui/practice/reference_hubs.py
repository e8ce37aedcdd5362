"""Hubs known to be loose, right and tight, to be felt beside one's own in free practice."""

import streamlit as st

from conemodel.parts.setting import State
from conemodel.tasks.practice.hidden_hub import reference
from conemodel.tasks.setting.adjustment import STATE_WORDS
from conemodel.ui.practice.bench import FEELING, work_with
from conemodel.ui.practice.session import Sitting, Stand, fresh_name

KNOWN: dict[State, str] = {state: words.lower() for state, words in STATE_WORDS.items()}


def shelf(sitting: Sitting) -> None:
    """Draw the reference hubs, if their fold is open."""
    folded = st.expander("Feel a hub that is known: loose, right, too tight", key="shelf", on_change="rerun")
    if not folded.open:  # a closed fold is not sent to the browser
        return
    with folded:
        st.caption("Clamped on spacers, the clamp at its usual force. Not your hub.")
        state: State = st.segmented_control(
            "Known to be", list(KNOWN), format_func=KNOWN.__getitem__, default="loose", required=True
        )
        stand = known_hub(sitting, state)
        stand.hear()
        work_with(stand, FEELING)


def known_hub(sitting: Sitting, state: State) -> Stand:
    """Return a reference hub, the same one each time it is asked for in a sitting."""
    if state not in sitting.shelf:
        bench = reference(sitting.exercise, state, sitting=sitting.stand.bench.secret.sitting)
        sitting.shelf[state] = Stand(name=fresh_name(), bench=bench)
    return sitting.shelf[state]
