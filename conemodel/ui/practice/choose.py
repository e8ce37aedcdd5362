"""Which exercise is on the bench: chosen, or named by a link, which holds no hidden number."""

from contextlib import suppress

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems, Problem
from conemodel.base.plain_text import for_file_name, one_line
from conemodel.parts.exercise import Exercise
from conemodel.parts.toml_files import read_part
from conemodel.record.database import RecordError
from conemodel.record.journal import KeptBench
from conemodel.record.server_key import server_key
from conemodel.tasks.practice.catalogue import Link, ladder, read_link
from conemodel.ui.choose_hub import ready_hubs
from conemodel.ui.practice.session import Sitting
from conemodel.ui.practice.sit_down import SELF, fresh_seed, sit_down
from conemodel.ui.practice.unfinished import (
    find_in_address,
    go_on,
    latest_of,
    leave,
    offer_unfinished,
    say_how_often,
)
from conemodel.ui.visit import NAME, typed_name

OWN = "own"
"""Start of the name of an exercise brought as a file."""

SALT_KEY, PROBLEM_KEY, SITTINGS_KEY, NOW_KEY = "class_salt", "practise_problem", "sittings", "sitting"


ROUNDS = {True: "Training", False: "Assessed"}
"""The rounds of an exercise, by whether they are coached."""


def choose() -> Sitting:
    """Draw the chooser and return the exercise under way.

    Raises:
        ConemodelError: it cannot be opened.
    """
    state = st.session_state
    state.setdefault(SITTINGS_KEY, {})
    if NOW_KEY not in state:
        _from_address()
    sitting: Sitting = state[SITTINGS_KEY][state[NOW_KEY]]
    names = _titles()
    state.exercise = sitting.link.exercise
    st.selectbox(
        "Exercise",
        list(names),
        format_func=lambda name: names[name],
        key="exercise",
        on_change=_chosen,
        label_visibility="collapsed",
    )
    _choose_round(sitting)
    with st.popover("Name, link", width="content"):
        _more(sitting)
    with suppress(RecordError):  # said where an act is to be kept
        sitting.keeping.call_it(typed_name())
        offer_unfinished(sitting.keeping, names, _take_up)
    if problem := state.get(PROBLEM_KEY):
        st.warning("That could not be used. Here is another hub.")
        st.code(problem, language=None, wrap_lines=True)
    st.query_params["exercise"] = sitting.link.exercise
    st.query_params["link"] = sitting.link.code
    return sitting


def _titles() -> dict[str, str]:
    titles = {name: _title(exercise) for name, exercise in ladder().items()}
    for sitting in st.session_state[SITTINGS_KEY].values():
        if sitting.own is not None:
            titles[sitting.link.exercise] = f"Your own: {one_line(sitting.own.name)}"
    return titles


def _title(exercise: Exercise) -> str:
    return f"{exercise.number}. {exercise.name}" if exercise.number else exercise.name


def _from_address() -> None:
    """Go on with what the address has under way, begin what it asks for, or the first exercise.

    A link that cannot be used, and a bench that cannot be gone on with, are explained.
    """
    code, name = st.query_params.get("link"), st.query_params.get("exercise", "")
    known = ladder()
    if kept := find_in_address(code, name):
        _take_up(kept)
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
    return Link(exercise=exercise, salt=salt, seed=fresh_seed(), training=training)


def _choose_round(sitting: Sitting) -> None:
    """Draw which round it is: coached, or assessed; the other one begins with a new hub."""
    file = sitting.own or ladder()[sitting.link.exercise]
    if not file.assessed:
        return
    key = f"{sitting.stand.name} round"

    def changed() -> None:
        if (wanted := st.session_state[key]) in ROUNDS and wanted != sitting.link.training:
            _begin(_fresh(sitting.link.exercise, training=wanted), sitting.own)

    st.session_state[key] = sitting.link.training
    st.segmented_control(
        "Round",
        list(ROUNDS),
        format_func=ROUNDS.__getitem__,
        key=key,
        on_change=changed,
        required=True,
        label_visibility="collapsed",
    )


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


def _take_up(kept: KeptBench) -> None:
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


def _chosen() -> None:
    """Take up the exercise chosen: where it was left, or a new one."""
    name = st.session_state.exercise
    st.session_state.pop(PROBLEM_KEY, None)
    if name in st.session_state[SITTINGS_KEY]:
        st.session_state[NOW_KEY] = name
    elif kept := latest_of(name):
        _take_up(kept)
    else:
        _begin(_fresh(name))


def begin_another_hub() -> None:
    """Begin the same exercise on another hub; one under way is left, and stays in the record as a start."""
    sitting: Sitting = st.session_state[SITTINGS_KEY][st.session_state[NOW_KEY]]
    st.session_state.pop(PROBLEM_KEY, None)
    leave(sitting)
    _begin(_fresh(sitting.link.exercise, training=sitting.link.training), sitting.own)


def begin_next() -> None:
    """Begin the next exercise of the ladder."""
    names = list(ladder())
    now = st.session_state[NOW_KEY]
    place = names.index(now) + 1 if now in names else 0
    _begin(_fresh(names[place % len(names)]))


def _take_file() -> None:
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


def _more(sitting: Sitting) -> None:
    """Draw what is not needed at every turn."""
    st.text_input("Your name, or none", key=NAME, max_chars=60, persist_state="session")
    st.button("Start over, another hub", on_click=begin_another_hub, width="stretch")
    with suppress(RecordError):
        say_how_often(sitting.link.exercise)
    if pages := st.session_state.get("pages"):
        st.page_link(pages["progress"], label="Progress and classes", width="stretch")
        st.page_link(pages["my-hand"], label="My hand, measured", width="stretch")
    st.markdown(
        "**Send this hub as a link.** Everybody on this server gets the same hub. The link gives nothing away."
    )
    if sitting.own is not None:
        st.markdown("Send the exercise's file too: the link does not carry it.")
    st.caption(
        "The address above the page leads to your own bench, as it stands: keep it to go on elsewhere."
    )
    link = f"/practise?exercise={sitting.link.exercise}&link={sitting.link.code}"
    st.code(link, language=None, wrap_lines=True)
    st.file_uploader(
        "An exercise of your own (TOML, up to 64 KB)",
        type=["toml"],
        key="exercise_file",
        on_change=_take_file,
    )
