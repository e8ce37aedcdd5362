"""What the numbers mean and why they come out so: good range, assumptions, forces and pressures; folded away."""

import streamlit as st

from conemodel.base.units import DEG, KILONEWTON, MM, NEWTON_METRE
from conemodel.parts.scenario import Scenario
from conemodel.show.formatting import cone_angle, millimetres, play_range_words
from conemodel.show.setting.tables import list_forces, list_limits, list_spreads, list_unknowns
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.wording import clock_face_turn
from conemodel.ui.frame import table

ASSUMED_OF_HUB = "What is only assumed of this hub, with the reason"


def show_explanation(prediction: Prediction) -> None:
    """Draw what the numbers mean and the engineering behind them, folded away."""
    folded = st.expander(
        "What these numbers mean, and why they come out so",
        key="why",
        on_change="rerun",
        bind="query-params",
    )
    if not folded.open:  # a closed fold is not sent to the browser
        return
    with folded:
        _meanings(prediction.scenario)
        _range(prediction)
        _assumptions(prediction)
        _forces(prediction)


def _meanings(scenario: Scenario) -> None:
    felt, ends = scenario.limits, scenario.axle.length / 2
    st.markdown(
        "- **End play**: how far the hub can slide along its axle. Below zero there is none left: the balls are "
        "squeezed by that much.\n"
        "- **as a turn**: the same length as a turn of the cone.\n"
        "- **Preload**: how hard the balls are pinched, as a force along the axle.\n"
        "- **Rim**: free movement of the rim from stop to stop, without pushing: what a hand finds there. Below "
        f"{MM.from_si(felt.rim_play):g} mm counts as none (assumption).\n"
        f"- **Axle end**: the same at the end of the axle, {MM.from_si(ends):.0f} mm from the middle, in the "
        f"fingers; about {MM.from_si(felt.axle_end_play):g} mm is just felt (assumption).\n"
        "- **Felt**: what a hand says to the play at the rim, then at the axle end: none, slight or clear.\n"
        "- **Under the rider**: end play is as clamped; the load of the road presses the balls on one side."
    )


def _range(prediction: Prediction) -> None:
    window = prediction.window
    width = DEG.from_si(cone_angle(prediction, window.width))
    st.markdown(
        f"**Good range, clamped**: {play_range_words(window.tight_edge, window.loose_edge, unit=' mm')}, "
        f"{width:.0f}° of cone."
    )
    table(list_limits(window))


def _assumptions(prediction: Prediction) -> None:
    turn = prediction.verdict.turn
    if turn is None:
        return
    st.markdown(f"**The turn**: {clock_face_turn(turn.angle)}. What nobody measured moves it:")
    table(list_spreads(turn))
    st.markdown("Their ranges, and why they are taken; *What is only assumed* above changes them.")
    table(list_unknowns(prediction.scenario.unknowns.values(), caption=ASSUMED_OF_HUB))


def _forces(prediction: Prediction) -> None:
    joint, clamp = prediction.joint, prediction.clamp
    st.markdown(
        f"**Locked** with {KILONEWTON.from_si(joint.force):.1f} kN between cone and nut; the cone must be held with "
        f"{NEWTON_METRE.from_si(joint.holding_torque):.1f} N·m. **Clamped** with "
        f"{KILONEWTON.from_si(clamp.force):.1f} kN ({clamp.source}); the axle shortens by "
        f"{millimetres(clamp.shortening)} between the cones."
    )
    table(list_forces(prediction))
