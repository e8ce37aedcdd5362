"""Rounds of work on one hub: what was turned, what is felt now, and how to take a round back."""

from typing import get_args

import streamlit as st

from conemodel.base.errors import InputProblems
from conemodel.base.plain_text import for_page
from conemodel.base.table import Column, Table
from conemodel.base.units import DEG, KILOMETRE
from conemodel.parts.checks import Answer
from conemodel.parts.readings import MOST_ROUNDS, Round
from conemodel.show.diagnosis.field_names import label_of
from conemodel.show.formatting import degrees
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from conemodel.tasks.diagnosis.readings import readings_taken
from conemodel.tasks.diagnosis.readings.reading import WHEEL_OUT
from conemodel.tasks.wording import clock_minutes, direction
from conemodel.ui.diagnosis.declared import NEXT
from conemodel.ui.diagnosis.entries import (
    NOT_LOOKED,
    entries,
    follow,
    forget,
    keep,
    round_of,
    rounds,
    value_of,
    widget,
)
from conemodel.ui.diagnosis.fields import ask_number, ask_readings, ask_word
from conemodel.ui.diagnosis.questions import HAND, TURNS, say_measured
from conemodel.ui.frame import table

WAYS = {"in": "in (clockwise)", "out": "out (anticlockwise)"}
WORDS = {"rim_open.hand": HAND, "rim_closed.hand": HAND, "turns_closed": TURNS}

ASKED_OPENLY = {f"{NEXT}.{name}" for name in ("turned", "way", "ridden", "ridden_distance", *WORDS)}
"""Fields of a round that do not lie folded away."""


def ask_round(diagnosis: Diagnosis) -> None:
    """Draw the rounds so far and the form for the next one; folded away until something was turned or entered."""
    with st.expander("**Turned it? Say what it is like now**", expanded=bool(rounds() or _brought())):
        _list(diagnosis)
        _form(diagnosis)


def _form(diagnosis: Diagnosis) -> None:
    """Draw the form for the next round."""
    if len(diagnosis.readings.rounds) >= MOST_ROUNDS:
        st.info(f"{MOST_ROUNDS} rounds are the most. A hub that is not right by then wants new parts.")
        return
    with st.container(border=True):
        _ask_turn(diagnosis)
        _ask_ridden()
        for name, words in WORDS.items():
            keep(f"{NEXT}.{name}", _ask_felt(name, words))
        measured = bool(_brought() - ASKED_OPENLY)
        folded = st.expander(
            "Measured, or felt at the axle", key="check_next", on_change="rerun", expanded=measured
        )
        if folded.open:
            with folded:
                ask_readings("play", f"{NEXT}.")
                ask_readings("turning", f"{NEXT}.")
        st.button("Add this round", on_click=_add, width="stretch", type="primary", key="add_round")
        for problem in st.session_state.get("check_round_problems", ()):
            st.error(for_page(problem))


def _brought() -> frozenset[str]:
    """Return the fields of the next round that the address of this visit brought: they must be seen to be there."""
    begun = frozenset(field for field in entries() if field.startswith(f"{NEXT}."))
    brought: frozenset[str] = st.session_state.setdefault("check_round_brought", begun)
    return brought


_ROUNDS: tuple[Column[tuple[int, Round]], ...] = (
    Column(lambda row: f"{row[0]}" if row[0] > 1 else "1, as found", page="Round"),
    Column(lambda row: _turn_words(row[1]), page="Cone turned"),
    Column(lambda row: _ridden_words(row[1]), page="Ridden"),
    Column(lambda row: _reading_words(row[1]), page="Then read"),
)


def _turn_words(look: Round) -> str:
    return f"{degrees(abs(look.turned))} {direction(look.turned)}" if look.turned else "–"


def _ridden_words(look: Round) -> str:
    return f"{KILOMETRE.from_si(look.ridden_distance):g} km" if look.ridden_distance else look.ridden or "–"


def _reading_words(look: Round) -> str:
    read = [f"{reading.label}: {reading.describe(look)}" for reading in readings_taken(look)]
    return "; ".join(read) or "nothing read"


def _list(diagnosis: Diagnosis) -> None:
    """Draw every round with what was turned and read, and the way to take the last one back."""
    looks = list(enumerate(diagnosis.readings.rounds, start=1))
    table(Table(_ROUNDS, looks, caption="Rounds so far", words=True))
    st.button(
        "Take back the last round",
        disabled=not rounds(),
        on_click=_take_back,
        shortcut="Ctrl+Z",
        key="take_back",
    )


def _ask_turn(diagnosis: Diagnosis) -> None:
    """Ask which way and how far; as advised until something else is said."""
    move = diagnosis.move
    advised = round(DEG.from_si(abs(move.angle))) if move else None
    way = None if move is None else "out" if move.length > 0 else "in"
    follow(f"{NEXT}.turned", advised)
    follow(f"{NEXT}.way", way)
    first, second = st.columns(2)
    with first:
        keep(
            f"{NEXT}.way",
            st.pills(
                "Cone turned",
                list(WAYS),
                format_func=lambda name: WAYS[name],
                wrap=True,
                required=True,
                key=widget(f"{NEXT}.way"),
            ),
        )
    with second:
        turned = st.number_input(
            "by [°]", value=None, step=1, key=widget(f"{NEXT}.turned"), placeholder="not turned",
            help="One minute on a clock face is 6°. 0 if it was only measured again.",
        )  # fmt: skip
        keep(f"{NEXT}.turned", turned)
    if turned:
        st.caption(f"{turned}° is about {clock_minutes(DEG.to_si(turned))} on a clock face.")


def _ask_ridden() -> None:
    """Ask whether it was ridden since, and how far: play that comes back in riding was not a wrong turn."""
    ask_word(f"{NEXT}.ridden", "Ridden since the round before?", get_args(Answer))
    if value_of(f"{NEXT}.ridden") == "yes":
        ask_number(f"{NEXT}.ridden_distance", "About how far", step=5.0, form="%.0f", empty="not said")


def _ask_felt(name: str, words: dict[str, str]) -> str | None:
    place = name.removesuffix(".hand")
    measured = value_of(f"{NEXT}.{place}.play")
    chosen = st.pills(
        f"{label_of(place)}, now",
        list(words),
        format_func=lambda word: words[word],
        key=widget(f"{NEXT}.{name}", NOT_LOOKED),
        required=True,
        wrap=True,
        disabled=measured is not None,
        help=WHEEL_OUT if place.endswith("open") else None,
    )
    say_measured(measured)
    return None if chosen in (None, NOT_LOOKED) else str(chosen)


def _add() -> None:
    """Add the round entered, or keep it and say what is wrong with it."""
    given = dict(entries())
    turned, way = given.get(f"{NEXT}.turned"), given.get(f"{NEXT}.way")
    st.session_state.check_round_problems = ()
    if turned:
        if way is None:
            st.session_state.check_round_problems = ("Say which way the cone was turned.",)
            return
        given[f"{NEXT}.turned_{way}"] = float(turned)
    for place in ("rim_open", "rim_closed"):
        if f"{NEXT}.{place}.play" in given:
            given.pop(f"{NEXT}.{place}.hand", None)
    try:
        look = round_of(given)
    except InputProblems as error:
        st.session_state.check_round_problems = tuple(str(problem) for problem in error.problems)
        return
    if look.empty:
        st.session_state.check_round_problems = (
            "Nothing was turned, ridden or felt: there is no round to add.",
        )
        return
    st.session_state.check_rounds = (*rounds(), look)
    forget(f"{NEXT}.")


def _take_back() -> None:
    """Take the last round back."""
    st.session_state.check_rounds = rounds()[:-1]
