"""Set the cone: what a setting becomes, stage by stage, and the turn to make."""

from collections.abc import Callable
from html import escape

import streamlit as st
from streamlit.delta_generator import DeltaGenerator

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.base.units import DEG, KILONEWTON, MM, MPA, NEWTON_METRE, NEWTON_MM
from conemodel.parts.files import write_part
from conemodel.parts.scenario import Scenario
from conemodel.show.charts import alt_text_where_the_play_went, where_the_play_went
from conemodel.show.curves import against_cone_position, alt_text_against_cone_position
from conemodel.show.section import hub_section_svg
from conemodel.show.tables import prediction_json, sweep_csv
from conemodel.show.words import STAGE_WORDS, cone_angle, degrees, felt_at_both, millimetres, newtons, number
from conemodel.tasks.predict import Prediction
from conemodel.tasks.study import Sweep
from conemodel.tasks.words import direction, turn_size
from conemodel.ui.address import choice
from conemodel.ui.asking import ask_setting, made_turn, start_setting, turn_by, undo_turn
from conemodel.ui.cached import picture, predicted, swept
from conemodel.ui.closer import look_closer, troubled
from conemodel.ui.frame import begin_page, by_width, chart, end_page, plain, table
from conemodel.ui.hubs import choose_hub

STATES = {"loose": "Loose", "right": "Right", "tight": "Too tight"}
SIGNS = {"loose": "↔", "right": "✓", "tight": "⊗"}
"""A sign beside each word, so that colour carries nothing alone."""


def page() -> None:
    """Draw the page."""
    begin_page("Set the cone", "Back the cone off, lock it, close the clamp: see what the setting becomes.")
    # on a phone the four places stand one below the other in this order: turn the cone, read the verdict, the rest
    (turning, answer), (more, rest) = (st.columns([1, 2], gap="large") for _ in range(2))
    with turning:
        hub = choose_hub()
        start_setting(hub, st.session_state.hub)
    scenario = _asked(hub, turning, more)
    if scenario is not None:
        _answered(scenario, answer, rest)
    end_page()


def _asked(hub: Scenario, turning: DeltaGenerator, more: DeltaGenerator) -> Scenario | None:
    """Return the hub with the setting asked for, or explain what cannot be."""
    with more, st.expander("The story of this hub"):
        st.text(hub.story.strip())
    try:
        return ask_setting(hub, first=turning, more=more)
    except InputProblems as error:
        st.error("This setting cannot be. What you entered is still there.")
        st.code(str(error), language=None, wrap_lines=True)
        return None


def _answered(scenario: Scenario, answer: DeltaGenerator, rest: DeltaGenerator) -> None:
    """Draw what the setting becomes, or say that there is no answer."""
    try:
        prediction, sweep = predicted(scenario), swept(scenario)
    except ConemodelError as error:
        st.error(f"The model found no answer for this setting: {error}. Your entries are as they were.")
        return
    with answer:
        _verdict(prediction)
        trouble = st.container()
        _section(prediction)
    with rest:
        _details(prediction, sweep)
    look_closer(prediction)
    with trouble:  # last, as a dented hub takes some tenths of a second
        troubled(prediction)


def _details(prediction: Prediction, sweep: Sweep) -> None:
    """Draw everything else a prediction has to say."""
    chart(where_the_play_went(prediction), key="waterfall", alt=alt_text_where_the_play_went(prediction))
    _stages(prediction)
    chart(
        against_cone_position(sweep, prediction),
        key="curves",
        alt=alt_text_against_cone_position(sweep, prediction),
    )
    _notes(prediction)
    _why(prediction)
    _downloads(prediction, sweep)


def _verdict(prediction: Prediction) -> None:
    """Draw the state and the turn to make so large that they can be read at arm's length."""
    verdict = prediction.verdict
    with st.container(border=True):
        for reason in verdict.unsafe:
            st.html(f'<div class="cm-stop" role="alert">{escape(reason)}</div>')
        st.html(
            '<p class="cm-verdict" role="status">'
            f'<span class="cm-state"><span aria-hidden="true">{SIGNS[verdict.state]}</span> '
            f"{STATES[verdict.state]}</span>"
            f'<span class="cm-turn">{escape(_short_turn(prediction))}</span></p>'
        )
        st.markdown(plain(verdict.sentence.removeprefix(" ".join(verdict.unsafe))))
        turn = made_turn(prediction)
        buttons = st.container(horizontal=True)
        buttons.button(
            "Make that turn",
            disabled=turn is None,
            on_click=turn_by,
            args=(turn or 0.0,),
            width="stretch",
            help="Turns the cone by the middle of the range and locks it again the same way.",
        )
        buttons.button(
            "Undo the last turn",
            disabled=not st.session_state.get("turns_made"),
            on_click=undo_turn,
            shortcut="Ctrl+Z",
            width="stretch",
        )


def _short_turn(prediction: Prediction) -> str:
    """Return the turn in a few words."""
    turn = made_turn(prediction)
    if turn is None:
        return "leave it" if prediction.verdict.state == "right" else "no turn of the cone helps"
    arrow = "↺" if turn > 0 else "↻"
    return f"{arrow} {direction(turn)} about {DEG.from_si(abs(turn)):.0f}°"


def _section(prediction: Prediction) -> None:
    """Draw the hub in section at one of its stages."""
    shown = choice(
        st.segmented_control, "The hub in section", STAGE_WORDS, key="stage", default="clamped", required=True
    )
    dark = st.context.theme.type == "dark"
    by_width(
        "section",
        wide=hub_section_svg(prediction, stage=shown, dark=dark),
        narrow=hub_section_svg(prediction, stage=shown, dark=dark, compact=True),
        alt=f"The hub in section, {STAGE_WORDS[shown].lower()}",
    )


def _stages(prediction: Prediction) -> None:
    """Draw the five stages as a table, and say what its numbers mean."""
    rows = [
        [
            STAGE_WORDS[stage.name],
            number(MM.from_si(stage.end_play), 3, sign=True),
            degrees(cone_angle(prediction, stage.end_play), sign=True),
            newtons(stage.preload),
            number(MM.from_si(stage.rim_play), 2),
            number(MM.from_si(stage.axle_end_play), 2),
            felt_at_both(prediction.scenario.limits, stage),
        ]
        for stage in prediction.stages.values()
    ]
    head = ["Stage", "End play mm", "= of cone", "Preload", "Rim mm", "Axle end mm", "Felt"]
    table(head, rows, caption="The five stages: end play, preload and free play")
    with st.expander("What these numbers mean"):
        felt, ends = prediction.scenario.limits, prediction.scenario.axle.length / 2
        st.markdown(
            "- **End play**: how far the hub can slide along its axle. Below zero there is none left: the balls are "
            "squeezed by that much.\n"
            "- **= of cone**: the same length as a turn of the cone.\n"
            "- **Preload**: how hard the balls are pinched, as a force along the axle.\n"
            "- **Rim**: free movement of the rim from stop to stop, without pushing: what a hand finds there. Below "
            f"{MM.from_si(felt.rim_play):g} mm counts as none (assumption).\n"
            f"- **Axle end**: the same at the end of the axle, {MM.from_si(ends):.0f} mm from the middle, in the "
            f"fingers; about {MM.from_si(felt.axle_end_play):g} mm is just felt (assumption).\n"
            "- **Felt**: what a hand says to the play at the rim / at the axle end: none, slight or clear.\n"
            "- **Under the rider**: end play is as clamped; the load of the road presses the balls on one side."
        )


def _notes(prediction: Prediction) -> None:
    """Draw what else should be known."""
    if prediction.verdict.notes:
        st.header("Know this too", anchor=False)
        st.markdown("\n".join(f"- {plain(note)}" for note in prediction.verdict.notes))


def _why(prediction: Prediction) -> None:
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
        _why_range(prediction)
        _why_assumptions(prediction)
        _why_forces(prediction)


def _why_range(prediction: Prediction) -> None:
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


def _why_assumptions(prediction: Prediction) -> None:
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


def _why_forces(prediction: Prediction) -> None:
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


def _downloads(prediction: Prediction, sweep: Sweep) -> None:
    """Offer everything shown as files."""
    scenario = prediction.scenario
    files: dict[str, tuple[str, str, Callable[[], str | bytes]]] = {
        "Numbers (JSON)": ("prediction.json", "application/json", lambda: prediction_json(prediction)),
        "Curves (CSV)": ("cone-position.csv", "text/csv", lambda: sweep_csv(sweep)),
        "Picture (PNG)": ("set-the-cone.png", "image/png", lambda: picture(scenario, "png")),
        "Sheet (PDF)": ("set-the-cone.pdf", "application/pdf", lambda: picture(scenario, "pdf")),
        "This hub (TOML)": ("hub.toml", "application/toml", lambda: write_part(scenario)),
    }
    folded = st.popover("Take it with you", width="stretch", key="take", on_change="rerun")
    if not folded.open:
        return
    with folded:
        st.caption("The address of this page holds the setting: send it as a link.")
        for label, (name, mime, data) in files.items():
            st.download_button(label, data, name, mime, on_click="ignore", width="stretch")
