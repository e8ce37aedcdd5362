"""Pieces of Vega-Lite that the live charts share.

The charts are Vega-Lite in plain dictionaries, for `st.vega_lite_chart`: the same chart built from Altair's objects
takes some half a second on two cores, most of it spent checking what these modules wrote themselves. The tests
check every chart against Vega-Lite's own schema instead.
"""

from collections.abc import Sequence
from typing import Any

from conemodel.show.palette import DARK, LIGHT

Spec = dict[str, Any]

SIZE = 12
"""Size of text inside a chart [px]."""


def tone(name: str) -> Spec:
    """Return a colour by its name in `Tones`, for whichever ground the chart is drawn on."""
    light, dark = getattr(LIGHT, name), getattr(DARK, name)
    return {"expr": f"luminance(background || 'white') > 0.4 ? '{light}' : '{dark}'"}


def values(*rows: Spec) -> Spec:
    """Return rows as the data of one layer."""
    return {"values": list(rows)}


def number_field(field: str, **more: Any) -> Spec:
    """Return a channel that shows a field of numbers."""
    return {"field": field, "type": "quantitative", **more}


def title(text: str, offset: float) -> Spec:
    """Return a chart's heading, `offset` above it [px]."""
    return {"text": text, "offset": offset}


def axis(**more: Any) -> Spec:
    """Return an axis whose words can be read on either ground."""
    return {
        "labelColor": tone("faint"),
        "titleColor": tone("faint"),
        "titlePadding": 6,
        "labelPadding": 5,
        **more,
    }


def tooltip(*fields: tuple[str, str]) -> list[Spec]:
    """Return what is read out beside the pointer: fields of words, each with its heading."""
    return [{"field": field, "type": "nominal", "title": heading} for field, heading in fields]


def written(encoding: Spec, layer: Spec | None = None, **look: Any) -> list[Spec]:
    """Return a text twice: as a halo in the colour of the ground, so that lines stop short of it, and as ink.

    `layer` holds what else the layer has: its data, a transform. `look` goes to the text mark.
    """
    mark = {"type": "text", "fontSize": SIZE, "baseline": "middle", **look}
    halo = {"color": tone("ground"), "stroke": tone("ground"), "strokeWidth": 4, "strokeJoin": "round"}
    return [
        {**(layer or {}), "mark": {**mark, **halo}, "encoding": encoding},
        {**(layer or {}), "mark": {**mark, "color": tone("ink")}, "encoding": encoding},
    ]


def only(test: str) -> Spec:
    """Return the transform that keeps rows for which `test` holds."""
    return {"transform": [{"filter": test}]}


def good_band(low: float, high: float, x: Any) -> Spec:
    """Return the good range as a shaded band with dotted edges; `x` makes a channel of a field."""
    return {
        "data": values({"low": low, "high": high}),
        "mark": {
            "type": "rect",
            "color": tone("good"),
            "fillOpacity": 0.22,
            "stroke": tone("good"),
            "strokeWidth": 1.5,
            "strokeDash": [1, 3],
        },
        "encoding": {"x": x("low"), "x2": {"field": "high"}},
    }


def chart(layers: Sequence[Spec], *, rows: list[Spec], height: float, heading: Spec) -> Spec:
    """Return layers as one chart that fills the width it is given."""
    return {
        "$schema": "https://vega.github.io/schema/vega-lite/v6.json",
        "title": heading,
        "width": "container",
        "height": height,
        "data": {"values": rows},
        "layer": [_quiet(layer) for layer in layers],
    }


def _quiet(layer: Spec) -> Spec:
    """Return a layer whose marks a screen reader skips: the alternative text describes the whole chart."""
    mark = layer.get("mark")
    named = {"mark": {**({"type": mark} if isinstance(mark, str) else mark), "aria": False}} if mark else {}
    below = {"layer": [_quiet(inner) for inner in layer["layer"]]} if "layer" in layer else {}
    return {**layer, **named, **below}
