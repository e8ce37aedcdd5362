"""A scenario: one hub, how it is clamped, and one setting of its cone."""

from collections.abc import Iterator, Mapping
from typing import Any

from conemodel.base.units import ONE
from conemodel.parts.bearing import Pair, Row, dent_faults
from conemodel.parts.hub import Axle, Hub, Side, Stacks
from conemodel.parts.mounting import Clamp, Frame, Wheel
from conemodel.parts.part import Fault, Part, quantity
from conemodel.parts.setting import Assumed, Condition, Limits, Setting


class Scenario(Part):
    """Everything a prediction depends on; same scenario, same numbers."""

    name: str = quantity(ONE, "what to call this hub")
    story: str = quantity(ONE, "what kind of hub it is and what is the matter, in a paragraph")
    hub: Hub
    axle: Axle
    stack: Stacks
    clamp: Clamp
    frame: Frame
    wheel: Wheel = Wheel()
    condition: Condition = Condition()
    setting: Setting = Setting()
    limits: Limits = Limits()
    assumed: Assumed = Assumed()

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[Fault]:
        """Hold the parts against each other: clamp against axle, cones against rows, lists against balls."""
        yield from super().cross_checks(values)
        if {"clamp", "axle"} <= values.keys():
            yield from _clamp_faults(values["clamp"], values["axle"])
        if {"hub", "axle"} <= values.keys():
            hub, axle = values["hub"], values["axle"]
            if axle.cone_distance < hub.row_spacing:
                yield Fault(
                    field="axle.cone_distance",
                    value=axle.cone_distance,
                    limit="must not be below the distance of the ball rows, {}",
                    bound=hub.row_spacing,
                    remedy="the cones' threads stand outboard of the balls",
                )
        if {"hub", "condition"} <= values.keys():
            for side in ("left", "right"):
                condition = dict(getattr(values["condition"], side))
                balls = getattr(values["hub"], side).ball_count
                yield from dent_faults(condition, balls, f"condition.{side}.")
                oversize = getattr(values["condition"], side).ball_oversize
                count = getattr(values["hub"], side).ball_count
                if isinstance(oversize, tuple) and len(oversize) != count:
                    yield Fault(
                        field=f"condition.{side}.ball_oversize",
                        value=f"{len(oversize)} entries",
                        limit=f"must be one number, or one for each of the {count} balls",
                    )
        if {"clamp", "setting"} <= values.keys():
            seat, kind = values["setting"].clamp_seat, values["clamp"].kind
            if kind == "nuts" and seat in ("spacer on axle end", "one side in frame"):
                yield Fault(
                    field="setting.clamp_seat",
                    value=seat,
                    limit="axle nuts press on the locknuts: only 'dropouts' or 'spacers on locknuts' can be",
                )

    def row(self, side: Side) -> Row:
        """Return one row with its shape and its condition."""
        geometry, condition = getattr(self.hub, side), getattr(self.condition, side)
        return Row(**dict(geometry), **dict(condition))

    def pair(self, *, axial_compliance: float) -> Pair:
        """Return both rows, with the axial give of axle, shell and jammed cones [m/N]."""
        return Pair(
            left=self.row("left"),
            right=self.row("right"),
            row_spacing=self.hub.row_spacing,
            axial_compliance=axial_compliance,
        )

    def with_setting(self, **changes: Any) -> "Scenario":
        """Return the scenario with some fields of its setting changed [SI]."""
        return self.replace(setting=self.setting.replace(**changes))


def _clamp_faults(clamp: Clamp, axle: Axle) -> Iterator[Fault]:
    """Yield what does not go together in clamp and axle."""
    if clamp.kind == "nuts":
        return
    if axle.bore == 0.0:
        yield Fault(
            field="axle.bore", value=0.0, limit=f"must be above 0: a {clamp.kind} needs a hollow axle"
        )
    elif clamp.rod_diameter >= axle.bore:
        yield Fault(
            field="clamp.rod_diameter",
            value=clamp.rod_diameter,
            limit="must be smaller than the axle's bore, {}",
            bound=axle.bore,
        )
