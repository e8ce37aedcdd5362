"""The tables of a prediction and of a sweep, each declared once: for JSON and CSV, a terminal and a page."""

from collections.abc import Iterable

from conemodel.base.table import Column, Table, Words, only_where, table_of_words
from conemodel.base.units import DEG, MM, MPA, NEWTON, NEWTON_MM
from conemodel.parts.unknowns.unknown import Unknown
from conemodel.show.formatting import (
    STAGE_WORDS,
    cone_angle,
    cone_place,
    degrees,
    felt_at_both,
    newtons,
    play_words,
    torque_band,
)
from conemodel.tasks.setting.good_range import Limit, Window
from conemodel.tasks.setting.outlook import Spread
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.stage_result import StageResult
from conemodel.tasks.setting.sweep import Sweep
from conemodel.tasks.setting.turn import Turn


def list_stages(prediction: Prediction) -> Table[StageResult]:
    """Return the table of the stages, a line each in order of the work.

    >>> from conemodel.base.table import rows
    >>> from conemodel.parts.toml_files import load_scenario
    >>> from conemodel.tasks.setting.predict import predict
    >>> listed = rows(list_stages(predict(load_scenario("scenarios/touring-rear.toml"))))
    >>> [row["name"] for row in listed]
    ['contact', 'backed_off', 'locked', 'clamped', 'ridden']
    """

    def turn(stage: StageResult) -> float:
        return cone_angle(prediction, stage.end_play)

    def felt(stage: StageResult) -> str:
        return felt_at_both(prediction.scenario.limits, stage)

    position: tuple[Column[StageResult], ...] = (
        Column(lambda s: s.name, key="name"),
        Column(lambda s: STAGE_WORDS[s.name], text="stage", page="Stage", left=True),
        Column(lambda s: s.end_play, MM, "end_play_mm"),
        Column(lambda s: play_words(s.end_play), text="mm", page="mm"),
        Column(turn, DEG, "cone_deg"),
        Column(lambda s: cone_place(turn(s)), text="as a turn", page="as a turn"),
    )
    found: tuple[Column[StageResult], ...] = (
        Column(
            lambda s: s.preload,
            NEWTON,
            "preload_n",
            text="preload N",
            page="Preload",
            form=".0f",
            say=newtons,
        ),
        Column(lambda s: s.preload_range[0], NEWTON, "preload_low_n"),
        Column(lambda s: s.preload_range[1], NEWTON, "preload_high_n"),
        Column(lambda s: s.rim_play, MM, "rim_play_mm", text="rim mm", page="Rim mm", form=".2f"),
        Column(
            lambda s: s.axle_end_play,
            MM,
            "axle_end_play_mm",
            text="axle end mm",
            page="Axle end mm",
            form=".2f",
        ),
        Column(felt, text="felt", page="Felt at rim / axle end"),
        Column(lambda s: s.peak_pressure, MPA, "peak_pressure_mpa", text="pressure MPa", form=".0f"),
        Column(lambda s: s.torque, NEWTON_MM, "torque_nmm"),
        Column(lambda s: torque_band(s.torque, s.torque_upper), text="torque N·mm"),
        Column(lambda s: s.torque_range[0], NEWTON_MM, "torque_low_nmm"),
        Column(lambda s: s.torque_range[1], NEWTON_MM, "torque_high_nmm"),
        Column(lambda s: s.torque_upper, NEWTON_MM, "torque_band_upper_nmm"),
    )
    return Table(
        (*position, *only_where(lambda stage: stage.valid, found), Column(lambda s: s.valid, key="valid")),
        list(prediction.stages.values()),
        caption="The five stages: end play, preload and free play",
    )


_FORCES: tuple[Column[StageResult], ...] = (
    Column(lambda s: STAGE_WORDS[s.name], page="Stage"),
    Column(lambda s: f"{MPA.from_si(s.peak_pressure):.0f} MPa", page="Peak pressure"),
    Column(lambda s: f"{torque_band(s.torque, s.torque_upper)} N·mm", page="Turning torque"),
    Column(lambda s: " to ".join(map(newtons, s.preload_range)), page="Preload over a turn"),
)


def list_forces(prediction: Prediction) -> Table[StageResult]:
    """Return the table of pressure and torque at every stage, for a page."""
    return Table(
        _FORCES,
        list(prediction.stages.values()),
        caption="Pressure on the races and torque from the ball loads: as published, to the most their spin may make",
    )


_LIMITS: tuple[Column[Limit], ...] = (
    Column(lambda one: one.name, key="limit"),
    Column(lambda one: one.label, text="limit", left=True),
    Column(lambda one: one.label + (" (met first)" if one.binding else ""), page="Limit"),
    Column(
        lambda one: f"{one.unit.from_si(one.value):g} {one.unit.symbol}".strip(),
        text="value",
        page="Value",
        left=True,
    ),
    Column(lambda one: one.side, key="side", page="Side"),
    Column(lambda one: f"{one.side} side", text="bounds", left=True),
    Column(lambda one: one.unit.from_si(one.value), key="value"),
    Column(lambda one: one.unit.symbol, key="unit"),
    Column(lambda one: one.edge, MM, "met_at_end_play_mm"),
    Column(lambda one: play_words(one.edge) + (" *" if one.binding else "  "), text="met at mm  "),
    Column(lambda one: play_words(one.edge), page="Met at mm"),
    Column(lambda one: "yes" if one.binding else "no", key="met_first"),
)


def list_limits(window: Window) -> Table[Limit]:
    """Return the table of what bounds the good range."""
    return Table(
        _LIMITS,
        window.limits,
        caption="Limits of the good range",
    )


def list_spreads(turn: Turn) -> Table[Spread]:
    """Return the table of what nobody measured and what it does to a turn of the cone."""
    lead = turn.lead_per_radian
    return Table(
        (
            Column(lambda s: s.name, key="name"),
            Column(lambda s: s.label, key="label", page="Assumed"),
            Column(lambda s: s.span, key="span", page="Range"),
            Column(lambda s: s.low, MM, "low_mm"),
            Column(lambda s: s.high, MM, "high_mm"),
            Column(lambda s: degrees(s.low / lead, sign=True), page="Turn from"),
            Column(lambda s: degrees(s.high / lead, sign=True), page="to"),
        ),
        turn.spreads,
        caption="What each assumption does to the turn; + is out",
    )


def list_unknowns(unknowns: Iterable[Unknown], *, caption: str) -> Table[Words]:
    """Return the table of what nobody measures: its range, what is usual, and the reason for both; for a page."""
    lines = (
        (each.words[:1].upper() + each.words[1:], each.range_in_words(), each.usual_in_words, each.because)
        for each in unknowns
    )
    return table_of_words(caption, ("What", "Range", "Usual", "Why"), lines)


_POSITION: tuple[Column[Sweep], ...] = (
    Column(lambda s: s.cone_angle, DEG, "cone_out_deg", text="cone out °", form=".1f", left=True),
    Column(lambda s: s.end_play_open, MM, "end_play_open_mm", text="end play mm", form="+.3f"),
    Column(lambda s: s.end_play_clamped, MM, "end_play_clamped_mm", text="clamped mm", form="+.3f"),
)

_SWEPT: tuple[Column[Sweep], ...] = (
    Column(lambda s: s.preload_open, NEWTON, "preload_open_n"),
    Column(lambda s: s.preload_clamped, NEWTON, "preload_clamped_n"),
    Column(lambda s: s.rim_play_open, MM, "rim_play_open_mm", text="rim mm", form=".2f"),
    Column(lambda s: s.rim_play_clamped, MM, "rim_play_clamped_mm", text="clamped mm", form=".2f"),
    Column(lambda s: s.preload_open, NEWTON, text="preload N", form=".0f"),
    Column(lambda s: s.preload_clamped, NEWTON, text="clamped N", form=".0f"),
    Column(lambda s: s.peak_pressure_clamped, MPA, "peak_pressure_clamped_mpa"),
    Column(lambda s: s.peak_pressure_ridden, MPA, "peak_pressure_ridden_mpa"),
    Column(lambda s: s.torque_clamped, NEWTON_MM, "torque_clamped_nmm"),
)


def list_sweep(sweep: Sweep) -> Table[Sweep]:
    """Return the table of a sweep, a line for each position of the cone.

    Where the model does not hold, only the position and the end plays are given.
    """
    return Table((*_POSITION, *only_where(lambda swept: swept.valid, _SWEPT)), (sweep,))
