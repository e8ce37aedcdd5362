"""Chart of rocking the rim: force against movement, with free play, compliance of the bearing, and wheel flex apart."""

import numpy as np

from conemodel.base.units import MM
from conemodel.show.charts.cone_axis import key_words
from conemodel.show.charts.vega_lite import (
    Channel,
    Spec,
    chart,
    curve,
    number_field,
    on_scale,
    only,
    rule,
    title,
    tone,
    values,
    written,
)
from conemodel.show.formatting import number
from conemodel.tasks.bearing.rocking import Rocking

HEIGHT = 340
"""Of the whole chart [px]."""

FLAT = 1e-9
"""Free play below which no dead band is drawn [m]."""

LINES: tuple[tuple[str, str, int, list[int]], ...] = (
    ("wheel flex", "taken", 2, [1, 4]),
    ("bench", "level", 2, [6, 4]),
    ("frame", "petrol", 3, [1, 0]),
)
"""What is drawn, in which tone, how thick, and dashed how."""


def rocking_chart(bench: Rocking, frame: Rocking) -> Spec:
    """Return force against movement at the rim, on the bench and in the frame, as Vega-Lite.

    The curves are the bearing's alone; wheel flex is a line by itself. A bar at zero force is free play.
    """
    reach = 1.05 * MM.from_si(max(float(np.abs(each.bearing).max()) for each in (bench, frame)))
    flex = MM.from_si(float(np.abs(frame.wheel).max()))
    reach = max(reach, 1.05 * flex)
    push = float(frame.force.max())

    x = on_scale(-reach, reach, "rim moves, mm", tickCount=7, grid=True, format="~g")
    y = on_scale(-1.15 * push, 1.15 * push, "push, N", tickCount=5, grid=True)
    layers = [
        rule("y", y, 0.0),
        *_dead_bands(bench, frame, x, y),
        *(_line(*drawn, x, y) for drawn in LINES),
        *key_words(("—— in the frame", "– – on the bench", "· · · wheel flex alone")),
    ]
    rows = [
        {"what": name, "mm": MM.from_si(at), "n": force}
        for name, force_, moved in (
            ("bench", bench.force, bench.bearing),
            ("frame", frame.force, frame.bearing),
            ("wheel flex", frame.force, frame.wheel),
        )
        for force, at in zip(force_.tolist(), moved.tolist(), strict=True)
    ]
    return chart(layers, rows=rows, height=HEIGHT, heading=title("Rocking the rim", 12))


def _line(name: str, colour: str, width: int, dash: list[int], x: Channel, y: Channel) -> Spec:
    drawn = curve(x("mm"), y("n"), colour=colour, width=width, dash=dash)
    drawn["encoding"]["order"] = number_field("n")
    return {**only(f"datum.what === '{name}'"), **drawn}


def _dead_bands(bench: Rocking, frame: Rocking, x: Channel, y: Channel) -> list[Spec]:
    """Return free play as a bar at zero force for each of the two, above and below the line, with its size."""
    return [
        *_dead_band(bench, "on the bench", "level", x, y, up=1),
        *_dead_band(frame, "in the frame", "petrol", x, y, up=-1),
    ]


def _dead_band(found: Rocking, where: str, colour: str, x: Channel, y: Channel, *, up: int) -> list[Spec]:
    if found.dead_band < FLAT:
        return []
    # the least push there is, either way, takes the rim to its stops
    stops = found.bearing[[found.bearing.size // 2 - 1, found.bearing.size // 2 + 1]]
    middle, half = MM.from_si(float(stops.mean())), MM.from_si(found.dead_band) / 2
    ends = {"low": middle - half, "high": middle + half, "middle": middle}
    data = {"data": values({**ends, "from": 0.0, "to": 0.07 * float(found.force.max()) * up})}
    bar = {
        **data,
        "mark": {"type": "rect", "color": tone(colour), "opacity": 0.55},
        "encoding": {"x": x("low"), "x2": {"field": "high"}, "y": y("from"), "y2": {"field": "to"}},
    }
    words = written(
        {"x": x("middle"), "y": y("to")},
        data,
        text=f"free play {where} {number(2 * half, 2)} mm",
        dy=-12 * up,
        fontWeight="bold",
    )
    return [bar, *words]


def alt_text_rocking(bench: Rocking, frame: Rocking) -> str:
    """Return the rocking chart in words."""
    said = [f"Force against movement of the rim, pushed with {float(frame.force.max()):.0f} N both ways."]
    for each, name in ((bench, "On the bench"), (frame, "In the frame")):
        said.append(
            f"{name}: {number(MM.from_si(each.dead_band), 2)} mm of free play, then "
            f"{number(MM.from_si(each.contact), 2)} mm of give in the bearing."
        )
    return (
        " ".join(said)
        + f" The wheel flexes by {number(MM.from_si(float(np.ptp(frame.wheel))), 2)} mm beside that."
    )
