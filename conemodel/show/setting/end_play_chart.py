"""End play and preload over the position of the cone, as a chart for the live screen."""

from collections.abc import Iterable
from typing import Any

import numpy as np

from conemodel.base.units import DEG, MM
from conemodel.show.charts.cone_axis import good_cone_angles, position_words
from conemodel.show.charts.vega_lite import Spec, as_rows, chart, good_band, kept_within, rule, title
from conemodel.show.formatting import millimetres, number, play_words
from conemodel.show.setting.cone_marks import (
    Scales,
    good_words,
    line,
    names,
    nearest_point,
    now_rule,
    now_words,
    strips,
)
from conemodel.show.type_scale import VALUE
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.sweep import Sweep
from conemodel.tasks.wording import clock_minutes, force_words

HEIGHT = 460
"""Of the whole chart, with heading and words below [px]."""

PRELOAD_SHOWN = 3.0
"""How far above the preload at the tight end of the good range the lower panel reaches."""
LEAST_PRELOAD = 500.0
"""The lower panel shows at least this much [N]."""


def good_angles_of(sweep: Sweep, prediction: Prediction) -> tuple[float, float] | None:
    """Return the cone positions of a sweep between which the clamped hub is good [rad], or None where none is."""
    return good_cone_angles(prediction, sweep.cone_angle, sweep.end_play_clamped)


def most_preload_shown(sweep: Sweep, prediction: Prediction) -> float:
    """Return the top of the preload panel [N]: it holds the good range and does not depend on the cone's position."""
    order = np.argsort(sweep.end_play_clamped)
    edge = np.interp(
        prediction.window.tight_edge, sweep.end_play_clamped[order], sweep.preload_clamped[order]
    )
    return max(LEAST_PRELOAD, PRELOAD_SHOWN * float(edge))


def against_cone_position(sweep: Sweep, prediction: Prediction) -> Spec:
    """Return end play, and below it preload, over how far the cone is turned out from finger contact.

    Vega-Lite. A dashed line is the hub locked on the bench, a full line the same hub clamped. The good range for
    the clamped hub is shaded; the rule is the setting as it stands, whose data, named `NOW`, comes from `now_rows`: all
    else is the same wherever the cone stands, so that a browser has one rule to move. The position nearest the pointer
    is read out.
    """
    scales = _scales(sweep, prediction)
    ends = _degrees(good_angles_of(sweep, prediction))
    good = _clipped(ends, scales)
    play = [
        rule("y", scales.mm, 0.0, strokeWidth=1),  # where the balls just touch
        line("bench_mm", scales, scales.mm, dashed=True),
        line("clamped_mm", scales, scales.mm, dashed=False),
        *names(sweep, scales),
        nearest_point("clamped_mm", scales, scales.mm),
    ]
    pinch = [
        line("bench_n", scales, scales.newton, dashed=True),
        line("clamped_n", scales, scales.newton, dashed=False),
        nearest_point("clamped_n", scales, scales.newton),
    ]
    across = [*([good_band(*good, scales.x)] if good else []), now_rule(scales)]
    top = [now_words(scales), *([good_words(good, ends, scales)] if good and ends else [])]
    layers = [*across, {"layer": play}, {"layer": pinch}, *top, strips(scales)]
    whole = chart(
        layers,
        rows=_rows(sweep),
        height=HEIGHT,
        heading=title("Against the cone's position", 34) | {"fontSize": VALUE},
    )
    return whole | {"resolve": {"scale": {"y": "independent"}}}


def _scales(sweep: Sweep, prediction: Prediction) -> Scales:
    ends = [*sweep.end_play_clamped[[0, -1]], *sweep.end_play_open[[0, -1]]]
    room = 0.06 * (max(ends) - min(ends))
    return Scales(
        out=(DEG.from_si(float(sweep.cone_angle[0])), DEG.from_si(float(sweep.cone_angle[-1]))),
        play=(MM.from_si(float(min(ends) - room)), MM.from_si(float(max(ends) + room))),
        force=most_preload_shown(sweep, prediction),
    )


def _degrees(angles: tuple[float, float] | None) -> tuple[float, float] | None:
    """Return a range of cone positions [rad] in degrees."""
    return (DEG.from_si(angles[0]), DEG.from_si(angles[1])) if angles else None


def _clipped(ends: tuple[float, float] | None, scales: Scales) -> tuple[float, float] | None:
    """Return a range of cone positions [degrees] as far as it is shown."""
    if ends is None:
        return None
    low, high = max(ends[0], scales.out[0]), min(ends[1], scales.out[1])
    return (low, high) if low < high else None


def _rows(sweep: Sweep) -> list[Spec]:
    """Return the sweep as the chart's data, with the words of the read-out."""
    out = sweep.cone_angle * DEG.per_si
    between = np.concatenate([out[:1], (out[1:] + out[:-1]) / 2, out[-1:]])
    columns: dict[str, Iterable[Any]] = {
        "out_deg": out.tolist(),
        "from_deg": between[:-1].tolist(),
        "to_deg": between[1:].tolist(),
        "bench_mm": (sweep.end_play_open * MM.per_si).tolist(),
        "clamped_mm": (sweep.end_play_clamped * MM.per_si).tolist(),
        "bench_n": sweep.preload_open.tolist(),
        "clamped_n": sweep.preload_clamped.tolist(),
        "cone": map(position_words, sweep.cone_angle.tolist()),
        "clock": map(clock_minutes, sweep.cone_angle.tolist()),
        "bench": map(_reading, sweep.end_play_open.tolist(), sweep.preload_open.tolist()),
        "clamped": map(_reading, sweep.end_play_clamped.tolist(), sweep.preload_clamped.tolist()),
        "rim": map(millimetres, sweep.rim_play_clamped.tolist()),
    }
    return as_rows(columns)


def _reading(end_play: float, preload: float) -> str:
    pinched = "" if end_play > 0 else f", preload {force_words(preload)}"
    return f"{play_words(end_play, unit=' mm')}{pinched}"


def now_rows(sweep: Sweep, prediction: Prediction) -> list[Spec]:
    """Return the data of the setting as it stands: place [degrees], words, and how they are set; one row."""
    low, high = (DEG.from_si(float(end)) for end in sweep.cone_angle[[0, -1]])
    now = DEG.from_si(prediction.scenario.setting.back_off)
    words = f"now {number(now, 0)}°" + ("" if low <= now <= high else ", off this chart")
    at = min(max(now, low), high)
    return [{"deg": at, "words": words, "align": kept_within((at - low) / (high - low))}]


def alt_text_against_cone_position(sweep: Sweep, prediction: Prediction) -> str:
    """Return the curves in words, for those who do not see them; as the chart, the same wherever the cone stands."""
    good = good_angles_of(sweep, prediction)
    taken = prediction.stages["locked"].end_play - prediction.stages["clamped"].end_play
    said = (
        "End play and preload against the position of the cone, locked on the bench and clamped. "
        f"Clamping takes {millimetres(taken)} at every position. "
    )
    if good is None:
        return said + "No position of the cone is good."
    return said + f"The good range lies from {position_words(good[0])} to {position_words(good[1])}."
