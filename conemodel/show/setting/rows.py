"""Results as rows, CSV and JSON: everyday units, said in the names; numbers are not rounded."""

import csv
import io
import json
import tomllib
from typing import Any

import numpy as np

from conemodel.base.units import DEG, MM, MPA, NEWTON, NEWTON_METRE, NEWTON_MM, Unit
from conemodel.parts.toml_files import write_part
from conemodel.show.formatting import cone_angle
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.stage_result import Stage
from conemodel.tasks.setting.sweep import Sweep
from conemodel.tasks.setting.verdict import Turn

Line = dict[str, Any]

SWEEP_COLUMNS: dict[str, tuple[str, Unit]] = {
    "cone_out_deg": ("cone_angle", DEG),
    "end_play_open_mm": ("end_play_open", MM),
    "end_play_clamped_mm": ("end_play_clamped", MM),
    "preload_open_n": ("preload_open", NEWTON),
    "preload_clamped_n": ("preload_clamped", NEWTON),
    "rim_play_open_mm": ("rim_play_open", MM),
    "rim_play_clamped_mm": ("rim_play_clamped", MM),
    "peak_pressure_clamped_mpa": ("peak_pressure_clamped", MPA),
    "peak_pressure_ridden_mpa": ("peak_pressure_ridden", MPA),
    "torque_clamped_nmm": ("torque_clamped", NEWTON_MM),
}
"""Columns of a sweep's CSV: name, field of the sweep, unit."""


def stage_rows(prediction: Prediction) -> list[Line]:
    """Return one row a stage, in order of the work.

    >>> from conemodel.parts.toml_files import load_scenario
    >>> from conemodel.tasks.setting.predict import predict
    >>> rows = stage_rows(predict(load_scenario("scenarios/touring-rear.toml")))
    >>> [row["name"] for row in rows]
    ['contact', 'backed_off', 'locked', 'clamped', 'ridden']
    """
    return [_stage_row(prediction, stage) for stage in prediction.stages.values()]


def _stage_row(prediction: Prediction, stage: Stage) -> Line:
    return {
        "name": stage.name,
        "end_play_mm": _plain(stage.end_play, MM),
        "cone_deg": _plain(cone_angle(prediction, stage.end_play), DEG),
        "preload_n": _plain(stage.preload, NEWTON),
        "preload_low_n": _plain(stage.preload_range[0], NEWTON),
        "preload_high_n": _plain(stage.preload_range[1], NEWTON),
        "rim_play_mm": _plain(stage.rim_play, MM),
        "axle_end_play_mm": _plain(stage.axle_end_play, MM),
        "peak_pressure_mpa": _plain(stage.peak_pressure, MPA),
        "torque_nmm": _plain(stage.torque, NEWTON_MM),
        "torque_low_nmm": _plain(stage.torque_range[0], NEWTON_MM),
        "torque_high_nmm": _plain(stage.torque_range[1], NEWTON_MM),
        "valid": stage.valid,
    }


def terms_rows(prediction: Prediction) -> list[Line]:
    """Return one row a term of end play, in order, each with the end play before and after it."""
    rows: list[Line] = []
    level = 0.0
    for stage in prediction.stages.values():
        for term in stage.terms:
            before, level = level, level + term.length
            rows.append(
                {
                    "stage": stage.name,
                    "key": term.key,
                    "label": term.label,
                    "length_mm": _plain(term.length, MM),
                    "cone_deg": _plain(cone_angle(prediction, term.length), DEG),
                    "before_mm": _plain(before, MM),
                    "after_mm": _plain(level, MM),
                    "assumed": term.assumed,
                }
            )
    return rows


def sweep_csv(sweep: Sweep) -> str:
    """Return a sweep as CSV: a line of names with their units, then a line for each position of the cone.

    Where the model does not hold, only the position and the end plays are given and the other cells are empty.
    """
    columns = [
        np.asarray(getattr(sweep, field)) * unit.per_si + 0.0 for field, unit in SWEEP_COLUMNS.values()
    ]
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(SWEEP_COLUMNS)
    for row, holds in zip(np.stack(columns, axis=-1).tolist(), sweep.valid, strict=True):
        writer.writerow(row if holds else row[:3] + [None] * (len(row) - 3))
    return stream.getvalue()


def prediction_json(prediction: Prediction) -> str:
    """Return a prediction as one JSON object; its names are fixed.

    The scenario stands in it as in its file. A stage holds what `stage_rows` gives and its `terms`.
    """
    terms = terms_rows(prediction)
    stages = [
        {**row, "terms": [_without_stage(term) for term in terms if term["stage"] == row["name"]]}
        for row in stage_rows(prediction)
    ]
    verdict, clamp, joint = prediction.verdict, prediction.clamp, prediction.joint
    whole = {
        "scenario": tomllib.loads(write_part(prediction.scenario)),
        "stages": stages,
        "verdict": {
            "state": verdict.state,
            "unsafe": list(verdict.unsafe),
            "sentence": verdict.sentence,
            "notes": list(verdict.notes),
        },
        "turn": _turn(verdict.turn),
        "window": _window(prediction.window),
        "clamp": {
            "force_n": _plain(clamp.force, NEWTON),
            "source": clamp.source,
            "assumed": clamp.assumed,
            "proud": list(clamp.proud),
        },
        "lock": {
            "force_n": _plain(joint.force, NEWTON),
            "holding_torque_nm": _plain(joint.holding_torque, NEWTON_METRE),
            "runs_in": joint.runs_in,
            "far_side_slips": joint.far_side_slips,
        },
    }
    return json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False)


def _plain(value: float, unit: Unit) -> float:
    """Return an SI value in a unit, as a plain float and never as a negative nought."""
    return float(unit.from_si(value)) + 0.0


def _without_stage(term: Line) -> Line:
    return {name: value for name, value in term.items() if name != "stage"}


def _turn(turn: Turn | None) -> Line | None:
    """Return the turn to make; positive is out (anticlockwise), negative in (clockwise)."""
    if turn is None:
        return None
    low, high = turn.angle_range
    return {
        "length_mm": _plain(turn.length, MM),
        "low_mm": _plain(turn.low, MM),
        "high_mm": _plain(turn.high, MM),
        "angle_deg": _plain(turn.angle, DEG),
        "low_deg": _plain(low, DEG),
        "high_deg": _plain(high, DEG),
        "widest": turn.widest,
        "spreads": [
            {
                "name": spread.name,
                "label": spread.label,
                "span": spread.span,
                "low_mm": _plain(spread.low, MM),
                "high_mm": _plain(spread.high, MM),
            }
            for spread in turn.spreads
        ],
    }


def _window(window: Window) -> Line:
    return {
        "loose_edge_mm": _plain(window.loose_edge, MM),
        "tight_edge_mm": _plain(window.tight_edge, MM),
        "target_mm": _plain(window.target, MM),
        "limits": [
            {
                "name": limit.name,
                "label": limit.label,
                "side": limit.side,
                "edge_mm": _plain(limit.edge, MM),
                "value": _plain(limit.value, limit.unit),
                "unit": limit.unit.symbol,
                "binding": limit.binding,
            }
            for limit in window.limits
        ],
    }
