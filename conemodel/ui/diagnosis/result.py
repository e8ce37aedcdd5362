"""The result of Check a hub: what to do, to be read at arm's length, and all that stands behind it."""

import streamlit as st

from conemodel.base.plain_text import for_html, for_page
from conemodel.base.units import DEG
from conemodel.show.diagnosis.chart import alt_text_spread, spread_chart
from conemodel.show.diagnosis.tables import capital, list_faults, list_fits, merge_sides
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from conemodel.tasks.diagnosis.fault_list import FoundFault
from conemodel.tasks.diagnosis.procedure import percent
from conemodel.tasks.wording import direction
from conemodel.ui.diagnosis.explanation import show_explanation
from conemodel.ui.diagnosis.questions import unanswered
from conemodel.ui.frame import chart, table

STATES = {"loose": "Loose", "right": "Right", "tight": "Too tight"}
SIGNS = {"loose": "↔", "right": "✓", "tight": "⊗"}

LISTED = 0.1
"""Chance from which a fault is spelt out; the others stand in the table."""

MOST_STEPS = 4
"""Measurements suggested."""


def show_answer(diagnosis: Diagnosis | None) -> None:
    """Draw danger first, then what it most likely is and the turn to make, then the work step by step."""
    with st.container(border=True):
        if diagnosis is None:
            _headline("?", "Not looked at yet", "answer what you can on this page")
            st.markdown(
                "The rim rocked with the clamp open, rocked closed, and turned: that is enough to begin."
            )
            return
        for reason in diagnosis.unsafe:
            st.html(f'<div class="cm-stop" role="alert">{for_html(reason)}</div>')
        _headline(*headline(diagnosis))
        _chances(diagnosis)
        _first_look(diagnosis)
        _show_words(diagnosis)
        _next(diagnosis)
    if diagnosis.steps:
        st.header("The work, step by step", anchor=False)
        st.markdown("\n".join(f"{i}. {for_page(step)}" for i, step in enumerate(diagnosis.steps, start=1)))


def _show_words(diagnosis: Diagnosis) -> None:
    """Show the result in words, without what the alerts said; contradictory readings one by one."""
    said = diagnosis.sentence
    for told in (*diagnosis.unsafe, *diagnosis.contradictions):
        said = said.replace(told, "")
    st.markdown(for_page(said.strip()))
    for clash in diagnosis.contradictions:
        st.error(for_page(clash))


def headline(diagnosis: Diagnosis) -> tuple[str, str, str]:
    """Return a sign, what it most likely is, and what to do, in a few words each."""
    if diagnosis.contradictions:
        return "⚠", "Readings do not go together", "no turn yet: take them again"
    blocking = [fault for fault in diagnosis.faults if fault.blocks]
    if diagnosis.readings.checks.far_side_unlocked == "yes" and not diagnosis.unsafe:
        return "⊗", "Far side unlocked", "lock it hard first, then feel again"
    if blocking:
        return (
            "⊗",
            capital(blocking[0].label),
            f"{percent(blocking[0].chance)} · no turn of the cone cures it",
        )
    if diagnosis.window.width <= 0:
        return "⊗", "No good setting", "no turn of the cone cures it"
    chances = diagnosis.states or {"right": 0.0}
    state = max(chances, key=lambda name: chances[name])
    if diagnosis.move is not None:
        turn, size = diagnosis.move, DEG.from_si(abs(diagnosis.move.angle))
        arrow = "↺" if turn.length > 0 else "↻"
        return (
            SIGNS[state],
            STATES[state],
            f"{arrow} {direction(turn.length)} about {size:.0f}°",
        )
    if diagnosis.leave:
        return SIGNS[state], STATES[state], "leave it"
    return "?", "Not known yet", "no turn yet: look further first"


def _headline(sign: str, state: str, turn: str) -> None:
    st.html(
        '<p class="cm-verdict" role="status">'
        f'<span class="cm-state"><span aria-hidden="true">{sign}</span> {for_html(state)}</span>'
        f'<span class="cm-turn">{for_html(turn)}</span></p>'
    )


def _chances(diagnosis: Diagnosis) -> None:
    """Draw the chance of being in the good range, now and after the turn."""
    if diagnosis.chance_right is None or any(fault.blocks for fault in diagnosis.faults):
        return
    figures = [("in the good range now", diagnosis.chance_right)]
    if diagnosis.move is not None:
        figures.append(("after this turn", diagnosis.move.chance))
    shown = "".join(f"<div><b>{percent(chance)}</b>{name}</div>" for name, chance in figures)
    st.html(f'<div class="cm-big">{shown}</div>')


def _first_look(diagnosis: Diagnosis) -> None:
    """Say what else could rock and was not looked at, where play was found."""
    if diagnosis.unsafe or diagnosis.contradictions:
        return
    felt = any(
        play.hand not in (None, "none") or (play.play or 0.0) > 0.0
        for look in diagnosis.readings.rounds
        for play in look.plays.values()
    )
    if felt and (left := unanswered()):
        st.markdown(
            f"**First see that it is the hub.** Not looked at yet: {'; '.join(left)}. Play from there feels the same."
        )


def _next(diagnosis: Diagnosis) -> None:
    """Show the one measurement that would tell most."""
    if diagnosis.next_steps and not diagnosis.unsafe:
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
    listed = [fault for fault in diagnosis.faults if fault.chance >= LISTED or fault.blocks]
    if not listed:
        st.markdown("None stands out.")
    for fault in listed:
        st.markdown(
            f"**{capital(fault.label)}: {percent(fault.chance)}**{_before(fault)}. {for_page(fault.advice)}"
        )
        if fault.evidence:
            st.caption(f"Speaks for it: {for_page('; '.join(fault.evidence))}.")
    folded = st.expander("All that may be the matter", key="check_all_faults", on_change="rerun")
    if folded.open:
        with folded:
            table(list_faults(diagnosis))


def _before(fault: FoundFault) -> str:
    known = fault.measured or fault.before == 1.0
    return "" if known else f" ({percent(fault.before)} before anything was read)"


def _measure(diagnosis: Diagnosis) -> None:
    """Draw what would tell more, most telling first."""
    if not diagnosis.next_steps:
        return
    folded = st.expander("What would tell more, most telling first", key="check_measure", on_change="rerun")
    if not folded.open:
        return
    with folded:
        st.markdown(
            "\n".join(
                f"{i}. {for_page(capital(step.label))}: {for_page(step.why)}."
                for i, step in enumerate(diagnosis.next_steps[:MOST_STEPS], start=1)
            )
        )
        st.caption("What shows whether the wheel may come out counts more than how much it tells.")


def _fits(diagnosis: Diagnosis) -> None:
    """Draw whether the parts go together."""
    st.header("Do the parts fit", anchor=False)
    measured = [fit for fit in diagnosis.fits if fit.state != "not measured"]
    if measured:
        table(list_fits(merge_sides(measured), caption="Whether the parts fit"))
    else:
        st.markdown("Nothing was measured that would tell.")
    missing = [fit for fit in diagnosis.fits if fit.state == "not measured"]
    folded = st.expander("What to measure for it", key="check_fits", on_change="rerun")
    if folded.open and missing:
        with folded:
            table(list_fits(merge_sides(missing), caption="What to measure"))
