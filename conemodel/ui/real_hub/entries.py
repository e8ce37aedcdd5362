"""What is entered on the page of a real hub: kept in its address, so that a reload or a link holds it."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from math import isfinite
from typing import Any

import streamlit as st

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.units import MINUTE, MM, Unit
from conemodel.parts.real_hub import STATES, InState, RealHubReadings
from conemodel.parts.schema import PartProblems
from conemodel.show.real_hub.wording import STATE_WORDS
from conemodel.ui.url_state import choice, keep

SHORT = {"nut_loose": "loose", "locked": "locked", "clamped": "clamped"}
"""What a state is called in the address and in a label."""

EDGES: dict[str, tuple[str, str]] = {
    "play_from": ("Play from", "play"),
    "drag_up_to": ("Drag up to", "drag"),
}
"""What is felt for, by its field: its label, and its name in the address."""

GOES: dict[str, str] = {"": "", " again": "2"}
"""A first and a second go: what is added to a label, and to a name in the address."""

MEASURES: dict[str, tuple[str, str, Unit]] = {
    "measured_at": ("Measured at, min", "at", MINUTE),
    "axle_play": ("Along the axle, mm", "axle", MM),
    "rim_play": ("At the rim, mm", "rim", MM),
}
"""What may be measured in a state, by its field: its label, its name in the address, its unit."""


def ask_counts() -> None:
    """Draw a place for every count in minutes: three states, play and drag, each twice."""
    for name, state in STATES.items():
        st.markdown(f"**{STATE_WORDS[state].capitalize()}**, minutes out of finger contact")
        with st.container(horizontal=True, key=f"cm-counts-{SHORT[name]}"):
            for label, key in _counts(name):
                _ask(label, key, step=0.5)


def ask_measures() -> None:
    """Draw a place for what a gauge or a ruler read in each state."""
    st.caption(
        "A gauge at the end of the axle, which is pushed along; or a ruler at the rim, pushed lightly."
    )
    for name, state in STATES.items():
        st.markdown(f"**{STATE_WORDS[state].capitalize()}**")
        with st.container(horizontal=True, key=f"cm-measures-{SHORT[name]}"):
            for label, key, unit in MEASURES.values():
                step = 0.5 if unit is MINUTE else 0.01
                _ask(f"{label}, {SHORT[name]}", f"{SHORT[name]}_{key}", step=step)
    options = {"ruler": "ruler", "dial": "dial gauge"}
    choice(
        st.segmented_control, "Play at the rim read by", options, key="rim_by", default="ruler", required=True
    )


def entered(*, hand: str) -> RealHubReadings:
    """Return what is entered, felt by a `hand`.

    Raises:
        InputProblems: what cannot be, every mistake of it at once, by the words on the page.
    """
    states: dict[str, InState] = {}
    problems: list[Problem] = []
    for name in STATES:
        try:
            states[name] = InState(**_in_state(name))
        except PartProblems as error:
            problems += _on_page(name, error)
    if problems:
        raise InputProblems(problems)
    return RealHubReadings().replace(hand=hand, **states)


def forget() -> None:
    """Clear every number entered."""
    for key in _keys():
        st.session_state[key] = None


def _counts(name: str) -> Iterator[tuple[str, str]]:
    """Yield label and key of every count in a state."""
    for words, key in EDGES.values():
        for more, number in GOES.items():
            yield f"{words}{more}, {SHORT[name]}", f"{SHORT[name]}_{key}{number}"


def _keys() -> Iterator[str]:
    """Yield the key of every number."""
    for name in STATES:
        yield from (key for _, key in _counts(name))
        yield from (f"{SHORT[name]}_{key}" for _, key, _ in MEASURES.values())


def _ask(label: str, key: str, *, step: float) -> None:
    """Draw a number that may be left out; what cannot be is said with all other mistakes, not refused here."""
    if key not in st.session_state:
        st.session_state[key] = _number(st.query_params.get(key))
    value = st.number_input(
        label,
        value=None,
        step=step,
        format="%g",
        key=key,
        persist_state="session",
        width=168,
        placeholder="–",
    )
    keep(key, "" if value is None else f"{value:g}", "")


def _value(key: str) -> float | None:
    """Return a number that is entered, also where its fold is not drawn in this run."""
    found = st.session_state.get(key, _number(st.query_params.get(key)))
    return None if found is None else float(found)


def _number(text: str | None) -> float | None:
    """Return the finite number in a text, or None."""
    try:
        value = float(text or "")
    except ValueError:
        return None
    return value if isfinite(value) else None


def _in_state(name: str) -> Mapping[str, Any]:
    """Return the fields of a state as entered [SI]."""
    short = SHORT[name]
    found: dict[str, Any] = {}
    for field, (_, key) in EDGES.items():
        tries = (_value(f"{short}_{key}{number}") for number in GOES.values())
        found[field] = tuple(MINUTE.to_si(value) for value in tries if value is not None)
    for field, (_, key, unit) in MEASURES.items():
        value = _value(f"{short}_{key}")
        found[field] = None if value is None else unit.to_si(value)
    found["rim_by"] = "dial gauge" if st.session_state.get("rim_by") == "dial" else "ruler"
    return found


def _on_page(name: str, error: PartProblems) -> Iterator[Problem]:
    """Yield the mistakes in a state by the labels on the page."""
    labels = {field: words for field, (words, *_) in (EDGES | MEASURES).items()}
    for mistake in error.mistakes:
        where = f"{labels.get(mistake.field, mistake.field)}, {STATE_WORDS[STATES[name]]}"
        problem = replace(InState.say(mistake), where=where)
        yield replace(problem, limit=problem.limit.replace("measured_at", "Measured at"))
