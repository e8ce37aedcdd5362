"""Why: the good range, what each assumption does to the turn, forces, pressures and torque; folded away."""

import streamlit as st

from conemodel.base.units import DEG, KILONEWTON, MPA, NEWTON_METRE, NEWTON_MM
from conemodel.show.words import STAGE_WORDS, cone_angle, degrees, millimetres, newtons
from conemodel.tasks.predict import Prediction
from conemodel.tasks.words import turn_size
from conemodel.ui.frame import table


def why(prediction: Prediction) -> None:
    """Draw the engineering numbers, folded away."""
    folded = st.expander(
        "Why: good range, assumptions, forces and pressures",
        key="why",
        on_change="rerun",
        bind="query-params",
    )
    if not folded.open:  # what nobody looks at is not sent
        return
    with folded:
        _range(prediction)
        _assumptions(prediction)
        _forces(prediction)


def _range(prediction: Prediction) -> None:
    window = prediction.window
    width = DEG.from_si(cone_angle(prediction, window.width))
    st.markdown(
        f"**Good range, clamped**: {millimetres(window.tight_edge, sign=True)} to "
        f"{millimetres(window.loose_edge, sign=True)} of end play, {width:.0f}° of cone."
    )
    rows = [
        [
            limit.label + (" (met first)" if limit.binding else ""),
            f"{limit.unit.from_si(limit.value):g} {limit.unit.symbol}".strip(),
            limit.side,
            millimetres(limit.edge, sign=True),
        ]
        for limit in window.limits
    ]
    table(["Limit", "Value", "Side", "Met at"], rows, caption="Limits of the good range")


def _assumptions(prediction: Prediction) -> None:
    turn = prediction.verdict.turn
    if turn is None:
        return
    spanner = prediction.scenario.assumed.spanner_length
    st.markdown(f"**The turn**: {turn_size(turn.angle, spanner=spanner)}. What nobody measured moves it:")
    lead = turn.lead_per_radian
    rows = [
        [
            spread.label,
            spread.span,
            degrees(spread.low / lead, sign=True),
            degrees(spread.high / lead, sign=True),
        ]
        for spread in turn.spreads
    ]
    table(
        ["Assumed", "Range", "Turn from", "to"],
        rows,
        caption="What each assumption does to the turn; + is out",
    )


def _forces(prediction: Prediction) -> None:
    joint, clamp = prediction.joint, prediction.clamp
    st.markdown(
        f"**Locked** with {KILONEWTON.from_si(joint.force):.1f} kN between cone and nut; the cone must be held with "
        f"{NEWTON_METRE.from_si(joint.holding_torque):.1f} N·m. **Clamped** with "
        f"{KILONEWTON.from_si(clamp.force):.1f} kN ({clamp.source}); the axle shortens by "
        f"{millimetres(clamp.shortening)} between the cones."
    )
    rows = [
        [
            STAGE_WORDS[stage.name],
            f"{MPA.from_si(stage.peak_pressure):.0f} MPa",
            f"{NEWTON_MM.from_si(stage.torque):.1f} N·mm",
            f"{newtons(stage.preload_range[0])} to {newtons(stage.preload_range[1])}",
        ]
        for stage in prediction.stages.values()
    ]
    table(
        ["Stage", "Peak pressure", "Turning torque", "Preload over a turn"],
        rows,
        caption="Pressure on the races and torque from the ball loads",
    )
