"""The result of Check a hub: what to do, to be read at arm's length, and all that stands behind it."""

import streamlit as st

from conemodel.base.plain_text import for_html, for_page
from conemodel.show.diagnosis.chart import alt_text_spread, spread_chart
from conemodel.show.diagnosis.tables import (
    list_faults,
    list_fits,
    merge_sides,
    say_before,
    say_fault,
    say_none_fits,
    spelt_out,
)
from conemodel.show.formatting import capital
from conemodel.show.headline import headline_html
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from conemodel.tasks.diagnosis.fault_list import FoundFault
from conemodel.tasks.diagnosis.procedure import say_chance
from conemodel.tasks.headline import Answer, headline_of
from conemodel.tasks.setting.chances import SURE
from conemodel.ui.diagnosis.explanation import show_explanation
from conemodel.ui.diagnosis.questions import unanswered
from conemodel.ui.frame import chart, table

SIGNS = {"loose": "↔", "right": "✓", "tight": "⊗"}

NOT_LOOKED_AT = headline_of(
    unsafe=(),
    unsound=(),
    adjustment=Answer(
        words="Not looked at yet",
        why="To begin: rock the rim with the clamp open, rock it closed, then turn it.",
        act="Answer what you can.",
    ),
)
"""What is said before anything was entered."""

MOST_STEPS = 4
"""Measurements suggested."""


def show_answer(diagnosis: Diagnosis | None) -> None:
    """Draw danger first, then what it most likely is and the turn to make, then the work step by step."""
    with st.container(border=True):
        if diagnosis is None:
            st.html(headline_html(NOT_LOOKED_AT, sign="?"))
            return
        st.html(headline_html(diagnosis.headline, sign=_sign(diagnosis)))
        _chances(diagnosis)
        _first_look(diagnosis)
        _next(diagnosis)
    if diagnosis.steps:
        st.header("The work, step by step", anchor=False)
        st.markdown("\n".join(f"{i}. {for_page(step)}" for i, step in enumerate(diagnosis.steps, start=1)))


def _sign(diagnosis: Diagnosis) -> str:
    """Return the sign beside the state of the adjustment; a question mark where it is not to be told."""
    chances = diagnosis.states or {}
    named = [state for state, chance in chances.items() if chance >= SURE]
    return SIGNS[named[0]] if named and (diagnosis.move is not None or diagnosis.leave) else "?"


def _chances(diagnosis: Diagnosis) -> None:
    """Draw the chance of being in the good range, now and after the turn."""
    if diagnosis.chance_right is None or diagnosis.headline.question != "adjustment":
        return
    figures = [("in the good range now", diagnosis.chance_right)]
    if diagnosis.move is not None:
        figures.append(("after this turn", diagnosis.move.chance))
    measured = diagnosis.readings.play_measured
    shown = "".join(
        f"<div><b>{say_chance(chance, measured=measured)}</b>{name}</div>" for name, chance in figures
    )
    st.html(f'<div class="cm-big">{shown}</div>')


def _first_look(diagnosis: Diagnosis) -> None:
    """Say what else could rock and was not looked at, where the rim rocks with the clamp closed."""
    if diagnosis.headline.question == "safe" or diagnosis.contradictions:
        return
    closed = diagnosis.readings.rounds[-1].rim_closed
    rocks = closed.hand not in (None, "none") or (closed.play or 0.0) > 0.0
    if rocks and (left := unanswered(diagnosis.scenario)):
        st.markdown(
            f"**First see that it is the hub.** Not looked at yet: {'; '.join(left)}. Play from there feels the same."
        )


def _next(diagnosis: Diagnosis) -> None:
    """Show the one measurement that would tell most."""
    if diagnosis.next_steps and diagnosis.headline.question != "safe":
        step = diagnosis.next_steps[0]
        why = for_html(capital(step.why))
        st.html(f'<div class="cm-next"><strong>Measure next:</strong> {for_html(step.label)}. {why}.</div>')


def show_details(diagnosis: Diagnosis) -> None:
    """Draw everything else a diagnosis has to say."""
    spec = spread_chart(diagnosis)
    if spec is not None:
        chart(spec, key="check_spread", alt=alt_text_spread(diagnosis))
    _faults(diagnosis)
    _measure(diagnosis)
    _fits(diagnosis)
    show_explanation(diagnosis)


def _faults(diagnosis: Diagnosis) -> None:
    """Draw the faults that may be there, those that stand out with what to do."""
    st.header("Faults no adjustment cures", anchor=False)
    listed = spelt_out(diagnosis)
    none = say_none_fits(diagnosis)
    if none or not listed:
        st.markdown(none or "None stands out.")
    for fault in listed:
        st.markdown(
            f"**{capital(fault.label)}: {say_fault(fault, diagnosis)}**{_before(fault, diagnosis)}. "
            f"{for_page(fault.advice)}"
        )
        if fault.evidence:
            st.caption(f"Speaks for it: {for_page('; '.join(fault.evidence))}.")
    folded = st.expander("All that may be the matter", key="check_all_faults", on_change="rerun")
    if folded.open:
        with folded:
            table(list_faults(diagnosis))


def _before(fault: FoundFault, diagnosis: Diagnosis) -> str:
    told = say_before(fault, diagnosis)
    return f" ({told} before anything was read)" if told else ""


def _measure(diagnosis: Diagnosis) -> None:
    """Draw what would tell more, most telling first."""
    if not diagnosis.next_steps:
        return
    folded = st.expander("What to measure next, most useful first", key="check_measure", on_change="rerun")
    if not folded.open:
        return
    with folded:
        st.markdown(
            "\n".join(
                f"{i}. {for_page(capital(step.label))}: {for_page(step.why)}."
                for i, step in enumerate(diagnosis.next_steps[:MOST_STEPS], start=1)
            )
        )
        st.caption("First comes what shows whether the wheel may come out.")


def _fits(diagnosis: Diagnosis) -> None:
    """Draw whether the parts go together."""
    st.header("Do the parts fit", anchor=False)
    measured = [fit for fit in diagnosis.fits if fit.state != "not measured"]
    if measured:
        table(list_fits(merge_sides(measured), caption="Whether the parts fit"))
    else:
        st.markdown("Nothing measured yet that would tell.")
    missing = [fit for fit in diagnosis.fits if fit.state == "not measured"]
    folded = st.expander("What to measure for it", key="check_fits", on_change="rerun")
    if folded.open and missing:
        with folded:
            table(list_fits(merge_sides(missing), caption="What to measure"))
