"""The marks of the chart over the cone's position: its scales, curves, rules and the words beside them."""

from dataclasses import dataclass
from typing import Any

from conemodel.base.units import DEG, MM
from conemodel.show.charts.vega_lite import (
    SIZE,
    Spec,
    axis,
    number_field,
    only,
    tone,
    tooltip,
    values,
    written,
)
from conemodel.show.formatting import number
from conemodel.tasks.setting.sweep import Sweep

CLAMPED, BENCH = "clamped", "locked, on the bench"

NOW = "now"
"""Name of the data that says where the cone stands."""

PLAY, PINCH = (0.58, 0.0), (1.0, 0.66)
"""Bottom and top of the panel of end play and of the panel of preload below it, as shares of the height."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scales:
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


def _shares(ends: tuple[float, float]) -> list[Spec]:
    return [{"expr": f"height * {end}"} for end in ends]


def line(field: str, scales: Scales, y: Any, *, dashed: bool) -> Spec:
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


def zero_line(scales: Scales) -> Spec:
    """Return the line of zero end play, where the balls just touch."""
    return {
        "data": values({"mm": 0.0}),
        "mark": {"type": "rule", "color": tone("ink"), "strokeWidth": 1},
        "encoding": {"y": scales.mm("mm")},
    }


def names(sweep: Sweep, scales: Scales) -> list[Spec]:
    """Return the names of the two curves, written beside them, and of the two sides of zero."""
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


def nearest_point(field: str, scales: Scales, y: Any) -> Spec:
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


def strips(scales: Scales) -> Spec:
    """Return a see-through strip for each position, to be pointed at; they stand side by side."""
    select = {
        "type": "point",
        "on": "pointerover",
        "clear": "pointerout",
        "encodings": ["x"],
    }
    return {
        "params": [{"name": "near", "select": select}],
        "mark": {"type": "rect", "opacity": 0},
        "encoding": {
            "x": scales.x("from_deg"),
            "x2": {"field": "to_deg"},
            "tooltip": tooltip(
                ("cone", "cone"),
                ("clock", "on a clock face"),
                ("bench", BENCH),
                ("clamped", CLAMPED),
                ("rim", "rocks at the rim, clamped"),
            ),
        },
    }


def rule(scales: Scales) -> Spec:
    """Return the setting as it stands, as a rule through both panels; at their edge where it lies beyond."""
    return {
        "data": {"name": NOW},
        "mark": {"type": "rule", "color": tone("closes"), "strokeWidth": 2, "strokeDash": [2, 2]},
        "encoding": {"x": scales.x("deg")},
    }


def now_words(scales: Scales) -> Spec:
    """Return the words above that rule."""
    sign = _sign({"align": {"expr": "datum.align"}}, -22, scales)
    sign["encoding"]["text"] = {"field": "words"}
    return sign | {"data": {"name": NOW}}


def good_words(shown: tuple[float, float], ends: tuple[float, float], scales: Scales) -> Spec:
    """Return the words above the good range: its `ends`, above what is `shown` of it [degrees]."""
    middle = sum(shown) / 2
    align = kept_within((middle - scales.out[0]) / (scales.out[1] - scales.out[0]))
    look = {"align": align, "text": f"good {number(ends[0], 0)} to {number(ends[1], 0)}°"}
    return _sign(look, -5, scales) | {"data": values({"deg": middle})}


def _sign(look: Spec, height: float, scales: Scales) -> Spec:
    """Return words above the chart, without their data."""
    plain = {
        "type": "text",
        "fontSize": SIZE,
        "fontWeight": "bold",
        "baseline": "bottom",
        "color": tone("ink"),
    }
    return {"mark": plain | look, "encoding": {"x": scales.x("deg"), "y": {"value": height}}}


def kept_within(place: float) -> str:
    """Return how words are set about a place across the chart, 0 to 1, so that they stay within it."""
    return "left" if place < 0.15 else "right" if place > 0.85 else "center"
