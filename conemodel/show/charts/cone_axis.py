"""What charts over the position of the cone share: the axis, the good range, the setting as it stands, the read-out."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from conemodel.base.units import DEG, Array
from conemodel.show.charts.vega_lite import (
    AS_SET,
    Channel,
    Spec,
    as_rows,
    chart,
    curve,
    good_band,
    kept_within,
    on_scale,
    only,
    rule,
    sign_at,
    strip,
    title,
    values,
    written,
)
from conemodel.show.formatting import cone_angle, degrees, number
from conemodel.tasks.setting.predict import Prediction

HEIGHT = 320
"""Of a whole chart, with heading and words below [px]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ConeAxis:
    """The scale across, in degrees of cone out from finger contact.

    Attributes:
        low, high: its ends; now: where the cone stands; good: the good range, None where there is none or it does
            not follow the cone.
    """

    low: float
    high: float
    now: float
    good: tuple[float, float] | None

    def x(self, field: str) -> Spec:
        """Return the channel of a cone position [degrees]."""
        return cone_scale(self.low, self.high)(field)

    @property
    def now_shown(self) -> float:
        """Where the cone stands, at the edge of the chart where it lies beyond."""
        return min(max(self.now, self.low), self.high)

    def sign(self, at: float, words: str, height: float) -> Spec:
        """Return bold words above the chart, `height` from its top [px], kept within its sides."""
        align = kept_within((at - self.low) / (self.high - self.low))
        return sign_at(at, words, height, self.x, align=align)


def cone_scale(low: float, high: float) -> Channel:
    """Return what makes the channel of a cone position, both ends in degrees."""
    heading = "← in (clockwise) · degrees of cone · out →"
    return on_scale(low, high, heading, tickCount=8, format="~f", grid=False, ticks=True, domain=True)


def cone_axis(prediction: Prediction, angle: Array, end_play: Array) -> ConeAxis:
    """Return the axis for clamped end plays `end_play` (n,) [m] at cone positions `angle` (n,) [rad]."""
    low, high = DEG.from_si(float(angle[0])), DEG.from_si(float(angle[-1]))
    ends = None if np.ptp(end_play) == 0.0 else good_cone_angles(prediction, angle, end_play)
    good = None if ends is None else (DEG.from_si(ends[0]), DEG.from_si(ends[1]))
    shown = None if good is None else (max(good[0], low), min(good[1], high))
    return ConeAxis(
        low=low,
        high=high,
        now=DEG.from_si(prediction.scenario.setting.back_off),
        good=shown if shown and shown[0] < shown[1] else None,
    )


def over_cone(
    heading: str,
    across: ConeAxis,
    layers: Sequence[Spec],
    *,
    columns: Mapping[str, Iterable[Any]],
    read_out: Sequence[tuple[str, str]],
) -> Spec:
    """Return a chart over the position of the cone, as Vega-Lite.

    Args:
        heading: above it.
        across: its axis.
        layers: what is drawn; a row of the data holds `out_deg`, `cone` and the columns.
        columns: further fields of the data, one value a position.
        read_out: fields of words told beside the pointer, each with its heading.
    """
    whole = [
        *([good_band(*across.good, across.x)] if across.good else []),
        rule("x", across.x, across.now_shown, **AS_SET),  # below the layers, whose words then stop it
        *layers,
        across.sign(across.now_shown, _now(across), -20),
        *([across.sign(sum(across.good) / 2, _good_words(across), -4)] if across.good else []),
        strip(across.x("out_deg"), ("cone", "cone"), *read_out, width=10),
    ]
    rows = as_rows(columns)
    for row in rows:
        row["cone"] = position_words(DEG.to_si(row["out_deg"]))
    return chart(whole, rows=rows, height=HEIGHT, heading=title(heading, 32))


def line(
    across: ConeAxis, field: str, y: Spec, *, colour: str, width: float, dash: Sequence[int] = ()
) -> Spec:
    """Return a curve of a `field`, left out where it has no number; `y` is its channel, `dash` on and off [px]."""
    return {
        **only(f"isValid(datum.{field})"),
        **curve(across.x("out_deg"), y, colour=colour, width=width, dash=dash),
    }


def key_words(lines: Sequence[str], *, left: float = 8, top: float = 12) -> list[Spec]:
    """Return lines of words in a corner of the chart, from its left and its top [px]."""
    return [
        mark
        for i, words in enumerate(lines)
        for mark in written(
            {"x": {"value": left}, "y": {"value": top + 17 * i}},
            {"data": values({"one": 1})},
            text=words,
            align="left",
        )
    ]


def position_words(angle: float) -> str:
    """Return a cone position [rad] in words."""
    return f"{degrees(abs(angle))} {'out' if angle >= 0 else 'in'} from finger contact"


def good_cone_angles(prediction: Prediction, angle: Array, end_play: Array) -> tuple[float, float] | None:
    """Return the cone positions between which the clamped hub is good [rad], or None where none is.

    End play follows the cone by its thread's lead, so the ends are exact also beyond the `end_play` (n,) [m] given at
    positions `angle` (n,) [rad].
    """
    window = prediction.window
    if window.width <= 0:
        return None
    low, high = (
        float(angle[0]) + cone_angle(prediction, edge - float(end_play[0]))
        for edge in (window.tight_edge, window.loose_edge)
    )
    return low, high


def _now(across: ConeAxis) -> str:
    off = "" if across.low <= across.now <= across.high else ", off this chart"
    return f"now {number(across.now, 0)}°{off}"


def _good_words(across: ConeAxis) -> str:
    low, high = across.good or (0.0, 0.0)
    return f"good {number(low, 0)} to {number(high, 0)}°"
