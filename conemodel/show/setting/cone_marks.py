"""The marks of the chart over the cone's position: its scales, curves, rules and the words beside them."""

from dataclasses import dataclass

from conemodel.base.units import DEG, MM
from conemodel.show.charts.cone_axis import cone_scale
from conemodel.show.charts.vega_lite import (
    AS_SET,
    Channel,
    Spec,
    curve,
    dot,
    kept_within,
    on_scale,
    only,
    rule,
    sign,
    sign_at,
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
        return cone_scale(*self.out)(field)

    def mm(self, field: str) -> Spec:
        """Return the channel of an end play, in the upper panel."""
        return on_scale(*self.play, "end play, mm", panel=PLAY, tickCount=5, orient="left", grid=True)(field)

    def newton(self, field: str) -> Spec:
        """Return the channel of a preload, in the lower panel."""
        heading = "preload, N"
        return on_scale(0, self.force, heading, panel=PINCH, tickCount=4, orient="left", grid=True)(field)


def line(field: str, scales: Scales, y: Channel, *, dashed: bool) -> Spec:
    """Return the curve of the hub on the bench, thin and dashed, or of the clamped hub, thick and full."""
    x = scales.x("out_deg")
    if dashed:
        drawn = curve(x, y(field), colour="level", width=2, dash=(6, 4))
    else:
        drawn = curve(x, y(field), colour="petrol", width=3)
    # what lies above the lower panel must not run into the upper one
    return {**only(f"datum.{field} <= {scales.force}"), **drawn}


def names(sweep: Sweep, scales: Scales) -> list[Spec]:
    """Return the names of the two curves, written beside them, and of the two sides of zero."""
    beside = (
        (sweep.end_play_open, 0.8, f"{BENCH} – – –", "right", -11),
        (sweep.end_play_clamped, 0.6, f"{CLAMPED} ——", "left", 14),  # leaves its words room on a phone
    )
    marks = []
    for play, share, text, align, dy in beside:
        at = int(len(sweep.cone_angle) * share)
        place = {"deg": DEG.from_si(float(sweep.cone_angle[at])), "mm": MM.from_si(float(play[at]))}
        encoding = {"x": scales.x("deg"), "y": scales.mm("mm")}
        marks += written(encoding, {"data": values(place)}, text=text, align=align, dy=dy, fontWeight="bold")
    for text, dy in (("play ↑", -9), ("squeeze ↓", 10)):
        encoding = {"x": {"value": 4}, "y": scales.mm("mm")}
        marks += written(encoding, {"data": values({"mm": 0.0})}, text=text, align="left", dy=dy)
    return marks


def nearest_point(field: str, scales: Scales, y: Channel) -> Spec:
    """Return the point of the clamped hub's curve that is nearest the pointer."""
    near = {"filter": {"param": "near", "empty": False}}
    below = {"filter": f"datum.{field} <= {scales.force}"}
    return {"transform": [near, below], **dot(scales.x("out_deg"), y(field), size=70)}


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


def now_rule(scales: Scales) -> Spec:
    """Return the setting as it stands, as a rule through both panels; at their edge where it lies beyond."""
    drawn = rule("x", scales.x, 0.0, **AS_SET)
    return drawn | {"data": {"name": NOW}, "encoding": {"x": scales.x("deg")}}


def now_words(scales: Scales) -> Spec:
    """Return the words above that rule."""
    above = sign({"align": {"expr": "datum.align"}}, scales.x("deg"), -22)
    above["encoding"]["text"] = {"field": "words"}
    return above | {"data": {"name": NOW}}


def good_words(shown: tuple[float, float], ends: tuple[float, float], scales: Scales) -> Spec:
    """Return the words above the good range: its `ends`, above what is `shown` of it [degrees]."""
    middle = sum(shown) / 2
    align = kept_within((middle - scales.out[0]) / (scales.out[1] - scales.out[0]))
    return sign_at(middle, f"good {number(ends[0], 0)} to {number(ends[1], 0)}°", -5, scales.x, align=align)
