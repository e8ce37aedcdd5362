"""Chart of the limits of the good range: where each ends it, and which is met first on each side."""

from conemodel.base.units import DEG, MM
from conemodel.show.charts.bar_rows import ROW, bar_row, bar_words, bars, down
from conemodel.show.charts.vega_lite import (
    AS_SET,
    Channel,
    Spec,
    chart,
    good_band,
    kept_within,
    on_scale,
    rule,
    sign_at,
    title,
    tone,
)
from conemodel.show.formatting import cone_angle, play_words
from conemodel.solve.curves.unloaded_tables import LOOSE_END, TIGHT_END
from conemodel.tasks.setting.good_range import Limit, Window
from conemodel.tasks.setting.predict import Prediction

FRAME = 96
"""Height of heading, words and axis [px]."""
LEAST_SHOWN = 0.02
"""The scale reaches at least this far beyond the good range on both sides [mm]."""
_BEYOND = {"loose": "petrol", "tight": "forbidden"}
"""Colour of what each side's limits forbid."""


def limit_words(limit: Limit) -> str:
    """Return a limit with its value in words."""
    return f"{limit.label}: {limit.unit.from_si(limit.value):g} {limit.unit.symbol}".rstrip()


def binds_chart(window: Window, prediction: Prediction) -> Spec:
    """Return, for each limit, the end plays it forbids, as Vega-Lite; the good range is what is left over.

    A bar begins where its limit is met and reaches to the side it forbids. The rule is the setting as it stands.
    """
    now = MM.from_si(prediction.stages["clamped"].end_play)
    low, high = _reach(window, now)
    rows = [_row(index, limit, low, high) for index, limit in enumerate(window.limits)]
    height = max(len(rows), 1) * ROW

    x = on_scale(low, high, "← tighter · end play once clamped, mm · looser →", tickCount=6, format=".2~f")
    y, shown = down(height), min(max(now, low), high)

    def above(at: float, words: str, lift: float) -> Spec:
        return sign_at(at, words, lift, x, align=kept_within((at - low) / (high - low), 0.1))

    good = (max(MM.from_si(window.tight_edge), low), min(MM.from_si(window.loose_edge), high))
    layers = [
        *([good_band(*good, x)] if good[0] < good[1] else []),
        *(_bars(x, y, met=met, side=side) for met in (True, False) for side in _BEYOND),
        *(mark for met in (True, False) for mark in _words(y, met=met)),
        rule("x", x, shown, **AS_SET),
        above(shown, "now", -20),
        *([above(sum(good) / 2, "good", -4)] if good[0] < good[1] else []),
    ]
    return chart(layers, rows=rows, height=height + FRAME, heading=title("What ends the good range", 32))


def _reach(window: Window, now: float) -> tuple[float, float]:
    """Return the ends of the scale [mm]: every edge that lies within what was looked at, and the setting."""
    ends = [MM.from_si(limit.edge) for limit in window.limits if TIGHT_END < limit.edge < LOOSE_END]
    ends += [0.0, *(end for end in (now,) if MM.from_si(TIGHT_END) <= end <= MM.from_si(LOOSE_END))]
    return min(ends) - LEAST_SHOWN, max(ends) + LEAST_SHOWN


def _row(index: int, limit: Limit, low: float, high: float) -> Spec:
    edge = min(max(MM.from_si(limit.edge), low), high)
    loose = limit.side == "loose"
    met = " ◂ met first" if limit.binding else ""
    return bar_row(
        index,
        edge if loose else low,
        high if loose else edge,
        words=f"too {limit.side} · {limit_words(limit)}{met}",
        met=limit.binding,
        side=limit.side,
    )


def _bars(x: Channel, y: Channel, *, met: bool, side: str) -> Spec:
    """Return the bars of one side's limits met first, full, or of the others, pale with a dashed edge."""
    colour = tone(_BEYOND[side])
    pale = {"fillOpacity": 0.25, "stroke": colour, "strokeDash": [4, 2], "strokeWidth": 1.5}
    return bars(f"{_test(met)} && datum.side == '{side}'", x, y, fill=colour, **({} if met else pale))


def _words(y: Channel, *, met: bool) -> list[Spec]:
    return bar_words(_test(met), "words", 6, y, align="left", fontWeight="bold" if met else "normal")


def _test(met: bool) -> str:
    return "datum.met" if met else "!datum.met"


def binds_words(window: Window, prediction: Prediction) -> str:
    """Return what ends the good range on each side, and how wide it is, in words."""
    said = []
    for side, edge in (("Loose", window.loose_edge), ("Tight", window.tight_edge)):
        first = [limit.label for limit in window.limits if limit.side == side.lower() and limit.binding]
        by = f"{' and '.join(first)}, at {play_words(edge, unit=' mm')}" if first else "nothing ends it"
        said.append(f"{side} side: {by}.")
    if window.width <= 0:
        return f"{' '.join(said)} Nothing is left between them: no setting is good."
    width = DEG.from_si(cone_angle(prediction, window.width))
    return f"{' '.join(said)} {width:.0f}° of cone lie between."
