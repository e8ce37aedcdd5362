"""Charts of torque, drag, spin, pressure, life and rocking of several hubs, set too tight, well and loose."""

import streamlit as st

from conemodel.base.units import DEG
from conemodel.parts.scenario import Scenario
from conemodel.show.bearing.race_charts import life_over_cone, pressure_over_cone, spin_over_cone
from conemodel.show.bearing.rocking_chart import rocking_chart
from conemodel.show.bearing.spin_down_chart import spin_down_chart
from conemodel.show.bearing.torque_charts import drag_bars, torque_over_turn
from conemodel.tasks.bearing.feel_when_turned import signature
from conemodel.tasks.bearing.race_sweep import sweep_races
from conemodel.tasks.bearing.rocking import bench_and_frame
from conemodel.tasks.bearing.spin_down import spin_down
from conemodel.tasks.setting.predict import predict
from conemodel.ui.choose_hub import ready_hubs
from conemodel.ui.frame import chart

HUBS = ("touring-rear", "road-front", "city-nutted", "dented-cone", "one-ball-short", "dragging-seal")
TURNS = (0.0, 60.0, 150.0)
"""How far out the cones are turned [°]."""


def draw(name: str, hub: Scenario) -> None:
    """Draw every chart of a hub."""
    prediction, races, felt = predict(hub), sweep_races(hub), signature(hub)
    charts = {
        "torque": torque_over_turn(felt),
        "drag": drag_bars(felt.drag, heading="What makes the level, without load"),
        "spin": spin_down_chart(spin_down(hub)),
        "spin over": spin_over_cone(races, prediction),
        "pressure": pressure_over_cone(races, races.worst["straight"], "straight", prediction),
        "life": life_over_cone(races, prediction),
        "rocking": rocking_chart(*bench_and_frame(hub)),
    }
    for what, spec in charts.items():
        chart(spec, key=f"{name} {what}", alt=what)


st.set_page_config(page_title="Charts of bearings", layout="wide")
for each in HUBS:
    for turn in TURNS:
        draw(f"{each} {turn}", ready_hubs()[each].with_setting(back_off=DEG.to_si(turn)))
