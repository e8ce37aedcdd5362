"""How much warmer a hub is ridden than it was when its cone was set."""

from conemodel.base.units import KELVIN
from conemodel.parts.schema import Part, quantity


class Heat(Part):
    """Warmth from brake or sun; below 0 for cold. Cups are as warm as their shell, balls and cones as the axle."""

    shell_warming: float = quantity(
        KELVIN,
        "how much warmer shell and cups are than when the cone was set",
        default=0.0,
        at_least=-60,
        at_most=150,
    )
    axle_warming: float = quantity(
        KELVIN,
        "how much warmer axle, cones and balls are than when the cone was set",
        default=0.0,
        at_least=-60,
        at_most=150,
    )
