"""The chart of a wheel let spin until it stands."""

import numpy as np

from conemodel.show.bearing.torque_charts import HEIGHT, strip
from conemodel.show.charts.vega_lite import Spec, axis, chart, number_field, title, tone, values, written
from conemodel.solve.wheel.coasting import Coast


def spin_down_chart(found: Coast) -> Spec:
    """Return the speed of a wheel let spin until it stands, as Vega-Lite."""
    speed = found.speed / (2 * np.pi)
    stop = found.stop_time

    def x(field: str) -> Spec:
        scale = {"domain": [0, 1.04 * stop], "nice": False}
        return number_field(field, scale=scale, title="time, s", axis=axis(tickCount=7, grid=False))

    def y(field: str) -> Spec:
        scale = {"domain": [0, 1.1 * float(speed[0])], "nice": False}
        return number_field(field, scale=scale, title="turns a second", axis=axis(tickCount=5, grid=True))

    end = {"data": values({"s": stop, "speed": 0.0})}
    layers: list[Spec] = [
        {
            "mark": {"type": "line", "color": tone("opens"), "strokeWidth": 3},
            "encoding": {"x": x("s"), "y": y("speed")},
        },
        {
            **end,
            "mark": {"type": "point", "filled": True, "size": 80, "opacity": 1, "color": tone("ink")},
            "encoding": {"x": x("s"), "y": y("speed")},
        },
        *written(
            {"x": x("s"), "y": y("speed")},
            end,
            text=f"stands after {stop:.0f} s",
            align="right",
            dy=-34,
            fontWeight="bold",
        ),
        strip(x("s"), ("at", "after"), ("turns", "speed")),
    ]
    rows = [
        {"s": t, "speed": v, "at": f"{t:.0f} s", "turns": f"{v:.2f} turns a second"}
        for t, v in zip(found.time.tolist(), speed.tolist(), strict=True)
    ]
    return chart(layers, rows=rows, height=HEIGHT, heading=title("Let go, it slows down", 12))
