"""What a coached round has besides: a hint on asking, the result of the hub before, the last move taken back."""

import streamlit as st

from conemodel.tasks.practice.actions import TakeBack
from conemodel.tasks.practice.hint_asked import hint_asked
from conemodel.tasks.practice.marking import mark
from conemodel.ui.practice.controls import Buttons
from conemodel.ui.practice.session import Stand


def coach(stand: Stand) -> None:
    """Draw what training has and an assessed round has not."""
    bench = stand.bench
    buttons = Buttons(stand)
    buttons.draw("Take the last move back", TakeBack(), shortcut="Ctrl+Z")
    buttons.reasons()
    if st.button("A hint", key=f"{stand.name} hint", width="stretch"):
        st.info(hint_asked(bench))


def say_hub_before(stand: Stand) -> None:
    """Say what came of the hub before, where this is training."""
    bench = stand.bench
    done = [event.hub for event in bench.log if bench.hubs[event.hub].done is not None]
    if bench.exercise.assessed or not done:
        return
    before = mark(bench).hubs[done[-1]]
    with st.container(key="cm-before"):
        if bench.exercise.kind == "name":  # “right” is one of the answers there
            st.markdown(f"{'✓' if before.passed else '→'} **Hub {before.hub + 1}.** {before.hint}")
        else:
            st.markdown(f"**Hub {before.hub + 1}: {'right' if before.passed else 'not yet'}.** {before.hint}")
