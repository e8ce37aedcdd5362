"""A prediction as one JSON object: everyday units, said in the names; numbers are not rounded."""

import json
import tomllib
from typing import Any

from conemodel.base.table import rows
from conemodel.base.units import DEG, MM, NEWTON, NEWTON_METRE, Unit
from conemodel.parts.toml_files import write_part
from conemodel.show.headline import headline_json
from conemodel.show.setting.tables import list_spreads, list_stages
from conemodel.show.waterfall.rows import list_terms
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.turn import Turn

Line = dict[str, Any]


def prediction_json(prediction: Prediction) -> str:
    """Return a prediction as one JSON object; its names are fixed.

    The scenario stands in it as in its file, with every range it is assumed in as numbers.
    A stage holds its line of the table of stages and its `terms`.
    """
    verdict, clamp, joint = prediction.verdict, prediction.clamp, prediction.joint
    whole = {
        "scenario": tomllib.loads(write_part(prediction.scenario.with_ranges())),
        "stages": _stages(prediction),
        "verdict": {
            "state": verdict.state,
            "chances": None if verdict.chances is None else verdict.chances.by_state,
            "headline": headline_json(verdict.headline),
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


def _stages(prediction: Prediction) -> list[Line]:
    """Return the stages, each with its terms."""
    stages = rows(list_stages(prediction))
    for stage in stages:
        stage["terms"] = []
    terms = {stage["name"]: stage["terms"] for stage in stages}
    for term in rows(list_terms(prediction)):
        terms[term.pop("stage")].append(term)
    return stages


def _plain(value: float, unit: Unit) -> float:
    """Return an SI value in a unit, as a plain float and never as a negative zero."""
    return float(unit.from_si(value)) + 0.0


def _turn(turn: Turn | None) -> Line | None:
    """Return the turn to make; positive is out (anticlockwise), negative in (clockwise)."""
    if turn is None:
        return None
    low, high = turn.angle_range
    return {
        "length_mm": _plain(turn.length, MM),
        "chance_right": turn.right,
        "chance_tight": turn.tight,
        "cautious": turn.cautious,
        "needed_mm": _plain(turn.needed, MM),
        "low_mm": _plain(turn.low, MM),
        "high_mm": _plain(turn.high, MM),
        "angle_deg": _plain(turn.angle, DEG),
        "low_deg": _plain(low, DEG),
        "high_deg": _plain(high, DEG),
        "widest": turn.widest,
        "spreads": rows(list_spreads(turn)),
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
