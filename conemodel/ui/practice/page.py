"""Practise: a hub with hidden numbers, set by feel; then the truth."""

from typing import Literal

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.base.plain_text import for_html, for_page
from conemodel.parts.exercise import Exercise
from conemodel.record.attempts import attempt_of, delete_attempt
from conemodel.record.database import Database
from conemodel.tasks.practice.actions import Take
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.plan.hub_result import hub_results
from conemodel.ui.files import say_problems
from conemodel.ui.frame import begin_page, end_page
from conemodel.ui.practice.begin import begin_another_hub, begin_next
from conemodel.ui.practice.bench import hands_for, work_with
from conemodel.ui.practice.bench_time import count_time, time_taken
from conemodel.ui.practice.choose import choose
from conemodel.ui.practice.coaching import coach, say_hub_before
from conemodel.ui.practice.controls import (
    by_hand,
    fold_of_locking,
    fold_of_looking,
    fold_of_spinning,
    judge,
    say,
    technique_of,
)
from conemodel.ui.practice.first_screen import show_first_screen
from conemodel.ui.practice.log import set_styles, show_bench, show_log, show_next_step
from conemodel.ui.practice.reference_hubs import shelf
from conemodel.ui.practice.result import RESULT, show_details, show_verdict
from conemodel.ui.practice.session import Sitting, Stand
from conemodel.ui.practice.unfinished import say_state
from conemodel.ui.visit import typed_name
from conemodel.ui.widgets.next_focus import hand_focus_on

HANDS = "cm-hands"
"""Where the bench stands, and what is done beside it."""


def page() -> None:
    """Draw the page."""
    set_styles()
    try:
        with st.container(key="cm-bench-head", horizontal=True, vertical_alignment="center", gap="small"):
            begin_page("Practise", "Set a hub by feel. Its numbers are hidden.")
            sitting = choose()
    except ConemodelError as error:
        say_problems("There is no bench to practise on just now.", error)
    else:
        _lead_focus(sitting)
        if sitting is None:
            show_first_screen()
            end_page()
            return
        if sitting.stand.bench.finished:
            _show_mark(sitting)
        else:
            _show_bench(sitting)
    end_page()


def _lead_focus(sitting: Sitting | None) -> None:
    """Hear what was done, and lead the focus to the bench that was opened, or to the verdict on it."""
    if sitting is None:
        hand_focus_on("", turn="none chosen")
        return
    sitting.stand.hear()
    finished = sitting.stand.bench.finished
    hand_focus_on(RESULT if finished else HANDS, turn=f"{sitting.stand.name} {finished}")


@st.fragment
def _show_bench(sitting: Sitting) -> None:
    """Draw goal, hands and what was felt; a gesture reruns only this."""
    stand = sitting.stand
    stand.hear()
    count_time(stand)
    if stand.bench.finished:
        st.rerun()
    _goal(sitting.exercise)
    say_state(sitting, begin_another_hub)
    left, right = st.columns([2, 1], gap="large")
    with left.container(key=HANDS, gap="xsmall"):
        say_hub_before(stand)
        show_next_step(stand.bench)
        work_with(stand, hands_for(sitting.exercise), technique=technique_of(stand))
        by_hand(stand)
        judge(stand)
        say(stand)
        fold_of_locking(stand)
        fold_of_looking(stand)
        fold_of_spinning(stand)
    with right:
        st.markdown("**On the bench**")
        _hubs(stand)
        show_bench(stand)
        if not sitting.exercise.assessed:
            coach(stand)
        st.markdown("**Done and felt so far**")
        show_log(stand)
    if not sitting.exercise.assessed:
        shelf(sitting)
    done = sum(hub.done is not None for hub in stand.bench.hubs)
    hand_focus_on(HANDS, turn=f"{stand.name} {done}", key="next hub")


def _goal(exercise: Exercise) -> None:
    goal = " ".join(exercise.goal.split())  # it may come from a file, so it is escaped
    st.html(f'<p class="cm-goal"><b>Goal:</b> {for_html(goal)}</p>')


def _hubs(stand: Stand) -> None:
    """Draw which of several hubs is on the bench."""
    bench = stand.bench
    if len(bench.hubs) == 1:
        return
    key = f"{stand.name} hub"

    def taken() -> None:
        if st.session_state[key] is not None:
            stand.do(Take(st.session_state[key]))

    st.session_state[key] = bench.current
    st.segmented_control(
        "Hub",
        range(len(bench.hubs)),
        format_func=lambda n: ("" if n else "Hub ") + f"{n + 1}" + (" done" if bench.hubs[n].done else ""),
        key=key,
        on_change=taken,
        required=True,
        wrap=True,
        label_visibility="collapsed",
    )


def _show_mark(sitting: Sitting) -> None:
    """Mark the exercise once, save the attempt once, and show the mark."""
    if sitting.marked is None:
        sitting.marked = mark(sitting.stand.bench)
        sitting.saved = _save_attempt(sitting)
    show_verdict(sitting)
    again, on = st.columns(2)
    kinds: tuple[Literal["primary", "secondary"], ...] = ("secondary", "primary")
    passed = sitting.marked.passed
    again.button("Again, another hub", on_click=begin_another_hub, width="stretch", type=kinds[not passed])
    on.button("Next exercise", on_click=begin_next, width="stretch", type=kinds[passed])
    show_details(sitting)
    if isinstance(sitting.saved, int):
        who = "the name you typed" if typed_name() else "no name"
        st.caption(f"Kept in the record on this computer, under {who}.")
        st.button("Delete this attempt", on_click=_forget, args=(sitting,))
    elif sitting.saved:
        st.caption(for_page(sitting.saved))


def _save_attempt(sitting: Sitting) -> int | str:
    """Save the attempt and return its number, or why it was not saved."""
    if sitting.marked is None:
        return "Not marked yet."
    try:
        attempt = attempt_of(
            sitting.marked,
            sitting.link,
            name=typed_name(),
            seconds=time_taken(sitting.stand),
            hubs=hub_results(sitting.stand.bench, sitting.marked),
        )
        return sitting.keeping.save(attempt) or "Not kept."
    except (InputProblems, ConemodelError) as error:
        return f"Not kept in the record: {error}"


def _forget(sitting: Sitting) -> None:
    if isinstance(sitting.saved, int):
        delete_attempt(sitting.saved, Database())
        sitting.saved = "Deleted from the record."
