"""Probability density of a checked hub's end play, as a chart for the live screen, in words and as CSV."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from conemodel.base.units import MM, Array
from conemodel.show.charts.label_layout import NARROWEST, lift_signs
from conemodel.show.charts.vega_lite import (
    Spec,
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
    tone,
    values,
    written,
)
from conemodel.show.formatting import LOOSER, TIGHTER, degrees, number, play_range_words, play_words
from conemodel.tasks.diagnosis.credible_intervals import Likely
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from conemodel.tasks.diagnosis.procedure import percent, say_chance

NAMES = {"closed": "clamp closed ——", "opened": "clamp open – – –"}

READ_OUT = (("place", "end play, closed"), ("less", "chance of less"), ("turn", "to the middle"))
"""Told beside the pointer: fields of words, each with its heading."""

HEIGHT = 300
"""Of the whole chart, with heading and words below [px]."""

CURVES = 150
"""Least height of the higher curve in it [px]."""

NAMED = 130
"""Widest name of a curve, with its line [px]."""

POINTS = 160
"""Points of each curve on screen; the CSV has them all."""

SMOOTHED = 1 / 15
"""Share of the range holding 95 % over which a curve on screen is averaged: the steps it was worked out in go."""

ROOM = 0.08
"""What is left free on either side, as a share of what is shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scales:
    """Ends across [mm] and the top of the density."""

    low: float
    high: float
    top: float

    def x(self, field: str) -> Spec:
        """Return the channel of an end play [mm]."""
        heading = f"{TIGHTER} · end play, mm · {LOOSER}"
        ticks: Spec = {"tickCount": 6, "grid": False, "ticks": True, "domain": True, "format": "~f"}
        return on_scale(self.low, self.high, heading, **ticks)(field)

    def y(self, field: str) -> Spec:
        """Return the channel of a density."""
        return on_scale(0, self.top, "likelier →", labels=False, ticks=False, grid=False)(field)

    def align(self, at: float) -> str:
        """Return how words at a place are set so that they stay inside."""
        return kept_within((at - self.low) / (self.high - self.low), 0.2)


def spread_chart(diagnosis: Diagnosis) -> Spec | None:
    """Return where the end play most likely is, clamp closed (filled) and open (dashed); None where it is not known.

    Vega-Lite. The higher a curve, the likelier the end play below it; both hold the same area. The good range for
    the closed clamp is shaded.
    """
    if diagnosis.closed is None or diagnosis.opened is None:
        return None
    low, high = _ends(diagnosis)
    rows = [
        row
        for name, believed in (("closed", diagnosis.closed), ("opened", diagnosis.opened))
        for row in _rows(believed, name, low, high, diagnosis)
    ]
    scales = _Scales(low=low, high=high, top=1.25 * max(row["density"] for row in rows))
    layers = [
        *_good(diagnosis, scales),
        *(_curve(name, scales) for name in NAMES),
        rule("x", scales.x, 0.0, strokeWidth=1),  # where the balls just touch
        *_names(rows, scales),
        {**only("datum.which == 'closed'"), **strip(scales.x("mm"), *READ_OUT)},
    ]
    heading = title("Where the end play most likely is", 34)
    return chart(layers, rows=rows, height=HEIGHT, heading=heading)


def _ends(diagnosis: Diagnosis) -> tuple[float, float]:
    """Return what is shown across [mm]: nearly the whole distribution, zero and the good range."""
    numbers = [one for one in (diagnosis.closed, diagnosis.opened) if one is not None]
    ends = [0.0, *(end for one in numbers for end in one.intervals[0.95])]
    if diagnosis.window.width > 0:
        ends += [diagnosis.window.tight_edge, diagnosis.window.loose_edge]
    room = ROOM * (max(ends) - min(ends))
    return MM.from_si(float(min(ends) - room)), MM.from_si(float(max(ends) + room))


def _rows(believed: Likely, name: str, low: float, high: float, diagnosis: Diagnosis) -> list[Spec]:
    """Return one curve as rows from `low` to `high` [mm]."""
    at = np.linspace(low, high, POINTS)
    edges, below = chance_below(believed)
    reach = SMOOTHED * MM.from_si(believed.intervals[0.95][1] - believed.intervals[0.95][0])
    half = max(reach, (high - low) / (POINTS - 1)) / 2
    density = (np.interp(at + half, edges, below) - np.interp(at - half, edges, below)) / (2 * half)
    less = np.interp(at, edges, below)
    lead, target = diagnosis.scenario.axle.lead_per_radian, diagnosis.window.target
    return [
        {
            "which": name,
            "mm": mm,
            "density": height,
            "place": play_words(MM.to_si(mm), unit=" mm"),
            "less": percent(tighter),
            "turn": _turn((target - MM.to_si(mm)) / lead) if name == "closed" else "–",
        }
        for mm, height, tighter in zip(at.tolist(), density.tolist(), less.tolist(), strict=True)
    ]


def chance_below(believed: Likely) -> tuple[Array, Array]:
    """Return values (n + 1,) [mm] and the chance of less than each, from a density over a length."""
    width = np.gradient(believed.at)
    total = np.concatenate(([0.0], np.cumsum(believed.density * width)))
    edges = np.append(believed.at - width / 2, believed.at[-1] + width[-1] / 2)
    return np.asarray(MM.per_si * edges), np.asarray(total / total[-1])


def _turn(angle: float) -> str:
    return f"{degrees(abs(angle))} {'out' if angle > 0 else 'in'}"


def _good(diagnosis: Diagnosis, scales: _Scales) -> list[Spec]:
    """Return the good range, as far as it is shown, with its name."""
    if diagnosis.window.width <= 0:
        return []
    low, high = MM.from_si(diagnosis.window.tight_edge), MM.from_si(diagnosis.window.loose_edge)
    words = f"good, closed: {number(low, 2, sign=True)} to {number(high, 2, sign=True)}"
    middle = (low + high) / 2
    return [good_band(low, high, scales.x), sign_at(middle, words, -5, scales.x, align=scales.align(middle))]


def _curve(name: str, scales: _Scales) -> Spec:
    """Return a curve: filled and full for the closed clamp, a dashed line for the open one."""
    x, y = scales.x("mm"), scales.y("density")
    drawn = curve(x, y, colour="level", width=2, dash=(6, 4))
    if name == "closed":
        line = {"color": tone("petrol"), "strokeWidth": 3}
        drawn["mark"] = {"type": "area", "color": tone("petrol"), "fillOpacity": 0.3, "line": line}
    return {**only(f"datum.which == '{name}'"), **drawn}


def _names(rows: list[Spec], scales: _Scales) -> Iterator[Spec]:
    """Yield each curve's name above its peak; where two would lie on each other the higher one is lifted."""
    peaks = {
        name: max((row for row in rows if row["which"] == name), key=lambda row: float(row["density"]))
        for name in NAMES
    }
    across = scales.high - scales.low
    aside = {"left": NAMED / 2, "center": 0.0, "right": -NAMED / 2}
    middles = {
        name: (
            peak["mm"] - scales.low + aside[scales.align(peak["mm"])] * across / NARROWEST,
            peak["density"],
        )
        for name, peak in peaks.items()
    }
    lifts = lift_signs(middles, across=across, height=CURVES, wide=NAMED)
    for name, peak in peaks.items():
        yield from written(
            {"x": scales.x("mm"), "y": scales.y("density")},
            {"data": values({"mm": peak["mm"], "density": peak["density"]})},
            text=NAMES[name],
            align=scales.align(peak["mm"]),
            dy=-11 - lifts[name],
            fontWeight="bold",
        )


def alt_text_spread(diagnosis: Diagnosis) -> str:
    """Return the chart in words, for those who do not see it."""
    said = [
        f"clamp {name}, {play_words(one.median, unit=' mm')}, four times in five "
        f"{play_range_words(*one.intervals[0.8], unit=' mm')}"
        for name, one in (("closed", diagnosis.closed), ("open", diagnosis.opened))
        if one is not None
    ]
    if not said:
        return "The end play is not known."
    window, good = diagnosis.window, "No end play is good all the way round"
    if window.width > 0:
        ends = play_range_words(window.tight_edge, window.loose_edge, unit=" mm")
        good = f"The good range with the clamp closed is {ends}"
    now = diagnosis.chance_right
    chance = ""
    if now is not None:
        told = say_chance(now, measured=diagnosis.readings.play_measured)
        chance = f"; the chance of being in it now is {told}"
    return f"Where the end play most likely is: {'; '.join(said)}. {good}{chance}."
