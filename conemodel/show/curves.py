"""End play and preload over the position of the cone, as a chart for the live screen."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np

from conemodel.base.units import DEG, MM
from conemodel.show.spec import (
    SIZE,
    Spec,
    axis,
    chart,
    good_band,
    number_field,
    only,
    title,
    tone,
    tooltip,
    values,
    written,
)
from conemodel.show.words import cone_angle, degrees, millimetres, newtons, number
from conemodel.tasks.predict import Prediction
from conemodel.tasks.study import Sweep
from conemodel.tasks.words import CLOCK_MINUTE

CLAMPED, BENCH = "clamped", "locked, on the bench"

NOW = "now"
"""Name of the data that says where the cone stands."""

PLAY, PINCH = (0.58, 0.0), (1.0, 0.66)
"""Bottom and top of the panel of end play and of the panel of preload below it, as shares of the height."""
HEIGHT = 460
"""Of the whole chart, with heading and words below [px]."""

PRELOAD_SHOWN = 3.0
"""How far above the preload at the tight end of the good range the lower panel reaches."""
LEAST_PRELOAD = 500.0
"""The lower panel shows at least this much [N]."""


def good_cone_angles(sweep: Sweep, prediction: Prediction) -> tuple[float, float] | None:
    """Return the cone positions between which the clamped hub is good [rad], or None where none is.

    End play follows the cone by its thread's lead, so the ends are exact also beyond the sweep.
    """
    window = prediction.window
    if window.width <= 0:
        return None
    start, end_play = float(sweep.cone_angle[0]), float(sweep.end_play_clamped[0])
    low, high = (
        start + cone_angle(prediction, end - end_play) for end in (window.tight_edge, window.loose_edge)
    )
    return low, high


def most_preload_shown(sweep: Sweep, prediction: Prediction) -> float:
    """Return the top of the preload panel [N]: the good range can be read, and it stays as the cone is turned."""
    order = np.argsort(sweep.end_play_clamped)
    edge = np.interp(
        prediction.window.tight_edge, sweep.end_play_clamped[order], sweep.preload_clamped[order]
    )
    return max(LEAST_PRELOAD, PRELOAD_SHOWN * float(edge))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scales:
    """The shared scale across, and one for each of the two panels."""

    out: tuple[float, float]
    play: tuple[float, float]
    force: float

    def x(self, field: str) -> Spec:
        """Return the channel of a cone position [degrees]."""
        return number_field(
            field,
            scale={"domain": list(self.out), "nice": False, "zero": False},
            title="← in (clockwise) · degrees of cone · out →",
            axis=axis(tickCount=8, format="~f", grid=False, ticks=True, domain=True),
        )

    def mm(self, field: str) -> Spec:
        """Return the channel of an end play, in the upper panel."""
        scale = {"domain": list(self.play), "range": _shares(PLAY), "nice": False, "zero": False}
        return number_field(
            field, scale=scale, title="end play, mm", axis=axis(tickCount=5, orient="left", grid=True)
        )

    def newton(self, field: str) -> Spec:
        """Return the channel of a preload, in the lower panel."""
        scale = {"domain": [0, self.force], "range": _shares(PINCH), "nice": False}
        return number_field(
            field, scale=scale, title="preload, N", axis=axis(tickCount=4, orient="left", grid=True)
        )


def against_cone_position(sweep: Sweep, prediction: Prediction) -> Spec:
    """Return end play, and below it preload, over how far the cone is turned out from finger contact.

    Vega-Lite. A dashed line is the hub locked on the bench, a full line the same hub clamped. The good range for
    the clamped hub is shaded; the rule is the setting as it stands, whose data, named `NOW`, comes from `now_rows`: all
    else is the same wherever the cone stands, so that a browser has one rule to move. The position nearest the pointer
    is read out.
    """
    scales = _scales(sweep, prediction)
    good = _clipped(good_cone_angles(sweep, prediction), scales)
    play = [
        _nought(scales),
        _line("bench_mm", scales, scales.mm, dashed=True),
        _line("clamped_mm", scales, scales.mm, dashed=False),
        *_names(sweep, scales),
        _pointed("clamped_mm", scales, scales.mm),
    ]
    pinch = [
        _line("bench_n", scales, scales.newton, dashed=True),
        _line("clamped_n", scales, scales.newton, dashed=False),
        _pointed("clamped_n", scales, scales.newton),
    ]
    across = [*([good_band(*good, scales.x)] if good else []), _rule(scales)]
    top = [_now_words(scales), *([_good_words(good, sweep, prediction, scales)] if good else [])]
    layers = [*across, {"layer": play}, {"layer": pinch}, *top, _strips(scales)]
    whole = chart(
        layers,
        rows=_rows(sweep),
        height=HEIGHT,
        heading=title("Against the cone's position", 34) | {"fontSize": 23},
    )
    return whole | {"resolve": {"scale": {"y": "independent"}}}


def _shares(ends: tuple[float, float]) -> list[Spec]:
    return [{"expr": f"height * {end}"} for end in ends]


def _scales(sweep: Sweep, prediction: Prediction) -> _Scales:
    ends = [*sweep.end_play_clamped[[0, -1]], *sweep.end_play_open[[0, -1]]]
    room = 0.06 * (max(ends) - min(ends))
    return _Scales(
        out=(DEG.from_si(float(sweep.cone_angle[0])), DEG.from_si(float(sweep.cone_angle[-1]))),
        play=(MM.from_si(float(min(ends) - room)), MM.from_si(float(max(ends) + room))),
        force=most_preload_shown(sweep, prediction),
    )


def _clipped(angles: tuple[float, float] | None, scales: _Scales) -> tuple[float, float] | None:
    """Return a range of cone positions [rad] in degrees, as far as it is shown."""
    if angles is None:
        return None
    low, high = max(DEG.from_si(angles[0]), scales.out[0]), min(DEG.from_si(angles[1]), scales.out[1])
    return (low, high) if low < high else None


def _rows(sweep: Sweep) -> list[Spec]:
    """Return the sweep as the chart's data, with the words of the read-out."""
    columns: dict[str, Iterable[Any]] = {
        "out_deg": (sweep.cone_angle * DEG.per_si).tolist(),
        "bench_mm": (sweep.end_play_open * MM.per_si).tolist(),
        "clamped_mm": (sweep.end_play_clamped * MM.per_si).tolist(),
        "bench_n": sweep.preload_open.tolist(),
        "clamped_n": sweep.preload_clamped.tolist(),
        "cone": map(_position, sweep.cone_angle.tolist()),
        "clock": [f"{abs(angle) / CLOCK_MINUTE:.1f} minutes" for angle in sweep.cone_angle.tolist()],
        "bench": map(_reading, sweep.end_play_open.tolist(), sweep.preload_open.tolist()),
        "clamped": map(_reading, sweep.end_play_clamped.tolist(), sweep.preload_clamped.tolist()),
        "rim": map(millimetres, sweep.rim_play_clamped.tolist()),
    }
    return [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]


def _position(angle: float) -> str:
    return f"{degrees(abs(angle))} {'out' if angle >= 0 else 'in'} from finger contact"


def _reading(end_play: float, preload: float) -> str:
    return f"{millimetres(end_play)}, {'free play' if end_play > 0 else f'preload {newtons(preload)}'}"


def _line(field: str, scales: _Scales, y: Any, *, dashed: bool) -> Spec:
    """Return the curve of the hub on the bench, thin and dashed, or of the clamped hub, thick and full."""
    look = (
        {"color": tone("level"), "strokeWidth": 2, "strokeDash": [6, 4]}
        if dashed
        else {"color": tone("opens"), "strokeWidth": 3}
    )
    return {
        # what lies above the lower panel must not run into the upper one
        **only(f"datum.{field} <= {scales.force}"),
        "mark": {"type": "line", **look},
        "encoding": {"x": scales.x("out_deg"), "y": y(field)},
    }


def _nought(scales: _Scales) -> Spec:
    """Return the line where the balls just touch."""
    return {
        "data": values({"mm": 0.0}),
        "mark": {"type": "rule", "color": tone("ink"), "strokeWidth": 1},
        "encoding": {"y": scales.mm("mm")},
    }


def _names(sweep: Sweep, scales: _Scales) -> list[Spec]:
    """Return the names of the two curves, written beside them, and of the two sides of nought."""
    at = len(sweep.cone_angle) * 4 // 5
    beside = (
        (sweep.end_play_open[at], f"{BENCH} – – –", "right", -11),
        (sweep.end_play_clamped[at], f"{CLAMPED} ——", "left", 14),
    )
    marks = []
    for play, text, align, dy in beside:
        place = {"deg": DEG.from_si(float(sweep.cone_angle[at])), "mm": MM.from_si(float(play))}
        encoding = {"x": scales.x("deg"), "y": scales.mm("mm")}
        marks += written(encoding, {"data": values(place)}, text=text, align=align, dy=dy, fontWeight="bold")
    for text, dy in (("free play ↑", -9), ("preload ↓", 10)):
        encoding = {"x": {"value": 4}, "y": scales.mm("mm")}
        marks += written(encoding, {"data": values({"mm": 0.0})}, text=text, align="left", dy=dy)
    return marks


def _pointed(field: str, scales: _Scales, y: Any) -> Spec:
    """Return the point of the clamped hub's curve that is nearest the pointer."""
    return {
        "transform": [
            {"filter": {"param": "near", "empty": False}},
            {"filter": f"datum.{field} <= {scales.force}"},
        ],
        "mark": {
            "type": "point",
            "filled": True,
            "size": 70,
            "opacity": 1,
            "color": tone("ink"),
        },
        "encoding": {"x": scales.x("out_deg"), "y": y(field)},
    }


def _strips(scales: _Scales) -> Spec:
    """Return a see-through strip for each position, to be pointed at."""
    select = {
        "type": "point",
        "nearest": True,
        "on": "pointerover",
        "clear": "pointerout",
        "encodings": ["x"],
    }
    return {
        "params": [{"name": "near", "select": select}],
        "mark": {"type": "rule", "strokeWidth": 10, "opacity": 0},
        "encoding": {
            "x": scales.x("out_deg"),
            "tooltip": tooltip(
                ("cone", "cone"),
                ("clock", "on a clock face"),
                ("bench", BENCH),
                ("clamped", CLAMPED),
                ("rim", "rocks at the rim, clamped"),
            ),
        },
    }


def now_rows(sweep: Sweep, prediction: Prediction) -> list[Spec]:
    """Return the data of the setting as it stands: place [degrees], words, and how they are set; one row."""
    low, high = (DEG.from_si(float(end)) for end in sweep.cone_angle[[0, -1]])
    now = DEG.from_si(prediction.scenario.setting.back_off)
    words = f"now {number(now, 0)}°" + ("" if low <= now <= high else ", off this chart")
    at = min(max(now, low), high)
    return [{"deg": at, "words": words, "align": _align((at - low) / (high - low))}]


def _align(place: float) -> str:
    """Return how words are set about a place across the chart, 0 to 1, so that they stay within it."""
    return "left" if place < 0.15 else "right" if place > 0.85 else "center"


def _rule(scales: _Scales) -> Spec:
    """Return the setting as it stands, as a rule through both panels; at their edge where it lies beyond."""
    return {
        "data": {"name": NOW},
        "mark": {"type": "rule", "color": tone("closes"), "strokeWidth": 2, "strokeDash": [2, 2]},
        "encoding": {"x": scales.x("deg")},
    }


def _now_words(scales: _Scales) -> Spec:
    """Return the words above that rule."""
    sign = _sign({"align": {"expr": "datum.align"}}, -22, scales)
    sign["encoding"]["text"] = {"field": "words"}
    return sign | {"data": {"name": NOW}}


def _good_words(good: tuple[float, float], sweep: Sweep, prediction: Prediction, scales: _Scales) -> Spec:
    """Return the words above the good range."""
    ends = good_cone_angles(sweep, prediction) or (0.0, 0.0)
    words = f"good {number(DEG.from_si(ends[0]), 0)} to {number(DEG.from_si(ends[1]), 0)}°"
    middle = sum(good) / 2
    align = _align((middle - scales.out[0]) / (scales.out[1] - scales.out[0]))
    return _sign({"align": align, "text": words}, -5, scales) | {"data": values({"deg": middle})}


def _sign(look: Spec, height: float, scales: _Scales) -> Spec:
    """Return words above the chart, without their data."""
    plain = {
        "type": "text",
        "fontSize": SIZE,
        "fontWeight": "bold",
        "baseline": "bottom",
        "color": tone("ink"),
    }
    return {"mark": plain | look, "encoding": {"x": scales.x("deg"), "y": {"value": height}}}


def alt_text_against_cone_position(sweep: Sweep, prediction: Prediction) -> str:
    """Return the curves in words, for those who do not see them; as the chart, the same wherever the cone stands."""
    good = good_cone_angles(sweep, prediction)
    taken = prediction.stages["locked"].end_play - prediction.stages["clamped"].end_play
    said = (
        "End play and preload against the position of the cone, locked on the bench and clamped. "
        f"Clamping takes {millimetres(taken)} at every position. "
    )
    if good is None:
        return said + "No position of the cone is good."
    return said + f"The good range lies from {_position(good[0])} to {_position(good[1])}."
