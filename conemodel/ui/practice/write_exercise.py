"""An exercise written by an instructor: entered in a form, checked like a file, downloaded as one."""

from typing import Any, get_args

import streamlit as st

from conemodel.base.errors import InputProblems
from conemodel.base.units import DEG, NEWTON, UM
from conemodel.parts.exercise import Exercise, Fault, Prior
from conemodel.parts.setting import State
from conemodel.parts.toml_files import write_part
from conemodel.ui.choose_hub import ready_hubs
from conemodel.ui.files import offer_file, say_problems
from conemodel.ui.setting.controls import SEATS

KINDS = {"set": "set the hub right", "name": "say what it is", "touch": "find first touch"}
STATES: tuple[State, ...] = get_args(State)
FAULTS: tuple[Fault, ...] = get_args(Fault)
STARTS = {"apart": "loosely put together", "locked": "locked as found"}
NO_SEAT = "none"


def write_exercise() -> None:
    """Draw the form and, where it makes an exercise, its file."""
    st.markdown(
        "Fill it in, take the file away, and hand it out. Trainees bring it under *Name, link* on the bench."
    )
    with st.form("exercise_form", border=True):
        values = _asked()
        st.form_submit_button("Make the file", width="stretch")
    try:
        exercise = Exercise(**values)
    except InputProblems as error:
        say_problems("That is no exercise yet.", error)
        return
    text = write_part(exercise)
    offer_file("Take the file (TOML)", "exercise.toml", text)
    with st.expander("What is in it"):
        st.code(text, language="toml", wrap_lines=True)


def _asked() -> dict[str, Any]:
    values: dict[str, Any] = {
        "name": st.text_input("Name", "After the service"),
        "goal": st.text_area(
            "Goal, as the trainee reads it", "Set this rear hub right, in at most four lockings."
        ),
        "scenario": st.selectbox("Hub", list(ready_hubs()), format_func=lambda name: ready_hubs()[name].name),
        "kind": st.selectbox("What is to be done", list(KINDS), format_func=lambda kind: KINDS[kind]),
        "start": st.selectbox("It comes", list(STARTS), format_func=lambda start: STARTS[start]),
    }
    seat = st.selectbox(
        "Clamped at the start on", [NO_SEAT, *SEATS], format_func=lambda name: SEATS.get(name, "nothing")
    )
    values["seat"] = None if seat == NO_SEAT else seat
    left, right = st.columns(2)
    values["hubs"] = int(left.number_input("Hubs", 1, 12, 1))
    values["needed"] = int(right.number_input("Of which must be right", 1, 12, 1))
    most = int(left.number_input("Locknut tightened at most (0 = no limit)", 0, 20, 4))
    values["most_locks"] = most or None
    values["rides"] = right.toggle("It is ridden once said to be done")
    values["assessed"] = right.toggle("Assessed: no undo, no known hubs to feel", value=True)
    if values["kind"] == "name":
        values["questions"] = ("name",)
    values["prior"] = _prior()
    return values


def _prior() -> Prior:
    st.markdown("**What the hidden hub is drawn from**")
    states: list[State] = st.pills(
        "Locked as found, it is", STATES, selection_mode="multi", default=["loose", "tight"]
    )
    faults: list[Fault] = st.pills(
        "What can be wrong with it", FAULTS, selection_mode="multi", default=["none"]
    )
    force = st.slider("Clamping force [N]", 1000, 20000, (3500, 7000), step=500)
    drift = st.slider("A held cone turns in by [°]", 0, 15, (2, 5))
    clearance = st.slider("Play of cone on thread, on the pitch diameter [µm]", 10, 900, (50, 250), step=10)
    return Prior(
        states=tuple(states) or ("right",),
        faults=tuple(faults) or ("none",),
        clamp_force=(NEWTON.to_si(float(force[0])), NEWTON.to_si(float(force[1]))),
        drift=(DEG.to_si(float(drift[0])), DEG.to_si(float(drift[1]))),
        thread_clearance=(UM.to_si(float(clearance[0])), UM.to_si(float(clearance[1]))),
    )
