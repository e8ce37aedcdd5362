"""Charts of a study of many hubs, as Vega-Lite."""

from collections.abc import Sequence

import numpy as np

from conemodel.base.plain_text import one_line
from conemodel.base.units import DEG, MM
from conemodel.show.charts.label_layout import LINE, lift_signs, shorten_names
from conemodel.show.charts.vega_lite import (
    AS_SET,
    Spec,
    axis,
    chart,
    good_band,
    number_field,
    on_scale,
    rule,
    title,
    tone,
    tooltip,
    values,
    written,
)
from conemodel.show.formatting import LOOSER, TIGHTER
from conemodel.show.population.text import headline
from conemodel.show.population.wording import percent
from conemodel.tasks.population.sobol import Influence
from conemodel.tasks.population.study import Group, ManyHubs

HEIGHT, CURVES, ROW = 260, 280, 34
"""Height of a chart, of the curves of back-off within theirs, and of one row of bars [px]."""

Shown = np.ndarray[tuple[int], np.dtype[np.bool_]]
"""Which points of a curve are shown."""

DASHES: tuple[tuple[int, ...], ...] = (
    (),
    (8, 3),
    (2, 2),
    (8, 3, 2, 3),
    (4, 4),
    (12, 3),
    (2, 5),
    (8, 2, 2, 2, 2, 2),
)
"""A dash for each kind of hub, so that no colour is needed to tell them apart."""

SHOWN = (-15.0, 200.0)
"""Back-offs that the pictures show [degrees]."""


def spread_chart(study: ManyHubs) -> Spec:
    """Return how many hubs end up with which clamped end play, as Vega-Lite; the good range is shaded."""
    spread = study.all.spread
    edges, shares = spread.edges * MM.per_si, spread.counts / study.all.number
    rows = [
        {
            "low": low,
            "high": high,
            "share": share,
            "words": f"{low:+.3f} to {high:+.3f} mm",
            "share_words": percent(share),
        }
        for low, high, share in zip(edges[:-1].tolist(), edges[1:].tolist(), shares.tolist(), strict=True)
    ]

    def x(field: str) -> Spec:
        return number_field(
            field,
            title=f"{TIGHTER} · clamped end play, mm · {LOOSER}",
            axis=axis(format=".2~f"),
            scale={"zero": False},
        )

    y = number_field("share", title="share of hubs", axis=axis(format="~%"), stack=None)
    bars = {
        "mark": {"type": "rect", "color": tone("level")},
        "encoding": {
            "x": x("low"),
            "x2": {"field": "high"},
            "y": y,
            "y2": {"datum": 0},
            "tooltip": tooltip(("words", "end play"), ("share_words", "hubs")),
        },
    }
    low, high = (MM.from_si(edge) for edge in study.all.good)
    band = [good_band(low, high, x)] if low < high else []
    return chart(
        [*band, bars, rule("x", x, 0.0)],
        rows=rows,
        height=HEIGHT,
        heading=title("Where the hubs end up, clamped", 12),
    )


def back_off_chart(study: ManyHubs) -> Spec:
    """Return the share of hubs that land in the good range against a fixed back-off, as Vega-Lite.

    One dashed line for each kind of hub and a thick one for all, each with a number above its top; the names stand
    below the heading. A rule stands at the back-off asked about.
    """
    across = on_scale(*SHOWN, "back-off, degrees of cone from finger contact", format="~f", tickCount=9)
    groups = (study.all, *study.kinds)
    tops = {str(n): (DEG.from_si(each.curve.best[0]), each.curve.best[1]) for n, each in enumerate(groups, 1)}
    lifts = lift_signs(tops, across=SHOWN[1] - SHOWN[0], height=CURVES)
    room = LINE + max(lifts.values())  # above the highest top, for the signs
    highest = max(right for _, right in tops.values()) * (1 + room / CURVES)
    y = on_scale(0, max(highest, 1e-3), "in the good range", format="~%")("right")
    lines = [
        _back_off_line(group, angles_shown(study), across("out"), y, number)
        for number, group in enumerate(groups)
    ]
    now = rule("x", across, DEG.from_si(study.back_off), **AS_SET)
    signs = [
        mark
        for sign, (out, right) in tops.items()
        for mark in written(
            {"x": across("out"), "y": y},
            {"data": values({"out": out, "right": right})},
            text=sign,
            dy=-9 - lifts[sign],
            fontWeight="bold",
        )
    ]
    short = shorten_names([one_line(group.name) for group in groups])
    named = [f"{n}  {short[one_line(group.name)]}" for n, group in enumerate(groups, 1)]
    heading = title("How many a fixed back-off puts right", 12) | {
        "subtitle": named,
        "subtitleLineHeight": LINE,
    }
    return chart(
        [*lines, now, *signs], rows=[], height=CURVES + room + LINE * len(named) + 76, heading=heading
    )


def _back_off_line(group: Group, shown: Shown, x: Spec, y: Spec, number: int) -> Spec:
    """Return the line of one kind of hub, or of all where `number` is 0."""
    rows = [
        {
            "out": out,
            "right": right,
            "name": one_line(group.name),
            "share": percent(right),
            "turn": f"{out:.0f}°",
        }
        for out, right in zip(
            (group.curve.angle * DEG.per_si)[shown].tolist(), group.curve.right[shown].tolist(), strict=True
        )
    ]
    dash = {"strokeDash": list(DASHES[number % len(DASHES)])} if number else {}
    look = {"color": tone("level" if number else "ink"), "strokeWidth": 1.8 if number else 3.5, **dash}
    return {
        "data": values(*rows),
        "mark": {"type": "line", "clip": True, **look},
        "encoding": {
            "x": x,
            "y": y,
            "tooltip": tooltip(("name", "hubs"), ("turn", "back-off"), ("share", "right")),
        },
    }


def angles_shown(study: ManyHubs) -> Shown:
    """Return which points of the back-off curves are shown."""
    out = study.all.curve.angle * DEG.per_si
    return np.asarray((out >= SHOWN[0]) & (out <= SHOWN[1]))


def influence_chart(influences: Sequence[Influence]) -> Spec:
    """Return what matters as bars, most important on top, as Vega-Lite: by itself filled, with others outlined."""
    rows = [
        {
            "label": each.label,
            "first": max(each.first, 0.0),
            "total": max(each.total, 0.0),
            "words": f"{percent(max(each.first, 0.0))} by itself, {percent(max(each.total, 0.0))} with others",
        }
        for each in influences
    ]
    y = {"field": "label", "type": "nominal", "sort": None, "title": None, "axis": axis(labelLimit=220)}
    heading = ["share of the variance", "of the clamped end play"]

    def bars(field: str, **look: object) -> Spec:
        channel = number_field(field, title=heading, axis=axis(format="~%"))
        encoding = {"x": channel, "y": y, "tooltip": tooltip(("label", "input"), ("words", "share"))}
        return {"mark": {"type": "bar", **look}, "encoding": encoding}

    layers = [
        bars("total", filled=False, stroke=tone("level"), strokeDash=[3, 2]),
        bars("first", color=tone("petrol"), height=12),
    ]
    return chart(layers, rows=rows, height=ROW * len(rows), heading=title("What matters most", 12))


def alt_text_many(study: ManyHubs, influences: Sequence[Influence]) -> str:
    """Return the pictures of a study in words, for those who do not see them."""
    best = "; ".join(
        f"{one_line(group.name)}: best at {DEG.from_si(group.curve.best[0]):.0f}° with "
        f"{percent(group.curve.best[1])} right"
        for group in study.kinds
    )
    most = f"the {influences[0].label}, {percent(max(influences[0].total, 0.0))} of the variance"
    return f"{headline(study)} {best}. What matters most is {most}."
