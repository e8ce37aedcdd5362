"""Pieces of Vega-Lite that the live charts share.

The charts are Vega-Lite in plain dictionaries, for `st.vega_lite_chart`: the same chart built from Altair's objects
takes some half a second on two cores, most of it spent checking what these modules wrote themselves. The tests
check every chart against Vega-Lite's own schema instead.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, Literal

from conemodel.show.palette import DARK, LIGHT
from conemodel.show.type_scale import LABEL, TITLE

Spec = dict[str, Any]

Channel = Callable[[str], Spec]
"""Makes a channel of a field."""

AS_SET: Spec = {"colour": "ink", "strokeWidth": 2, "strokeDash": [2, 2]}
"""Look of the rule at the setting as it stands."""


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


def on_scale(
    low: float, high: float, heading: str, *, panel: tuple[float, float] | None = None, **ticks: Any
) -> Channel:
    """Return what makes a channel of a field: numbers from `low` to `high` on an axis with a heading.

    `panel`: both ends of the scale as shares of the chart's height, where it does not fill it. `ticks` go to the axis.
    """
    scale: Spec = {"domain": [low, high], "nice": False}
    if panel:
        scale["range"] = [{"expr": f"height * {end}"} for end in panel]
    return lambda field: number_field(field, scale=scale, title=heading, axis=axis(**ticks))


def as_rows(columns: Mapping[str, Iterable[Any]]) -> list[Spec]:
    """Return columns of one length, by field, as the rows of a chart's data."""
    return [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]


def title(text: str, offset: float) -> Spec:
    """Return a chart's heading, `offset` above it [px]."""
    below = {"subtitleFontSize": LABEL, "subtitleColor": tone("ink")}
    return {"text": text, "offset": offset, "fontSize": TITLE, **below}


def axis(**more: Any) -> Spec:
    """Return an axis whose words can be read on either ground."""
    return {
        "labelColor": tone("faint"),
        "labelFontSize": LABEL,
        "titleFontSize": LABEL,
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
    mark = {"type": "text", "fontSize": LABEL, "baseline": "middle", **look}
    halo = {"color": tone("paper"), "stroke": tone("paper"), "strokeWidth": 4, "strokeJoin": "round"}
    return [
        {**(layer or {}), "mark": {**mark, **halo}, "encoding": encoding},
        {**(layer or {}), "mark": {**mark, "color": tone("ink")}, "encoding": encoding},
    ]


def only(test: str) -> Spec:
    """Return the transform that keeps rows for which `test` holds."""
    return {"transform": [{"filter": test}]}


def kept_within(place: float, edge: float = 0.15) -> str:
    """Return how words are set about a place across the chart, 0 to 1, so that they stay within it."""
    return "left" if place < edge else "right" if place > 1 - edge else "center"


def sign(look: Spec, x: Spec, height: float) -> Spec:
    """Return bold words above the chart, `height` from its top [px]; `look` holds words and how they are set."""
    plain = {
        "type": "text",
        "fontSize": LABEL,
        "fontWeight": "bold",
        "baseline": "bottom",
        "color": tone("ink"),
    }
    return {"mark": plain | look, "encoding": {"x": x, "y": {"value": height}}}


def sign_at(at: float, words: str, height: float, x: Channel, *, align: str) -> Spec:
    """Return bold words above the chart at a value of the scale across."""
    return {**sign({"text": words, "align": align}, x("at"), height), "data": values({"at": at})}


def curve(x: Spec, y: Spec, *, colour: str, width: float, dash: Sequence[int] = ()) -> Spec:
    """Return a curve through the chart's data; `dash` on and off [px], none for a full line."""
    look = {"strokeDash": list(dash)} if dash else {}
    return {
        "mark": {"type": "line", "color": tone(colour), "strokeWidth": width, **look},
        "encoding": {"x": x, "y": y},
    }


def dot(x: Spec, y: Spec, *, size: float = 80) -> Spec:
    """Return a point for each row."""
    look = {"type": "point", "filled": True, "size": size, "opacity": 1, "color": tone("ink")}
    return {"mark": look, "encoding": {"x": x, "y": y}}


def rule(way: Literal["x", "y"], channel: Channel, at: float, *, colour: str = "ink", **look: Any) -> Spec:
    """Return a line right through the chart at a value of the scale across, ``x``, or up, ``y``."""
    return {
        "data": values({"at": at}),
        "mark": {"type": "rule", "color": tone(colour), **look},
        "encoding": {way: channel("at")},
    }


def strip(x: Spec, *read_out: tuple[str, str], width: float = 6) -> Spec:
    """Return a see-through strip for each row, to be pointed at: fields of words, each with its heading."""
    return {
        "mark": {"type": "rule", "strokeWidth": width, "opacity": 0},
        "encoding": {"x": x, "tooltip": tooltip(*read_out)},
    }


def good_band(low: float, high: float, x: Channel) -> Spec:
    """Return the good range as a shaded band with dotted edges."""
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
