"""Chart of the limits of the good range: where each ends it, and which is met first on each side."""

from conemodel.base.units import DEG, MM
from conemodel.show.charts.cone_axis import Channel
from conemodel.show.charts.vega_lite import (
    Spec,
    axis,
    chart,
    good_band,
    number_field,
    only,
    title,
    tone,
    values,
    written,
)
from conemodel.show.formatting import cone_angle, millimetres
from conemodel.solve.curves.unloaded_tables import LOOSE_END, TIGHT_END
from conemodel.tasks.setting.good_range import Limit, Window
from conemodel.tasks.setting.predict import Prediction

ROW, BAR_TOP, BAR_BOTTOM, TEXT = 40, 21, 34, 10
"""Height of one row; where its bar and its text stand in it [px]."""
FRAME = 96
"""Height of heading, words and axis [px]."""
LEAST_SHOWN = 0.02
"""The scale reaches at least this far beyond the good range on both sides [mm]."""


def limit_words(limit: Limit) -> str:
    """Return a limit with its value in words.

    Args:
        limit: of a good range.
    """
    return f"{limit.label}: {limit.unit.from_si(limit.value):g} {limit.unit.symbol}".rstrip()


def binds_chart(window: Window, prediction: Prediction) -> Spec:
    """Return, for each limit, the end plays it forbids, as Vega-Lite; the good range is what is left over.

    A bar begins where its limit is met and reaches to the side it forbids. The rule is the setting as it stands.
    """
    now = MM.from_si(prediction.stages["clamped"].end_play)
    low, high = _reach(window, now)
    rows = [_row(index, limit, low, high) for index, limit in enumerate(window.limits)]
    height = max(len(rows), 1) * ROW

    def x(field: str) -> Spec:
        return number_field(
            field,
            scale={"domain": [low, high], "nice": False, "zero": False},
            title="← tighter · end play once clamped, mm · looser →",
            axis=axis(tickCount=6, format=".2~f"),
        )

    def y(field: str) -> Spec:
        return number_field(field, scale={"domain": [height, 0], "nice": False, "zero": False}, axis=None)

    good = (max(MM.from_si(window.tight_edge), low), min(MM.from_si(window.loose_edge), high))
    layers = [
        *([good_band(*good, x)] if good[0] < good[1] else []),
        *(_bars(x, y, met=met) for met in (True, False)),
        *_words(y, met=True),
        *_words(y, met=False),
        {
            "data": values({"mm": min(max(now, low), high)}),
            "mark": {"type": "rule", "color": tone("closes"), "strokeWidth": 2, "strokeDash": [2, 2]},
            "encoding": {"x": x("mm")},
        },
        _sign(x, min(max(now, low), high), "now", -20, low, high),
        *([_sign(x, sum(good) / 2, "good", -4, low, high)] if good[0] < good[1] else []),
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
    top = index * ROW
    beyond = "loose" if loose else "tight"
    return {
        "words": f"too {beyond} · {limit_words(limit)}{met}",
        "from": edge if loose else low,
        "to": high if loose else edge,
        "met": limit.binding,
        "bar_top": top + BAR_TOP,
        "bar_bottom": top + BAR_BOTTOM,
        "text": top + TEXT,
    }


def _bars(x: Channel, y: Channel, *, met: bool) -> Spec:
    """Return the bars of the limits met first, full, or of the others, pale with a dashed edge."""
    look: Spec = {"fill": tone("closes")}
    if not met:
        look |= {"fillOpacity": 0.25, "stroke": tone("closes"), "strokeDash": [4, 2], "strokeWidth": 1.5}
    return {
        **only(f"{'' if met else '!'}datum.met"),
        "mark": {"type": "rect", **look},
        "encoding": {"x": x("from"), "x2": {"field": "to"}, "y": y("bar_top"), "y2": {"field": "bar_bottom"}},
    }


def _words(y: Channel, *, met: bool) -> list[Spec]:
    return written(
        {"x": {"value": 6}, "y": y("text"), "text": {"field": "words"}},
        only(f"{'' if met else '!'}datum.met"),
        align="left",
        fontWeight="bold" if met else "normal",
    )


def _sign(x: Channel, at: float, words: str, height: float, low: float, high: float) -> Spec:
    place = (at - low) / (high - low)
    align = "left" if place < 0.1 else "right" if place > 0.9 else "center"
    look = {"type": "text", "fontSize": 12, "fontWeight": "bold", "baseline": "bottom", "color": tone("ink")}
    return {
        "data": values({"mm": at}),
        "mark": {**look, "text": words, "align": align},
        "encoding": {"x": x("mm"), "y": {"value": height}},
    }


def binds_words(window: Window, prediction: Prediction) -> str:
    """Return what ends the good range on each side, and how wide it is, in words.

    Args:
        window: the good range.
        prediction: whose cone turns it into degrees.
    """
    said = []
    for side, edge in (("Loose", window.loose_edge), ("Tight", window.tight_edge)):
        first = [limit.label for limit in window.limits if limit.side == side.lower() and limit.binding]
        by = f"{' and '.join(first)}, at {millimetres(edge, sign=True)}" if first else "nothing ends it"
        said.append(f"{side} side: {by}.")
    if window.width <= 0:
        return f"{' '.join(said)} Nothing is left between them: no setting is good."
    width = DEG.from_si(cone_angle(prediction, window.width))
    return f"{' '.join(said)} {width:.0f}° of cone lie between."
