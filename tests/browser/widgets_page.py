"""The widgets on invented curves, and the bench with its spanner alone.

The address says which: ?show=rock&play=0.5 (mm at the rim).
"""

from math import pi, sin, tau

import streamlit as st

from conemodel.parts.library import SCENARIOS
from conemodel.parts.toml_files import load_scenario
from conemodel.show.instrument.hand_plates import gesture_json
from conemodel.ui.widgets.contract_rock import RockCurve, RockFelt
from conemodel.ui.widgets.contract_turning import SpinCurve, SpinFelt, TurnResist, TurnZone
from conemodel.ui.widgets.contract_twirl import Grit, TwirlCurve, TwirlFelt
from conemodel.ui.widgets.hand_data import resist_data
from conemodel.ui.widgets.mount import rock_wheel, spin_wheel, twirl_axle
from conemodel.ui.widgets.whole_bench_mount import Said, whole_bench

asked = st.query_params
show = asked.get("show", "rock")
hub = load_scenario(SCENARIOS / "touring-rear.toml")
play = float(asked.get("play", "0.5")) / 1000


def rock() -> object:
    free = (-play / 2, play / 2) if play else (0.0,)
    curve = RockCurve(
        movement=[free[0] - 3e-4, *free, free[-1] + 3e-4], force=[-150.0, *(0.0 for _ in free), 150.0]
    )
    springy = "No free movement, springy from the start."
    felt = RockFelt(
        slow="Clear free movement, then springy." if play else springy,
        quick="Clear free movement, then a knock." if play else springy,
    )
    axle_end = asked.get("grip") == "axle"
    return rock_wheel(
        key="rock",
        drawing=gesture_json(
            hub, "axle end" if axle_end else "rim", stands="bench" if axle_end else "closed"
        ),
        curve=curve,
        felt=felt,
        grip="axle end" if axle_end else "rim",
        magnification=float(asked.get("times", "12" if axle_end else "20")),
    )


def twirl() -> object:
    tight = asked.get("state") == "tight"
    rough = asked.get("state") == "rough"
    level = 0.03 if tight else 0.001
    dents = [0.012 * sin(9 * tau * i / 360) if rough else 0.0 for i in range(360)]
    return twirl_axle(
        key="twirl",
        drawing=gesture_json(hub, "twirl"),
        set_id=st.session_state.get("set_id", 0),
        curve=TwirlCurve(
            friction=[level] * 8,
            dents=dents,
            grease=2e-6,
            inertia=1.2e-5,
            grit=Grit(amplitude=0.004, per_turn=12.0 if rough else 0.0),
        ),
        felt=TwirlFelt(
            turning="Smooth, stiff." if tight else "Smooth, little drag.",
            let_go="It stops dead." if tight else "It runs on.",
        ),
    )


def turn() -> str | None:
    """The bench with its spanner alone; its last act, as the other widgets return theirs."""
    contact = -30 * pi / 180
    resist = (
        TurnResist(angle=[contact - 0.2, contact, 1.0], effort=[2.0, 0.0, 0.0])
        if "stop" in asked
        else TurnResist()
    )
    free = contact - pi / 180  # so that a pixel beside thirty degrees decides no word
    zones = (TurnZone(start=-9.0, text="It stiffens."), TurnZone(start=free, text="It turns freely."))
    spanner = {
        "set_id": 0,
        "angle": 0.0,
        "origin": 0.0,
        "reference": "the pen mark" if "pen" in asked else "where it started",
        "pen": "pen" in asked,
        **resist_data(resist, zones),
    }
    told = whole_bench(
        key="turn",
        pictures={"end": {"drawing": gesture_json(hub, "end"), "hands": {"turn": spanner}}},
        said=Said(number=0, done="", told="Nothing felt yet."),
    )
    return ", ".join(f"{name}={value}" for name, value in told.acts[-1].items()) if told else None


def spin() -> object:
    drag = float(asked.get("drag", "0.01"))
    return spin_wheel(
        key="spin",
        drawing=gesture_json(hub, "spin"),
        curve=SpinCurve(
            speed=[0.0, 40.0], torque=[drag, 2 * drag], inertia=0.1, rough=0.7 if "rough" in asked else 0.0
        ),
        felt=SpinFelt(running="Runs smooth and quiet."),
        angle=1.2 if "held" in asked else 0.0,
    )


def next_hub() -> None:
    st.session_state.set_id = st.session_state.get("set_id", 0) + 1


st.title("In the hand")
st.button("Run again", key="again")
st.button("Next hub", on_click=next_hub)
hidden = st.checkbox("Hide")
if not hidden:
    gesture = {"rock": rock, "twirl": twirl, "turn": turn, "spin": spin}[show]()
    st.text(f"returned: {gesture}")
