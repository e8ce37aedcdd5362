"""The chart of a wheel let spin until it stands."""

import numpy as np

from conemodel.show.bearing.torque_charts import HEIGHT
from conemodel.show.charts.vega_lite import Spec, chart, curve, dot, on_scale, strip, title, values, written
from conemodel.solve.wheel.coasting import Coast


def spin_down_chart(found: Coast) -> Spec:
    """Return the speed of a wheel let spin until it stands, as Vega-Lite."""
    speed = found.speed / (2 * np.pi)
    stop = found.stop_time

    x = on_scale(0, 1.04 * stop, "time, s", tickCount=7, grid=False)
    y = on_scale(0, 1.1 * float(speed[0]), "turns a second", tickCount=5, grid=True)
    end = {"data": values({"s": stop, "speed": 0.0})}
    layers: list[Spec] = [
        curve(x("s"), y("speed"), colour="petrol", width=3),
        {**end, **dot(x("s"), y("speed"))},
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
