"""What the races and the hands feel as CSV: everyday units, said in the names; numbers are not rounded."""

import csv
import io
from collections.abc import Mapping, Sequence

import numpy as np
import numpy.typing as npt

from conemodel.base.units import DEG, MM, MPA, NEWTON, NEWTON_MM, UM
from conemodel.solve.wheel.coasting import Coast
from conemodel.tasks.bearing.ball_loads import Loads, Worst
from conemodel.tasks.bearing.feel_when_turned import Signature
from conemodel.tasks.bearing.race_sweep import RacesSweep
from conemodel.tasks.bearing.rocking import Rocking
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.validation.published_values import Check

Column = npt.ArrayLike


def csv_text(columns: Mapping[str, Sequence[object]]) -> str:
    r"""Return columns of equal length as CSV: a line of names, then a line for each entry.

    Args:
        columns: by name.

    >>> csv_text({"a": [1, 2], "b": ["x", "y"]})
    'a,b\n1,x\n2,y\n'
    """
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(zip(*columns.values(), strict=True))
    return stream.getvalue()


def races_csv(races: RacesSweep) -> str:
    """Return the sweep of pressure, drag, spin time and life, a line for each position of the cone.

    Where the model does not hold, only the position and the end play are given and the other cells are empty.
    """
    always: dict[str, Sequence[object]] = {
        "cone_out_deg": _list(races.cone_angle, DEG.per_si),
        "end_play_clamped_mm": _list(races.end_play, MM.per_si),
    }
    columns: dict[str, Sequence[object]] = {}
    for case, worst in races.worst.items():
        columns |= {f"{case}_{name}": column for name, column in _worst(worst).items()}
    drag = {name: getattr(races.drag, name) for name in ("rolling", "spinning", "grease", "seals", "total")}
    columns |= {f"drag_{name}_nmm": _list(part, NEWTON_MM.per_si) for name, part in drag.items()}
    columns["spin_time_s"] = _list(races.spin_time)
    life = races.life
    shares = {"mixed": life.mixed, "straight": life.straight, "side": life.side}
    columns |= {f"life_{name}_share_of_best": _list(share) for name, share in shares.items()}
    return csv_text(always | {name: _where(races.valid, column) for name, column in columns.items()})


def _where(valid: npt.NDArray[np.bool_], column: Sequence[object]) -> list[object]:
    """Return a column with its cells empty where the model does not hold."""
    return [value if holds else None for value, holds in zip(column, valid.tolist(), strict=True)]


def _worst(worst: Worst) -> dict[str, list[object]]:
    bands = {
        "ball_load_n": (worst.ball_load, NEWTON.per_si),
        "cone_pressure_mpa": (worst.cone_pressure, MPA.per_si),
        "cup_pressure_mpa": (worst.cup_pressure, MPA.per_si),
        "dent_um": (worst.dent, UM.per_si),
    }
    return {
        f"{name}{end}": _list(getattr(band, field), per_si)
        for name, (band, per_si) in bands.items()
        for end, field in (("", "value"), ("_low", "low"), ("_high", "high"))
    }


def balls_csv(loads: Loads) -> str:
    """Return what every ball carries, a line for each ball of both rows."""
    rows = (("left", loads.left), ("right", loads.right))
    columns: dict[str, list[object]] = {"row": [], "ball": []}
    columns |= {name: [] for name in _BALL}
    for side, row in rows:
        count = row.ball_load.size
        columns["row"] += [side] * count
        columns["ball"] += list(range(1, count + 1))
        for name, (field, per_si) in _BALL.items():
            columns[name] += _list(getattr(row, field), per_si)
    return csv_text(columns)


_BALL: Mapping[str, tuple[str, float]] = {
    "azimuth_deg": ("azimuth", DEG.per_si),
    "ball_load_n": ("ball_load", NEWTON.per_si),
    "contact_angle_deg": ("contact_angle", DEG.per_si),
    "cone_pressure_mpa": ("cone_pressure", MPA.per_si),
    "cup_pressure_mpa": ("cup_pressure", MPA.per_si),
    "cone_ellipse_across_mm": ("cone_semi_major", 2 * MM.per_si),
    "cone_ellipse_along_mm": ("cone_semi_minor", 2 * MM.per_si),
    "cup_ellipse_across_mm": ("cup_semi_major", 2 * MM.per_si),
    "cup_ellipse_along_mm": ("cup_semi_minor", 2 * MM.per_si),
}
"""Columns of the balls: field of `RowLoads` and size of the unit; ellipses by their whole axes."""


def torque_csv(found: Signature) -> str:
    """Return the torque at each angle of the wheel."""
    return csv_text(
        {
            "wheel_deg": _list(found.angle, DEG.per_si),
            "torque_nmm": _list(found.torque, NEWTON_MM.per_si),
        }
    )


def spin_csv(found: Coast) -> str:
    """Return the speed of a wheel let spin, over time."""
    return csv_text(
        {
            "time_s": _list(found.time),
            "speed_turns_per_s": _list(found.speed, 1 / (2 * np.pi)),
            "turned_turns": _list(found.turned, 1 / (2 * np.pi)),
        }
    )


def rocking_csv(bench: Rocking, frame: Rocking) -> str:
    """Return force and movement of the rim on the bench and in the frame, bearing and wheel apart."""
    return csv_text(
        {
            "push_n": _list(bench.force),
            "bench_bearing_mm": _list(bench.bearing, MM.per_si),
            "frame_bearing_mm": _list(frame.bearing, MM.per_si),
            "wheel_flex_mm": _list(frame.wheel, MM.per_si),
        }
    )


def limits_csv(window: Window) -> str:
    """Return the limits of the good range."""
    limits = window.limits
    return csv_text(
        {
            "limit": [limit.name for limit in limits],
            "side": [limit.side for limit in limits],
            "value": [limit.unit.from_si(limit.value) for limit in limits],
            "unit": [limit.unit.symbol for limit in limits],
            "met_at_end_play_mm": [MM.from_si(limit.edge) for limit in limits],
            "met_first": ["yes" if limit.binding else "no" for limit in limits],
        }
    )


def checks_csv(checks: Sequence[Check]) -> str:
    """Return published values beside the computed ones."""
    return csv_text(
        {
            "what": [each.what for each in checks],
            "unit": [each.unit for each in checks],
            "published": [each.published for each in checks],
            "computed": [each.computed for each in checks],
            "deviation": [each.deviation for each in checks],
            "allowed": [each.tolerance for each in checks],
            "holds": ["yes" if each.holds else "no" for each in checks],
            "why_so_much": [each.reason for each in checks],
            "known": [each.status for each in checks],
            "source": [each.source for each in checks],
        }
    )


def _list(value: Column, per_si: float = 1.0) -> list[object]:
    """Return an array in a unit as plain numbers, never a negative nought."""
    listed: list[object] = (np.asarray(value, dtype=np.float64) * per_si + 0.0).tolist()
    return listed
