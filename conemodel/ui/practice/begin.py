"""What is put on the bench: what the address asks for, what is chosen or planned, a file, or another hub."""

from contextlib import suppress

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems, Problem
from conemodel.base.plain_text import for_file_name
from conemodel.parts.exercise import Exercise
from conemodel.parts.toml_files import read_part
from conemodel.record.database import RecordError
from conemodel.record.journal import KeptBench
from conemodel.record.server_key import server_key
from conemodel.tasks.practice.catalogue import Link, ladder, read_link
from conemodel.tasks.practice.plan.today import Planned
from conemodel.ui.choose_hub import ready_hubs
from conemodel.ui.practice.plan import follow, follows_plan, mix_for, read_today
from conemodel.ui.practice.session import Sitting
from conemodel.ui.practice.sit_down import SELF, fresh_seed, sit_down
from conemodel.ui.practice.unfinished import find_in_address, go_on, latest_of, leave
from conemodel.ui.visit import recall_name

OWN = "own"
"""Start of the name of an exercise brought as a file."""

DONE_FOR_TODAY = "That was today's plan. Here is the next exercise, if you like to go on."

SALT_KEY, PROBLEM_KEY, SITTINGS_KEY, NOW_KEY = "class_salt", "practise_problem", "sittings", "sitting"


def begin_from_address() -> None:
    """Go on with what the address has under way, or begin what it asks for, if anything.

    A link that cannot be used, and a bench that cannot be gone on with, are explained.
    """
    code, name = st.query_params.get("link"), st.query_params.get("exercise", "")
    known = ladder()
    if not code and name not in known:
        return
    if not code:
        recall_name()
    if kept := find_in_address(code, name):
        take_up_kept(kept)
    elif code:
        try:
            link = read_link(code)
            if link.exercise not in known:
                raise InputProblems([_not_here(link.exercise)])
            st.session_state[SALT_KEY] = link.salt
            _begin(link)
        except InputProblems as error:
            st.session_state[PROBLEM_KEY] = "\n".join(str(problem) for problem in error.problems)
    if NOW_KEY not in st.session_state:
        _begin(_fresh(name if name in known else next(iter(known))))


def _not_here(name: str) -> Problem:
    return Problem(where="link", value=name, limit="is not an exercise here", remedy="ask for its file")


def _no_such_hub(name: str) -> Problem:
    known = ", ".join(ready_hubs())
    return Problem(
        where="your file: scenario", value=name, limit="is not a hub here", remedy=f"one of {known}"
    )


def _fresh(exercise: str, *, training: bool = True) -> Link:
    """Return a link to a new hub; an exercise begins in training."""
    salt = st.session_state.get(SALT_KEY, SELF)
    known = ladder().get(exercise)
    training = training and (known is None or known.assessed)
    mix = mix_for(known) if known is not None and salt == SELF else ""
    return Link(exercise=exercise, salt=salt, seed=fresh_seed(), training=training, mix=mix)


def begin_round(sitting: Sitting, *, training: bool) -> None:
    """Begin the coached or the assessed round of the exercise on the bench, on a new hub."""
    _begin(_fresh(sitting.link.exercise, training=training), sitting.own)


def _begin(link: Link, own: Exercise | None = None) -> None:
    """Put an exercise on the bench at its start."""
    exercise = own or ladder()[link.exercise]
    _put(sit_down(exercise, link, key=server_key(), own=own is not None))


def _put(sitting: Sitting) -> None:
    """Put a sitting on the bench in place of another of the same exercise."""
    sittings: dict[str, Sitting] = st.session_state[SITTINGS_KEY]
    sittings.pop(sitting.link.exercise, None)
    sittings[sitting.link.exercise] = sitting
    st.session_state[NOW_KEY] = sitting.link.exercise


def take_up_kept(kept: KeptBench) -> None:
    """Put a bench of the record on the bench as it was left, or say why that cannot be."""
    st.session_state.pop(PROBLEM_KEY, None)
    try:
        sitting = go_on(kept)
    except ConemodelError as error:
        st.session_state[PROBLEM_KEY] = (
            f"{error}\nWhat is kept of it stays in the record, as everything else does."
        )
    else:
        st.session_state[SALT_KEY] = sitting.link.salt
        _put(sitting)


def take_chosen() -> None:
    """Take up the exercise chosen: where it was left, or a new one."""
    name = st.session_state.exercise
    st.session_state.pop(PROBLEM_KEY, None)
    follow(plan=False)
    if name in st.session_state[SITTINGS_KEY]:
        st.session_state[NOW_KEY] = name
    elif kept := latest_of(name):
        take_up_kept(kept)
    else:
        _begin(_fresh(name))


def begin_another_hub() -> None:
    """Begin the same exercise on another hub; one under way is left, and stays in the record as a start."""
    sitting: Sitting = st.session_state[SITTINGS_KEY][st.session_state[NOW_KEY]]
    st.session_state.pop(PROBLEM_KEY, None)
    leave(sitting)
    begin_round(sitting, training=sitting.link.training)


def begin_next() -> None:
    """Begin the next round of today's plan where that is followed and one is left, else the next of the ladder."""
    names = list(ladder())
    now = st.session_state[NOW_KEY]
    if follows_plan():
        if (planned := _next_planned(after=now)) is not None:
            _begin_round_of(planned)
            return
        st.toast(DONE_FOR_TODAY)
    st.session_state.pop(PROBLEM_KEY, None)
    place = names.index(now) + 1 if now in names else 0
    _begin(_fresh(names[place % len(names)]))


def begin_planned() -> None:
    """Begin the first round that is left of today's plan; where none is, the first screen says so."""
    follow(plan=True)
    if (planned := _next_planned(after=None)) is None:
        leave_bench()
    else:
        _begin_round_of(planned)


def _next_planned(after: str | None) -> Planned | None:
    """Return the next round of today's plan after an exercise, None where none is left or can be read."""
    with suppress(RecordError):  # said on the first screen
        return read_today().next_after(after)
    return None


def _begin_round_of(planned: Planned) -> None:
    """Begin a round of today's plan, or go on with it where it was left half done."""
    st.session_state.pop(PROBLEM_KEY, None)
    there: Sitting | None = st.session_state[SITTINGS_KEY].get(planned.exercise)
    if there is not None and there.marked is None and there.link.training == planned.training:
        st.session_state[NOW_KEY] = planned.exercise
    else:
        _begin(_fresh(planned.exercise, training=planned.training))


def leave_bench() -> None:
    """Go back to where no exercise is chosen yet; what is on the bench stays there."""
    for key in (NOW_KEY, PROBLEM_KEY):
        st.session_state.pop(key, None)
    for key in ("exercise", "link"):
        st.query_params.pop(key, None)


def take_file() -> None:
    """Begin the exercise in the file just brought, or say what is wrong with it."""
    sent = st.session_state.exercise_file
    st.session_state.pop(PROBLEM_KEY, None)
    if sent is None:
        return
    try:
        exercise = read_part(Exercise, sent.getvalue(), name="your file")
        if exercise.scenario not in ready_hubs():
            raise InputProblems([_no_such_hub(exercise.scenario)])
        _begin(_fresh(f"{OWN}-{for_file_name(exercise.name)}".rstrip("-")), exercise)
    except InputProblems as error:
        st.session_state[PROBLEM_KEY] = "\n".join(str(problem) for problem in error.problems)
