"""Chart for the live screen, drawn by the browser: where the play went.

It carries both sets of colours and picks one by the ground it is drawn on, so it follows the page's theme.
"""

from collections.abc import Callable

from conemodel.base.units import MM
from conemodel.show.spec import (
    Spec,
    axis,
    chart,
    good_band,
    number_field,
    only,
    title,
    tone,
    tooltip,
    values,
    written,
)
from conemodel.show.steps import Step, steps_shown
from conemodel.show.words import degrees, millimetres
from conemodel.tasks.predict import Prediction
from conemodel.tasks.window import Window

ROW = 40
"""Height of one row of the waterfall: a line of text and the bar below it [px]."""
BAR_TOP, BAR_BOTTOM, TEXT = 21, 34, 10
"""Where bar and text stand within a row [px]."""
MM_AT, DEGREES_AT, LABEL_AT = 68, 112, 122
"""Where the three columns of text end, end and begin [px]; they do not move with the chart's width."""
FRAME = 76
"""Height of heading and axis, which the page counts in [px]."""

Channel = Callable[[str], Spec]


def where_the_play_went(prediction: Prediction) -> Spec:
    """Return the terms of end play from finger contact to the closed clamp, one below the other, as Vega-Lite.

    A bar starts where the last one ended: to the right play is added, to the left it is taken. Right of the
    nought line there is free play, left of it preload. Pale, dashed bars and a ≈ mark what is only assumed.
    The good range lies behind the clamped hub and has the last row.
    """
    lead = prediction.scenario.axle.lead_per_radian
    return waterfall(steps_shown(prediction), window=prediction.window, lead=lead)


def waterfall(steps: tuple[Step, ...], *, window: Window, lead: float) -> Spec:
    """Return steps with the good range `window` as a chart; `lead` of the cone's thread [m/rad]."""
    good = window.width > 0
    height = (len(steps) + good + 1) * ROW
    low, high = _reach(window, steps)

    def x(field: str) -> Spec:
        return number_field(
            field,
            scale={"domain": [low, high], "nice": False, "zero": False},
            title="end play, mm",
            axis=axis(tickCount=6, format=".2~f"),
        )

    def y(field: str) -> Spec:
        return number_field(field, scale={"domain": [height, 0], "nice": False, "zero": False}, axis=None)

    layers = [
        *(_good_range(window, steps, x, y) if good else ()),
        _nought(x, y, height),
        _connectors(x, y),
        *(
            _bars(x, y, kind, assumed=assumed)
            for kind, assumed in (
                ("opens", False),
                ("opens", True),
                ("closes", False),
                ("closes", True),
                ("level", False),
            )
        ),
        *_tips(x, y),
        *_columns(y, weight="normal", layer=only("datum.kind !== 'level'")),
        *_columns(y, weight="bold", layer=only("datum.kind === 'level'")),
        *(_good_words(window, lead, len(steps), y) if good else ()),
        *_foot(steps, x, y, height),
        _strips(y),
    ]
    rows = [_row(index, step) for index, step in enumerate(steps)]
    return chart(layers, rows=rows, height=height + FRAME, heading=title("Where the play went", 12))


def _row(index: int, step: Step) -> Spec:
    """Return one row of the chart's data; the words in it are also what its data table shows."""
    top = index * ROW
    return {
        "step": step.stage_words,
        "words": step.words,
        "mm": millimetres(step.shown, sign=step.kind != "level"),
        "degrees": degrees(step.angle, sign=step.kind != "level"),
        "after": millimetres(step.end),
        "known": "only assumed" if step.assumed else "follows from what was given",
        "label": f"≈ {step.words}" if step.assumed else step.words,
        "kind": step.kind,
        "assumed": step.assumed,
        "from_mm": MM.from_si(step.start) + 0.0,
        "to_mm": MM.from_si(step.end) + 0.0,
        "top": top,
        "bottom": top + ROW,
        "bar_top": top + BAR_TOP,
        "bar_bottom": top + BAR_BOTTOM,
        "bar_middle": top + (BAR_TOP + BAR_BOTTOM) / 2,
        "text": top + TEXT,
        "next_top": top + (ROW + BAR_TOP if step.leads_on else BAR_BOTTOM),
    }


def _reach(window: Window, steps: tuple[Step, ...]) -> tuple[float, float]:
    """Return the ends of the scale [mm], with room for the words on both sides of nought."""
    ends = [0.0, window.loose_edge, window.tight_edge]
    ends += [end for step in steps for end in (step.start, step.end)]
    low, high = MM.from_si(min(ends)), MM.from_si(max(ends))
    span = high - low
    return min(low - 0.04 * span, -0.24 * high), max(high + 0.04 * span, -0.3 * low)


def _bars(x: Channel, y: Channel, kind: str, *, assumed: bool) -> Spec:
    """Return the bars of one kind; assumed ones are pale with a dashed edge."""
    look: Spec = {"fill": tone(kind)}
    if assumed:
        look |= {"fillOpacity": 0.3, "stroke": tone(kind), "strokeDash": [4, 2], "strokeWidth": 1.5}
    return {
        **only(f"datum.kind === '{kind}' && {'' if assumed else '!'}datum.assumed"),
        "mark": {"type": "rect", "cornerRadius": 1, **look},
        "encoding": {
            "x": x("from_mm"),
            "x2": {"field": "to_mm"},
            "y": y("bar_top"),
            "y2": {"field": "bar_bottom"},
        },
    }


def _tips(x: Channel, y: Channel) -> list[Spec]:
    """Return an arrow head at the end of every bar that moved the cone: right for looser, left for tighter."""
    return [
        {
            **only(f"datum.kind === '{kind}'"),
            "mark": {
                "type": "point",
                "shape": shape,
                "filled": True,
                "size": 110,
                "opacity": 1,
                "color": tone(kind),
            },
            "encoding": {"x": x("to_mm"), "y": y("bar_middle")},
        }
        for kind, shape in (("opens", "triangle-right"), ("closes", "triangle-left"))
    ]


def _connectors(x: Channel, y: Channel) -> Spec:
    """Return the running level: from the end of each bar down to the start of the next."""
    return {
        "mark": {"type": "rule", "color": tone("rule"), "strokeWidth": 1.5},
        "encoding": {"x": x("to_mm"), "y": y("bar_bottom"), "y2": {"field": "next_top"}},
    }


def _columns(y: Channel, *, weight: str, layer: Spec) -> list[Spec]:
    """Return what stands above each bar: millimetres, degrees of cone, words."""
    columns = (("mm", MM_AT, "right"), ("degrees", DEGREES_AT, "right"), ("label", LABEL_AT, "left"))
    return [
        mark
        for field, place, align in columns
        for mark in written(
            {"x": {"value": place}, "y": y("text"), "text": {"field": field}},
            layer,
            align=align,
            fontWeight=weight,
        )
    ]


def _nought(x: Channel, y: Channel, height: float) -> Spec:
    """Return the line where the balls just touch."""
    return {
        "data": values({"mm": 0.0, "top": 0.0, "bottom": height}),
        "mark": {"type": "rule", "color": tone("ink"), "strokeWidth": 1.5},
        "encoding": {"x": x("mm"), "y": y("top"), "y2": {"field": "bottom"}},
    }


def _foot(steps: tuple[Step, ...], x: Channel, y: Channel, height: float) -> list[Spec]:
    """Return what lies on either side of nought, and what dashes mean."""
    layer = {"data": values({"mm": 0.0, "text": height - ROW + TEXT, "low": height - TEXT})}
    marks = [
        mark
        for align, dx, text in (("left", 6, "free play →"), ("right", -6, "← preload"))
        for mark in written({"x": x("mm"), "y": y("text")}, layer, align=align, dx=dx, text=text)
    ]
    if any(step.assumed for step in steps):
        words = "≈ and a dashed edge: only assumed"
        marks += written({"x": {"value": LABEL_AT}, "y": y("low")}, layer, align="left", text=words)
    return marks


def _good_range(window: Window, steps: tuple[Step, ...], x: Channel, y: Channel) -> list[Spec]:
    """Return the good range behind the clamped hub, and as a bar in the row that names it."""
    low, high = MM.from_si(window.tight_edge), MM.from_si(window.loose_edge)
    top = next(i for i, step in enumerate(steps) if step.stage == "clamped") * ROW
    row = len(steps) * ROW
    places = (top, row + BAR_TOP), (row + BAR_TOP, row + BAR_BOTTOM)
    bands = []
    for start, end in places:
        band = good_band(low, high, x, y=y("top"), y2={"field": "bottom"})
        band["data"] = values({"low": low, "high": high, "top": start, "bottom": end})
        bands.append(band)
    bands[1]["mark"] |= {"fillOpacity": 0.5, "strokeDash": [1, 0]}
    return bands


def _good_words(window: Window, lead: float, index: int, y: Channel) -> list[Spec]:
    """Return the row that names the good range."""
    row = {
        "mm": millimetres(window.width),
        "degrees": degrees(window.width / lead),
        "label": "wide is the good range, clamped",
        "text": index * ROW + TEXT,
    }
    return _columns(y, weight="bold", layer={"data": values(row)})


def _strips(y: Channel) -> Spec:
    """Return a see-through strip for each row, so that the thinnest bar can be pointed at."""
    return {
        "mark": {"type": "rect", "opacity": 0},
        "encoding": {
            "y": y("top"),
            "y2": {"field": "bottom"},
            "tooltip": tooltip(
                ("step", "step"),
                ("words", "what"),
                ("mm", "end play"),
                ("degrees", "as turn of the cone"),
                ("after", "end play so far"),
                ("known", "known?"),
            ),
        },
    }


def alt_text_where_the_play_went(prediction: Prediction) -> str:
    """Return the waterfall in words, for those who do not see it."""
    return alt_text_waterfall(steps_shown(prediction), window=prediction.window)


def alt_text_waterfall(steps: tuple[Step, ...], *, window: Window) -> str:
    """Return steps and the good range in words."""
    said = []
    for step in steps:
        if step.kind == "level":
            said.append(f"{step.words}, end play {millimetres(step.end)}.")
        else:
            assumed = ", only assumed" if step.assumed else ""
            said.append(f"{step.words.capitalize()}: {millimetres(step.shown, sign=True)}{assumed}.")
    if window.width > 0:
        said.append(
            f"Good range, clamped: {millimetres(window.tight_edge)} to {millimetres(window.loose_edge)}."
        )
    return "Where the play went. " + " ".join(said)
