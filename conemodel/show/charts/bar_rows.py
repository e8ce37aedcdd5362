"""Charts of bars one below the other, each with its words above it."""

from typing import Any

from conemodel.show.charts.vega_lite import Channel, Spec, number_field, only, written

ROW, BAR_TOP, BAR_BOTTOM, TEXT = 40, 21, 34, 10
"""Height of one row; where its bar and its text stand in it [px]."""


def bar_row(index: int, start: float, end: float, **told: Any) -> Spec:
    """Return the data of one bar from `start` to `end` of the scale across; `told` are further fields."""
    top = index * ROW
    places = {"bar_top": top + BAR_TOP, "bar_bottom": top + BAR_BOTTOM, "text": top + TEXT}
    return {"from": start, "to": end, **places, **told}


def down(height: float) -> Channel:
    """Return what makes the channel of a place below the top of a chart `height` high [px]."""
    return lambda field: number_field(field, scale={"domain": [height, 0], "nice": False}, axis=None)


def bars(test: str, x: Channel, y: Channel, **look: Any) -> Spec:
    """Return the bars of the rows for which `test` holds."""
    return {
        **only(test),
        "mark": {"type": "rect", **look},
        "encoding": {"x": x("from"), "x2": {"field": "to"}, "y": y("bar_top"), "y2": {"field": "bar_bottom"}},
    }


def bar_words(test: str, field: str, left: float, y: Channel, **look: Any) -> list[Spec]:
    """Return the words in a field of the rows for which `test` holds, `left` from the edge [px]."""
    return written({"x": {"value": left}, "y": y("text"), "text": {"field": field}}, only(test), **look)
