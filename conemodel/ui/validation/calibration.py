"""Method: how Check a hub did on simulated hubs that break its assumptions."""

from math import sqrt

import streamlit as st

from conemodel.base.plain_text import for_page
from conemodel.show.validation.calibration import list_promises, list_trials
from conemodel.tasks.validation.calibration import (
    DRAWN,
    WEAK,
    Calibration,
    goals,
    kept_calibration,
    misses,
    say_words_kept,
)
from conemodel.ui.frame import table, take_csv


def draw_calibration() -> None:
    """Draw the tables, what was drawn for them, and what they do not show."""
    found = kept_calibration()
    st.header("Check a hub, tried on hubs that break its assumptions", anchor=False)
    st.markdown(
        f"A model apart from this program drew {found.hubs} hubs and read each of them with every push, as a mechanic "
        "would. Check a hub was given the readings and nothing else: it took the usual hub of that width. The turn "
        "it advised was made by a hand that errs, and then the true hub was looked at. All of it is simulated; no "
        "real hub was measured."
    )
    st.markdown("\n".join(f"- {for_page(line)}" for line in DRAWN))
    table(list_trials(found))
    st.caption(
        "All but the last were read with a gauge at the rim. *Interval*: where the answer has closed end play four "
        "times in five. *Turned*: of hubs that were not right, those with a turn or a cautious step. *Clamp blamed*: "
        f"sound hubs whose clamp was said not to clamp. A share of {found.hubs} is off by "
        f"{200 * sqrt(0.2 * 0.8 / found.hubs):.0f} points one time in twenty."
    )
    _goals(found)
    with st.expander("Chances promised and what came of them", expanded=False):
        table(list_promises(found))
    st.markdown("What this does not show:\n" + "\n".join(f"- {for_page(line)}" for line in WEAK))
    take_csv("Take the trials (CSV)", lambda: list_trials(found), "trials.csv")


def _goals(found: Calibration) -> None:
    """Draw the goals, and which are missed."""
    st.markdown("The goals:\n" + "\n".join(f"- {for_page(line)}" for line in goals(found)))
    missed = [for_page(line) for line in misses(found)]
    if missed:
        st.markdown("**Missed:**\n" + "\n".join(f"- {line}" for line in missed))
    else:
        st.markdown("**All of them are met.**")
    st.markdown(for_page(say_words_kept(found)))
