"""Look closer: ball loads, torque and feel, fatigue life, and the limits of the good range."""

from collections.abc import Callable, Mapping, Sequence

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.plain_text import for_page
from conemodel.base.units import DEG, NEWTON
from conemodel.parts.mounting import Wheel
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import LimitName
from conemodel.show.bearing.race_charts import alt_text_life, best_angle, life_over_cone, mix_words
from conemodel.show.bearing.tables import list_races
from conemodel.show.setting.limits_chart import binds_chart, binds_words
from conemodel.show.setting.tables import list_limits
from conemodel.tasks.bearing.fatigue_life import WHAT_LIFE_SAYS
from conemodel.tasks.bearing.load_cases import SIDE_OF_RADIAL, SIDE_SHARE
from conemodel.tasks.setting.defects import Defect
from conemodel.tasks.setting.good_range import window_of
from conemodel.tasks.setting.predict import Prediction
from conemodel.ui.cache import cached_feel, cached_race_sweep
from conemodel.ui.frame import TAKE, chart, say_no_answer, take_csv
from conemodel.ui.setting.details_feel import show_rocking, show_turning
from conemodel.ui.setting.details_loads import show_ball_loads
from conemodel.ui.url_state import choice, flag, number

PARTS = {
    "off": "Closed",
    "rider": "Under the rider",
    "turning": "Turning it",
    "rocking": "Rocking it",
    "life": "Life",
    "binds": "What sets the limits",
}

LIMIT_WORDS: Mapping[LimitName, str] = {
    "rim_play": "No play felt at the rim",
    "torque": "Turning torque from preload",
    "cone_pressure": "Pressure on the cone",
    "life_ratio": "Fatigue life",
}


@st.fragment
def look_closer(prediction: Prediction) -> None:
    """Draw the choice of parts and the one chosen; only that one is worked out."""
    part = choice(
        st.segmented_control,
        "Look closer",
        PARTS,
        key="closer",
        default="off",
        required=True,
        help="Ball loads, turning and rocking by hand, fatigue life, and the limits of the good range.",
    )
    drawn: Mapping[str, Callable[[Prediction], None]] = {
        "rider": lambda each: show_ball_loads(each, ask_loads(each.scenario)),
        "turning": show_turning,
        "rocking": show_rocking,
        "life": _life,
        "binds": _binds,
    }
    if part not in drawn:
        return
    try:
        drawn[part](prediction)
    except ConemodelError as error:
        say_no_answer(error, " here")


def show_defects(prediction: Prediction, troubles: Sequence[Defect]) -> None:
    """Say, of a hub the headline calls unsound or that may not be as it should, how it feels, and what to ask."""
    with st.container(border=True):
        questions = [each for each in troubles if each.answer is None]
        if questions:
            st.markdown("**Ask first: this may not be as it should.**")
        for each in questions:
            st.markdown(f"- {for_page(each.what)} {for_page(each.cure)}")
        try:
            found = cached_feel(prediction.scenario, "clamped")
        except ConemodelError:
            return  # the rest of the page shows the error
        reasons = "; ".join(
            f"{word}: {reason}" for word, reason in zip(found.words, found.reasons, strict=True)
        )
        st.markdown(f"Turned by hand, set and clamped like this: {for_page(reasons)}.")


def ask_loads(scenario: Scenario, *, impact: bool = True) -> Scenario:
    """Draw the loads, which nobody measured, and return the scenario with them on its wheel."""
    wheel = scenario.wheel
    side = abs(wheel.side_load) or SIDE_OF_RADIAL * wheel.radial_load
    given = {
        "radial_load": ("Load of the road, straight ahead [N]", "load", 5000.0, wheel.radial_load),
        "side_load": ("Side load at the tyre [N]", "side", 2000.0, side),
    }
    if impact:
        given["impact_load"] = ("Impact: kerb or pothole [N]", "impact", 20000.0, wheel.impact_load)
    asked: dict[str, float] = {}
    with st.expander("The loads, all assumed: change them"):
        for (field, (label, key, most, default)), column in zip(
            given.items(), st.columns(len(given)), strict=True
        ):
            with column:
                asked[field] = number(
                    st.number_input, label, 0.0, most, key=key, default=default, step=50.0, format="%.0f"
                )
    loaded: Wheel = wheel.replace(**asked)
    return scenario.replace(wheel=loaded)


def _life(prediction: Prediction) -> None:
    """Draw fatigue life against the setting, with its load mix, and what it does not say."""
    scenario = ask_loads(prediction.scenario, impact=False)
    share = number(
        st.slider,
        "Share of the turns with the side load [%]",
        0.0,
        100.0,
        key="share",
        default=100 * SIDE_SHARE,
        step=5.0,
        format="%d%%",
        help="Cornering and swaying out of the saddle. Nobody has counted it: an assumption.",
    )
    races = cached_race_sweep(scenario, side_share=share / 100)
    drawn, words = st.columns([3, 2], gap="large")
    with drawn:
        chart(life_over_cone(races, prediction), key="life", alt=alt_text_life(races, prediction))
    with words:
        best = DEG.from_si(best_angle(races))
        st.markdown(
            f"**Longest with the cone {abs(best):.0f}° {'out' if best >= 0 else 'in'}: a light preload.** "
            "Each curve is a share of its own best."
        )
        st.markdown(for_page(WHAT_LIFE_SAYS))
        wheel = scenario.wheel
        st.markdown(
            f"The mix: {NEWTON.from_si(wheel.radial_load):.0f} N straight ahead on "
            f"{races.life.shares['straight']:.0%} of the turns, {mix_words(races.life)}. Only ever a ratio: no "
            "hours or kilometres follow from it."
        )
        take_csv(TAKE, lambda: list_races(races), "life.csv")


def _binds(prediction: Prediction) -> None:
    """Draw the limits of the good range, each with a switch."""
    st.markdown(
        "The first limit met on each side ends the good range. Switch one off and see which is met next. "
        "This is only to look: the verdict above keeps its limits."
    )
    scenario = prediction.scenario
    off: list[LimitName] = []
    for (name, words), column in zip(LIMIT_WORDS.items(), st.columns(len(LIMIT_WORDS)), strict=True):
        with column:
            if not flag(words, key=f"use_{name}", default=name not in scenario.limits.off):
                off.append(name)
    window = window_of(scenario.replace(limits=scenario.limits.replace(off=tuple(off))))
    st.markdown(f"**{binds_words(window, prediction)}**")
    chart(binds_chart(window, prediction), key="binds", alt=binds_words(window, prediction))
    st.caption(
        "All four limits are judgement, not measurement; change them under What counts as good. Each bar covers "
        "the end plays its limit rules out. Full bar: met first. Dashed: later."
    )
    take_csv(TAKE, lambda: list_limits(window), "limits.csv")
