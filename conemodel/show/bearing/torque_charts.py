"""Charts of what the hands feel: drag in its parts, torque over a turn of the wheel."""

import numpy as np

from conemodel.base.units import NEWTON_MM, Array
from conemodel.show.charts.bar_rows import ROW, bar_row, bar_words, bars, down
from conemodel.show.charts.vega_lite import (
    Spec,
    chart,
    curve,
    on_scale,
    rule,
    strip,
    title,
    tone,
    values,
    written,
)
from conemodel.show.formatting import torque_band
from conemodel.solve.wheel.hub_drag import HubDrag
from conemodel.tasks.bearing.feel_when_turned import Signature
from conemodel.tasks.bearing.feel_words import FELT_CHANGE, FELT_TORQUE

PART_WORDS = {
    "load": "the loaded balls",
    "grease": "moving the grease",
    "seals": "seals rubbing",
}
"""What each part of drag is called."""

NUMBER_AT, WORDS_AT = 72, 82
"""Where the numbers end and the words begin [px]."""
FRAME = 76
"""Height of heading and axis [px]."""
HEIGHT = 300
"""Of the other charts, with heading and words below [px]."""
MOST_POINTS = 1500
"""Points of the curve of torque that are drawn, at least one turn."""


def drag_bars(drag: HubDrag, *, heading: str, quoted: float | None = None) -> Spec:
    """Return the parts of drag, each bar starting where the last one ended, and their sum, as Vega-Lite.

    Bars are at the lower edge of their band; the upper one stands in words.

    `drag` holds single numbers; `quoted`: a measured torque [N·m] to stand below the sum.
    """
    rows, at = [], 0.0
    for index, (name, words) in enumerate(PART_WORDS.items()):
        size, most = (NEWTON_MM.from_si(edge) for edge in part_edges(drag, name))
        rows.append(_bar(index, _with_most(words, size, most), at, at + size, kind="part"))
        at += size
    most = NEWTON_MM.from_si(float(drag.total_upper))
    rows.append(_bar(len(rows), _with_most("all together", at, most), 0.0, at, kind="sum"))
    if quoted is not None:
        rows.append(_bar(len(rows), "quoted measurement", 0.0, NEWTON_MM.from_si(quoted), kind="quoted"))
    height = len(rows) * ROW
    top = max(row["to"] for row in rows) * 1.05 or 1.0

    x, y = on_scale(0, top, "torque, N·mm", tickCount=6, grid=True), down(height)
    hollow = {"fillOpacity": 0.0, "stroke": tone("ink"), "strokeWidth": 1.5, "strokeDash": [4, 2]}
    looks: dict[str, Spec] = {
        "part": {"fill": tone("petrol")},
        "sum": {"fill": tone("level")},
        "quoted": hollow,
    }
    layers = [bars(f"datum.kind === '{kind}'", x, y, cornerRadius=1, **look) for kind, look in looks.items()]
    layers += [
        mark
        for test, weight in (("!==", "normal"), ("===", "bold"))
        for field, place, align in (("size", NUMBER_AT, "right"), ("words", WORDS_AT, "left"))
        for mark in bar_words(f"datum.kind {test} 'sum'", field, place, y, align=align, fontWeight=weight)
    ]
    return chart(layers, rows=rows, height=height + FRAME, heading=title(heading, 12))


def _bar(index: int, words: str, start: float, end: float, *, kind: str) -> Spec:
    return bar_row(index, start, end, words=words, size=f"{end - start:.1f} N·mm", kind=kind)


def part_edges(drag: HubDrag, name: str) -> tuple[float, float]:
    """Return the lower and the upper edge of one part of drag [N·m]; only the load part has a band."""
    low = float(getattr(drag, name))
    return low, float(drag.load_upper) if name == "load" else low


def _with_most(words: str, size: float, most: float) -> str:
    """Return the words of a bar with the upper edge of its band [N·mm], where it has one."""
    return words if f"{most:.1f}" == f"{size:.1f}" else f"{words}, up to {most:.1f}"


def drag_words(drag: HubDrag) -> str:
    """Return the parts of drag in words."""
    parts = (f"{words} {torque_band(*part_edges(drag, name))}" for name, words in PART_WORDS.items())
    return f"{', '.join(parts)}; all together {torque_band(float(drag.total), float(drag.total_upper))} N·mm."


def torque_over_turn(found: Signature) -> Spec:
    """Return the torque it takes over a turn of the wheel, or more turns where it is smooth, as Vega-Lite.

    The shaded band is as wide as a change must be to be felt.
    """
    turns, torque = _turns_shown(found)
    level, felt = NEWTON_MM.from_si(found.level), NEWTON_MM.from_si(felt_change(found))
    low = min(0.0, float(torque.min()), level - felt)
    high = max(float(torque.max()), level + felt)
    room = 0.12 * (high - low)

    x = on_scale(0, round(float(turns[-1])), "turns of the wheel", tickCount=6, grid=False)
    foot = low - (room if low < 0 else 0)
    y = on_scale(foot, high + room, "torque, N·mm", tickCount=6, grid=True)
    band = {"low": level - felt / 2, "high": level + felt / 2}
    at = {"data": values({"nmm": level})}
    layers: list[Spec] = [
        {
            "data": values(band),
            "mark": {
                "type": "rect",
                "color": tone("good"),
                "fillOpacity": 0.22,
                "stroke": tone("good"),
                "strokeDash": [1, 3],
            },
            "encoding": {"y": y("low"), "y2": {"field": "high"}},
        },
        rule("y", y, 0.0, strokeWidth=1),
        curve(x("turn"), y("nmm"), colour="petrol", width=2),
        *written(
            {"x": {"value": "width"}, "y": y("nmm")},
            at,
            text=f"level {level:.1f}",
            align="right",
            dx=-4,
            dy=-10,
            fontWeight="bold",
        ),
        strip(x("turn"), ("at", "turned"), ("torque", "torque")),
    ]
    rows = [
        {"turn": turn, "nmm": value, "at": f"{turn:.2f} turns", "torque": f"{value:.1f} N·mm"}
        for turn, value in zip(turns.tolist(), torque.tolist(), strict=True)
    ]
    return chart(layers, rows=rows, height=HEIGHT, heading=title("Torque as the wheel turns", 12))


def felt_change(found: Signature) -> float:
    """Return the least change of torque that is felt on top of a hub's level [N·m]."""
    return max(FELT_CHANGE * found.level, FELT_TORQUE)


def alt_text_torque(found: Signature) -> str:
    """Return the chart of torque over the turn in words."""
    return (
        f"Torque as the wheel turns: {NEWTON_MM.from_si(found.level):.1f} N·mm on the whole, changing by "
        f"{NEWTON_MM.from_si(found.variation):.1f} N·mm; a change of {NEWTON_MM.from_si(felt_change(found)):.1f} N·mm "
        f"can be felt. In words: {', '.join(found.words)}."
    )


def _turns_shown(found: Signature) -> tuple[Array, Array]:
    """Return as many whole turns as may be drawn: turns and torque [N·mm]."""
    turns = np.asarray(found.angle / (2 * np.pi))
    whole = round(float(turns[-1] + turns[1]))
    a_turn = turns.size // whole
    count = a_turn * max(1, min(whole, MOST_POINTS // a_turn))
    return turns[:count], found.torque[:count] * NEWTON_MM.per_si
