"""Studies of many hubs as rows, CSV and JSON: everyday units, said in the names; numbers are not rounded."""

import csv
import io
import json
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

import numpy as np

from conemodel.base.units import DEG, MM, MPA, NEWTON, NEWTON_METRE, ONE, UM, Unit
from conemodel.parts.population import Crowd
from conemodel.parts.toml_files import write_part
from conemodel.tasks.population.sampling import Drawn
from conemodel.tasks.population.sobol import Influence
from conemodel.tasks.population.study import Group, ManyHubs

Line = dict[str, Any]

STATES = ("tight", "right", "loose")
"""Words for the states -1, 0 and 1 of a drawn hub, in order."""

COLUMNS: dict[str, tuple[str, Unit]] = {
    "back_off_deg": ("back_off", DEG),
    "drift_deg": ("drift", DEG),
    "finger_torque_nm": ("finger_torque", NEWTON_METRE),
    "lock_torque_nm": ("lock_torque", NEWTON_METRE),
    "thread_slack_um": ("thread_slack", UM),
    "thread_give": ("thread_give", ONE),
    "thread_friction": ("thread_friction", ONE),
    "face_friction": ("face_friction", ONE),
    "groove": ("groove", ONE),
    "clamp_force_n": ("clamp_force", NEWTON),
    "end_play_clamped_mm": ("end_play", MM),
    "preload_clamped_n": ("preload", NEWTON),
    "cone_pressure_clamped_mpa": ("cone_pressure", MPA),
    "tight_edge_mm": ("tight_edge", MM),
    "loose_edge_mm": ("loose_edge", MM),
}
"""Columns of numbers in a study's CSV: name, field of the drawn hubs, unit."""


def many_csv(crowd: Crowd, parts: Iterable[Drawn]) -> Iterator[str]:
    """Yield a study as CSV in pieces: a line of names with their units, then a line for each hub."""
    yield ",".join(("kind", *COLUMNS, "state")) + "\n"
    names = crowd.population.hubs.files
    for part in parts:
        columns = [np.asarray(getattr(part, field)) * unit.per_si + 0.0 for field, unit in COLUMNS.values()]
        stream = io.StringIO()
        csv.writer(stream, lineterminator="\n").writerows(
            (names[kind], *numbers, STATES[state + 1])
            for kind, numbers, state in zip(
                part.kind.tolist(), np.stack(columns, axis=-1).tolist(), part.state.tolist(), strict=True
            )
        )
        yield stream.getvalue()


def _group(group: Group) -> Line:
    angle, right = group.curve.best
    return {
        "name": group.name,
        "hubs": group.number,
        "loose": group.shares.loose,
        "right": group.shares.right,
        "tight": group.shares.tight,
        "right_standard_error": group.standard_error,
        "best_back_off_deg": DEG.from_si(angle),
        "right_at_best": right,
    }


def tools_rows(study: ManyHubs) -> list[Line]:
    """Return one row for each tool, the plain best back-off first."""
    return [
        {
            "name": tool.name,
            "label": tool.label,
            "right": tool.right,
            "right_by_kind": tool.right_by_kind,
            "back_off_deg": DEG.from_si(tool.back_off),
        }
        for tool in study.tools
    ]


def quantiles_rows(group: Group) -> list[Line]:
    """Return one row for each share of hubs, with what lies above that share."""
    return [
        {
            "share": share,
            "end_play_mm": MM.from_si(end_play),
            "preload_n": NEWTON.from_si(group.preload[share]),
            "cone_pressure_mpa": MPA.from_si(group.cone_pressure[share]),
        }
        for share, end_play in group.end_play.items()
    ]


def influences_rows(influences: Iterable[Influence]) -> list[Line]:
    """Return one row for each input, most important first."""
    return [
        {"name": each.name, "label": each.label, "first": each.first, "total": each.total}
        for each in influences
    ]


def back_off_rows(group: Group) -> list[Line]:
    """Return one row for each degree of back-off, with the shares of hubs it leaves loose, right and tight."""
    curve = group.curve
    columns = (curve.angle * DEG.per_si, curve.loose, curve.right, curve.tight)
    names = ("back_off_deg", "loose", "right", "tight")
    return [dict(zip(names, row, strict=True)) for row in np.stack(columns, axis=-1).tolist()]


def assumptions_rows(crowd: Crowd) -> list[Line]:
    """Return one row for each spread of the population: where it stands, its law, and why."""
    return [
        {
            "where": where,
            "shape": spread.shape if spread.low < spread.high else "known",
            "low": unit.from_si(spread.low),
            "likeliest": unit.from_si(spread.top),
            "high": unit.from_si(spread.high),
            "unit": unit.symbol,
            "because": spread.because,
        }
        for where, spread in crowd.population.assumptions
        for unit in (type(spread).locate("low")[1],)
    ]


def many_json(study: ManyHubs, influences: Iterable[Influence]) -> str:
    """Return a study as one JSON object; its names are fixed. The population stands in it as in its file."""
    whole: Mapping[str, Any] = {
        "population": tomllib.loads(write_part(study.crowd.population)),
        "hubs": study.all.number,
        "seed": study.seed,
        "back_off_deg": DEG.from_si(study.back_off),
        "all": {**_group(study.all), "quantiles": quantiles_rows(study.all)},
        "kinds": [{**_group(kind), "quantiles": quantiles_rows(kind)} for kind in study.kinds],
        "tools": tools_rows(study),
        "what_matters": influences_rows(influences),
        "beyond_tables": study.beyond,
    }
    return json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False)
