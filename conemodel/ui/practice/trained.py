"""What somebody has trained, drawn: cones set by hand over time, hubs named as a table, every exercise in a line."""

from collections.abc import Sequence

import streamlit as st

from conemodel.record.attempts import Attempt
from conemodel.record.progress import PASSES_NEEDED, list_progress
from conemodel.show.practice.charts import (
    FIRST_TOUCH,
    GOOD_RANGE,
    Aim,
    Done,
    alt_text_progress,
    progress_chart,
)
from conemodel.show.practice.confusion_table import confusion_heading, confusion_table, confusion_words
from conemodel.show.practice.plan_words import run_words
from conemodel.tasks.practice.catalogue import ladder, ladder_titles
from conemodel.tasks.practice.plan.checked_run import checked_run
from conemodel.tasks.practice.plan.confusions import confusions
from conemodel.ui.frame import chart, table


def show_done(done: Sequence[Attempt]) -> None:
    """Draw attempts, oldest first, not empty: only what they were about."""
    show_run(done)
    for aim, ended in ((GOOD_RANGE, "set"), (FIRST_TOUCH, "touch")):
        _show_settings([one for one in done if _kind(one) == ended], aim)
    for found in confusions(hub for one in done for hub in one.hubs):
        st.markdown(f"**{confusion_heading(found)}**")
        table(confusion_table(found))
        st.caption(confusion_words(found))
    table(list_progress(done, ladder_titles()))
    st.caption(
        f"Learnt: passed on {PASSES_NEEDED} different hubs, assessed; training counts as an attempt. In words: what "
        "hands feel was told in words, as may be asked for; how many hubs were read so stands with every attempt (CSV)."
    )


def show_run(done: Sequence[Attempt]) -> None:
    """Say how many assessed hubs in a row were right and checked, if any were."""
    if words := run_words(checked_run(hub for one in done if not one.training for hub in one.hubs)):
        st.markdown(f"{words}.")


def _kind(one: Attempt) -> str:
    """Return what an attempt was about; of an exercise that is not here, its hubs tell whether they were named."""
    if (exercise := ladder().get(one.exercise)) is not None:
        return exercise.kind
    return "name" if any(hub.question is not None for hub in one.hubs) else "set"


def _show_settings(done: Sequence[Attempt], aim: Aim) -> None:
    """Draw how far off their aim cones ended; nothing where none was set."""
    if not done:
        return
    titles = ladder_titles()
    shown = [
        Done(
            when=one.made_at,
            exercise=titles.get(one.exercise, one.exercise),
            passed=one.passed,
            off_turn=one.off_turn,
            hubs=max(len(one.hubs), 1),
            right=sum(hub.passed for hub in one.hubs),
        )
        for one in done
    ]
    chart(progress_chart(shown, aim), key=f"progress {aim.heading}", alt=alt_text_progress(shown, aim))
    worst = " A dot stands where the worst hub of a round ended: a full one off the line passed by its other hubs."
    several = any(one.hubs > 1 for one in shown)
    st.caption(f"A full dot passed, an open one not yet. On the line: {aim.on}.{worst if several else ''}")
