"""Under the rider: both rings of balls with their loads, pressure over the sweep, and the numbers behind it."""

from functools import partial
from typing import cast

import streamlit as st

from conemodel.base.plain_text import for_page
from conemodel.parts.scenario import Scenario
from conemodel.show.bearing.ball_loads import rings_svg, rings_words
from conemodel.show.bearing.race_charts import alt_text_pressure, pressure_over_cone
from conemodel.show.bearing.tables import list_balls, list_races, list_stage_loads
from conemodel.show.bearing.under_rider import rider_lead, rider_lines
from conemodel.tasks.bearing.ball_loads import loads_over, stage_loads
from conemodel.tasks.bearing.load_cases import Case, cases_of
from conemodel.tasks.setting.predict import Prediction
from conemodel.ui.cache import cached_loads, cached_race_sweep
from conemodel.ui.frame import chart, table, take_csv
from conemodel.ui.picture import draw_by_width
from conemodel.ui.url_state import choice

CASE_WORDS: dict[str, str] = {
    "straight": "Straight ahead",
    "side": "With side load",
    "impact": "Impact",
    "pedalling": "Pedalling",
    "braking": "Braking",
    "none": "Preload alone",
}


def show_ball_loads(prediction: Prediction, scenario: Scenario) -> None:
    """Draw what the balls of a clamped hub carry; `scenario` has the loads asked for."""
    offered: dict[str, str] = {
        case: words for case, words in CASE_WORDS.items() if case in (*cases_of(scenario), "none")
    }
    asked = choice(
        st.segmented_control, "Load on the wheel", offered, key="case", default="straight", required=True
    )
    case = cast("Case", asked)
    loads = cached_loads(scenario, case)
    st.markdown(f"### {for_page(rider_lead(loads))}")
    picture, curve = st.columns([3, 2], gap="large")
    with picture:
        draw_by_width("rings", partial(rings_svg, loads, scenario), alt=rings_words(loads))
    with curve:
        _pressure(prediction, scenario, case)
    with st.expander("Why: pressures, ellipses, permanent set, ball by ball"):
        for line in rider_lines(loads, scenario):
            st.markdown(f"- {for_page(line)}")
        table(list_stage_loads(stage_loads(scenario, case)))
        table(list_balls(loads))
    with st.container(horizontal=True):
        take_csv("Every ball (CSV)", lambda: list_balls(loads), "balls.csv")
        take_csv("The sweep (CSV)", lambda: list_races(cached_race_sweep(scenario)), "races.csv")


def _pressure(prediction: Prediction, scenario: Scenario, case: Case) -> None:
    """Draw peak pressure across the sweep."""
    races = cached_race_sweep(scenario)
    worst = races.worst.get(case) or loads_over(scenario, case, end_play=races.end_play)
    chart(
        pressure_over_cone(races, worst, case, prediction),
        key="pressure",
        alt=alt_text_pressure(races, worst, case, prediction),
    )
    assumed = scenario.assumed
    st.caption(
        f"Worst ball, cone or cup, over a ball pitch. Shaded: groove radii from {assumed.conformity_low:g} to "
        f"{assumed.conformity_high:g} of the ball, which nobody measured. 4200 MPa: ISO 76."
    )
