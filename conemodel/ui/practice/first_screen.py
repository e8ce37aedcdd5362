"""Practise before an exercise is chosen: who practises, what is due today and why, and the way in."""

from contextlib import suppress
from datetime import date

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.table import table_of_words
from conemodel.record.database import RecordError
from conemodel.show.practice.plan_words import counted, today_words
from conemodel.tasks.practice.catalogue import ladder_titles
from conemodel.tasks.practice.plan.bench_clock import ASSUMED
from conemodel.tasks.practice.plan.spacing import DAYS
from conemodel.tasks.practice.plan.today import MOST, Planned, Today
from conemodel.ui.files import say_problems
from conemodel.ui.frame import table
from conemodel.ui.practice.begin import begin_planned, take_chosen, take_up_kept
from conemodel.ui.practice.choose import ROUNDS, bring_file, exercise_titles, say_problem
from conemodel.ui.practice.name import ask_name
from conemodel.ui.practice.plan import done_so_far, read_today
from conemodel.ui.practice.result import WRONG_IN
from conemodel.ui.practice.trained import show_run
from conemodel.ui.practice.unfinished import offer_unfinished

HOW = f"""
What was missed comes again after {DAYS[0]} day, what was right after {DAYS[1]}, what was right again after {DAYS[2]}.
That practice with pauses, and as hard as one can just manage, holds better is the finding of a review (Spruit and
others, Psychological Research 78, 2014); the number of days is a choice, not a measurement. The exercises are mixed: a
mixed order teaches hands better than blocks of the same (Sattelmayer and others, BMC Medical Education 16, 2016). A new
exercise is added while nothing is missed. What you take for one another when you name hubs is dealt to you more often.

A day's hubs take at most some {MOST / 60:.0f} minutes. How long a hub takes is the median of your own hubs, once some
were timed; before that it is assumed: {ASSUMED["touch"]:.0f} s for a first touch, {ASSUMED["name"]:.0f} s for a hub to
be named, {ASSUMED["set"]:.0f} s for one to be set.
"""
"""How the plan is made."""


def show_first_screen() -> None:
    """Draw the name, today's plan, and the choice of any exercise."""
    left, right = st.columns([3, 2], gap="large")
    with right:
        ask_name()
        _choose()
    with left:
        try:
            _show_today(read_today())
        except ConemodelError as error:
            say_problems("The record could not be read, so there is no plan.", error)


def _choose() -> None:
    """Draw what else begins an exercise: the ladder, or a file."""
    names = exercise_titles()
    st.session_state.exercise = None
    st.selectbox(
        "Or choose an exercise",
        list(names),
        placeholder="All exercises",
        format_func=names.__getitem__,
        key="exercise",
        on_change=take_chosen,
    )
    with st.popover("An exercise of your own", width="content"):
        bring_file()
    with suppress(RecordError):  # said where the plan stands
        offer_unfinished(None, names, take_up_kept)
    say_problem()


def _show_today(today: Today) -> None:
    st.header(today_words(today), anchor=False)
    if today.left:
        st.button("Begin today's hubs", type="primary", on_click=begin_planned)
    show_run(done_so_far())
    if today.left:
        table(table_of_words("Today's hubs", ("Exercise", "Round", "Hubs", "Why"), map(_line, today.left)))
    st.caption(_later(today))
    with st.expander("How the plan is made"):
        st.markdown(HOW)


def _line(planned: Planned) -> tuple[str, str, str, str]:
    return (
        ladder_titles()[planned.exercise],
        ROUNDS[planned.training].lower(),
        str(planned.hubs),
        why(planned),
    )


def why(planned: Planned) -> str:
    """Return why a round is in today's plan."""
    due = planned.due
    if due is None:
        return "new"
    if due.missed is not None:
        return f"missed in {WRONG_IN[due.missed]}" if due.missed in WRONG_IN else "missed"
    return ("coached before, now on your own", "right once", "right again")[due.rights]


def _later(today: Today) -> str:
    """Return what waits, when the next exercise is due, and where the minutes come from."""
    parts = []
    if today.waiting:
        are = "is" if len(today.waiting) == 1 else "are"
        more = f"{counted(len(today.waiting), 'more exercise')} {are} due"
        parts.append(f"{more.capitalize()} and can wait: a day has at most some {MOST / 60:.0f} minutes.")
    if today.left:
        parts.append(minutes_from(today))
    elif today.next_day is not None:
        parts.append(
            f"Next due {_day_words(today.next_day, today.day)}. Any exercise can be chosen meanwhile."
        )
    return " ".join(parts)


def minutes_from(today: Today) -> str:
    """Return where the minutes of a plan come from."""
    own = {one.pace.own for one in today.left}
    if own == {True}:
        return "The minutes are those that you took before."
    return f"The minutes are assumed{' in part' if True in own else ''}: not all of this was timed yet."


def _day_words(day: date, today: date) -> str:
    days = (day - today).days
    return "tomorrow" if days == 1 else f"in {counted(days, 'day')}"
