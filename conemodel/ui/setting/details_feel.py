"""Turning it and rocking it: drag in its parts, torque over a turn, spinning down, force against movement."""

from math import pi

import streamlit as st

from conemodel.base.plain_text import for_page
from conemodel.base.units import DEG, KG_M2, MM, N_PER_MM, NEWTON_MM
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.hub import WHEEL_STIFFNESS
from conemodel.show.bearing.race_charts import alt_text_spin_over_cone, spin_over_cone
from conemodel.show.bearing.rocking_chart import alt_text_rocking, rocking_chart
from conemodel.show.bearing.spin_down_chart import spin_down_chart
from conemodel.show.bearing.tables import (
    list_movement,
    list_rocking,
    list_spin,
    list_torque,
    list_torque_variation,
)
from conemodel.show.bearing.torque_charts import (
    alt_text_torque,
    drag_bars,
    drag_words,
    felt_change,
    torque_over_turn,
)
from conemodel.show.formatting import torque_band
from conemodel.solve.wheel.ball_drag import SPIN_FRICTION
from conemodel.solve.wheel.hub_drag import GREASE_FACTOR
from conemodel.tasks.bearing.feel_when_turned import Signature
from conemodel.tasks.bearing.rocking import PUSH, Rocking
from conemodel.tasks.bearing.spin_down import (
    HEAVY_SPOT,
    QUOTED_FACTOR,
    START_SPEED,
    WHY_SPIN_PROVES_NOTHING,
    against_quoted,
    heavy_spot,
)
from conemodel.tasks.setting.predict import Prediction
from conemodel.ui.cache import cached_feel, cached_race_sweep, cached_rocking, cached_spin_down
from conemodel.ui.frame import TAKE, chart, table, take_csv
from conemodel.ui.url_state import choice, number

TURNED = {"locked": "On the bench, locked", "clamped": "In the frame, clamped"}


def show_turning(prediction: Prediction) -> None:
    """Draw the turning torque as felt, the spin-down, and a published measurement to compare it with."""
    stage = choice(st.segmented_control, "Turned", TURNED, key="turned", default="clamped", required=True)
    found = cached_feel(prediction.scenario, stage)
    st.markdown(f"### Fingers say: {for_page(', '.join(found.words))}")
    for word, reason in zip(found.words, found.reasons, strict=True):
        st.markdown(f"- **{word}**: {for_page(reason)}.")
    left, right = st.columns(2, gap="large")
    with left:
        _torque(found)
    with right:
        _drag(prediction.scenario, found)
    _show_spinning(prediction)
    _show_quoted_drag(prediction.scenario)


def _torque(found: Signature) -> None:
    chart(torque_over_turn(found), key="torque", alt=alt_text_torque(found))
    table(list_torque_variation(found, felt_change(found)))
    st.caption(
        "Shaded: changes too small to feel. Felt from 13 % of the level (a quoted experiment) or 1 N·mm (assumption). "
        "Below 0 the wheel is pulled on."
    )
    take_csv(TAKE, lambda: list_torque(found), "torque.csv")


def _drag(scenario: Scenario, found: Signature) -> None:
    chart(
        drag_bars(found.drag, heading="What makes the level, without load"),
        key="drag",
        alt=f"What makes the level: {drag_words(found.drag)}",
    )
    grease = scenario.condition.grease
    factor = GREASE_FACTOR[grease]
    thicker = "" if factor == 1 else f", {factor:g} times the drag of worn-in grease"
    st.caption(
        f"Grease: {grease}{thicker}, oil of "
        f"{scenario.condition.oil_viscosity * 1e6:.0f} mm²/s, turned once a second. Seals: as described, not measured. "
        "All assumptions. The loaded balls: as published for whole bearings, up to what their spin alone makes at "
        f"friction {SPIN_FRICTION:g}; two accounts of one friction, so they are not added."
    )


def _show_spinning(prediction: Prediction) -> None:
    """Draw the wheel spun by hand: slowing down, against the setting, and its heavy spot."""
    scenario = prediction.scenario
    coast, races = cached_spin_down(scenario), cached_race_sweep(scenario)
    st.subheader(f"Spun by hand it turns for {coast.stop_time:.0f} s", anchor=False)
    st.markdown(f"**That proves nothing.** {for_page(WHY_SPIN_PROVES_NOTHING)}")
    left, right = st.columns(2, gap="large")
    with left:
        chart(
            spin_down_chart(coast),
            key="spin_down",
            alt=f"The wheel slows from {coast.speed[0] / (2 * pi):.0f} turns a second and stands after "
            f"{coast.stop_time:.0f} s.",
        )
        spent = ", ".join(f"{name} {energy / coast.start_energy:.0%}" for name, energy in coast.spent.items())
        wheel = scenario.wheel
        st.caption(
            f"From {START_SPEED / (2 * pi):g} turns a second, {KG_M2.from_si(wheel.rim_inertia):g} kg·m², in the stand "
            f"(assumptions). What stopped it: {spent}. Air: {wheel.air_drag_area * 1e4:g} cm² of spokes and rim "
            "(assumption)."
        )
    with right:
        chart(
            spin_over_cone(races, prediction),
            key="spin_over_cone",
            alt=alt_text_spin_over_cone(races, prediction),
        )
        _heavy_spot(scenario)
    take_csv(TAKE, lambda: list_spin(coast), "spin-down.csv")


def _heavy_spot(scenario: Scenario) -> None:
    found = heavy_spot(scenario)
    mass, radius = HEAVY_SPOT
    spot = f"A valve of {mass * 1e3:.0f} g at {MM.from_si(radius):.0f} mm (assumption)"
    moment = f"{NEWTON_MM.from_si(found.moment):.0f} N·mm"
    torque = f"{torque_band(found.torque, found.torque_upper)} N·mm"
    if found.swings:
        st.markdown(
            f"**Heavy spot:** {spot} turns the wheel until it hangs within {DEG.from_si(found.angle):.0f}° of straight "
            f"down: it pulls with up to {moment}, the hub resists with {torque}."
        )
    else:
        st.markdown(
            f"**Heavy spot:** {spot} never moves the wheel: it pulls with {moment}, the hub resists with {torque}."
        )


def _show_quoted_drag(scenario: Scenario) -> None:
    """Draw the drag under load beside the quoted measurement of whole hubs."""
    found = against_quoted(scenario)
    low, high = found.factors
    st.subheader(f"Beside a measurement: {low:.2f} to {high:.2f} times the quoted drag", anchor=False)
    drawn, words = st.columns([3, 2], gap="large")
    at = f"One wheel at {found.road_speed:g} m/s under {scenario.wheel.radial_load:.0f} N"
    with drawn:
        chart(
            drag_bars(found.computed, heading=at, quoted=found.quoted),
            key="quoted",
            alt=f"{at}: {drag_words(found.computed)} Quoted: {NEWTON_MM.from_si(found.quoted):.1f} N·mm.",
        )
    words.markdown(
        "Quoted: bearing power of road wheels on the track (Martin 1998, known from a quotation). Other hubs, other "
        f"grease, other seals: the upper edge within a factor of {QUOTED_FACTOR:g} counts as agreeing."
    )


def show_rocking(prediction: Prediction) -> None:
    """Draw force against movement at the rim, bench beside frame, the wheel's own flex apart."""
    wheel = prediction.scenario.wheel
    stiffness = number(
        st.number_input,
        "Stiffness of the wheel alone, sideways at the rim [N/mm]",
        5.0,
        1000.0,
        key="flex",
        default=N_PER_MM.from_si(wheel.side_stiffness),
        step=5.0,
        format="%.0f",
        help="Spokes and rim give as well. Nobody measured it: "
        f"{WHEEL_STIFFNESS.range_in_words()} is usual (assumption).",
    )
    flexed = wheel.replace(side_stiffness=N_PER_MM.to_si(stiffness))
    bench, frame = cached_rocking(prediction.scenario.replace(wheel=flexed))
    st.markdown(f"### {_rocking_words(frame, prediction)}")
    drawn, words = st.columns([3, 2], gap="large")
    with drawn:
        chart(rocking_chart(bench, frame), key="rocking", alt=alt_text_rocking(bench, frame))
    with words:
        table(list_movement(bench, frame))
        st.markdown(
            f"Pushed with {PUSH:g} N both ways (assumption). Free play moves without any push and ends in a knock. "
            "Give needs a push and springs back: **a rim that moves is not yet play.** Hold the frame, and push "
            "lightly."
        )
        felt_from = MM.from_si(prediction.scenario.limits.rim_play)
        st.caption(f"Less than {felt_from:g} mm of free play at the rim counts as none (assumption).")
        take_csv(TAKE, lambda: list_rocking(bench, frame), "rocking.csv")


def _rocking_words(frame: Rocking, prediction: Prediction) -> str:
    """Return what the hand finds in the frame in a sentence."""
    moved = MM.from_si(float(frame.total[-1] - frame.total[0]))
    play = MM.from_si(frame.dead_band)
    if frame.dead_band <= prediction.scenario.limits.rim_play:
        return f"In the frame the rim moves {moved:.2f} mm, and none of it is play that a hand would find."
    return f"In the frame the rim moves {moved:.2f} mm; {play:.2f} mm of it is free play."
