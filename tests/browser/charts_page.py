"""Charts of all ready hubs and of random settings of them, one below the other, to see how their words lie."""

import random

import streamlit as st

from conemodel.parts.crowd import load_crowd
from conemodel.parts.population import DEFAULT
from conemodel.show.population.charts import back_off_chart
from conemodel.show.setting.cone_marks import NOW
from conemodel.show.setting.end_play_chart import against_cone_position, now_rows
from conemodel.show.setting.limits_chart import binds_chart
from conemodel.tasks.population.study import many_hubs
from conemodel.tasks.setting.overrides import apply_overrides
from conemodel.tasks.setting.predict import predict
from conemodel.tasks.setting.sweep import sweep
from conemodel.ui.choose_hub import ready_hubs
from conemodel.ui.frame import chart

RANDOM = 50

st.set_page_config(page_title="Charts", layout="wide")
draw = random.Random(7)
hubs = list(ready_hubs().values())
for _ in range(RANDOM):
    asked = {
        "back-off": f"{draw.uniform(-60, 240):.1f}deg",
        "thread-slack": f"{draw.uniform(0.015, 0.25):.3f}",
        "clamp-force": f"{draw.uniform(500, 9000):.0f}",
    }
    hubs.append(apply_overrides(draw.choice(list(ready_hubs().values())), asked))
for number, hub in enumerate(hubs):
    found = predict(hub)
    swept = sweep(hub)
    spec = against_cone_position(swept, found)
    chart(spec, key=f"cone {number}", alt="cone", moving={NOW: now_rows(swept, found)})
    chart(binds_chart(found.window, found), key=f"limits {number}", alt="limits")
chart(back_off_chart(many_hubs(load_crowd(DEFAULT), hubs=3000)), key="many", alt="many")
