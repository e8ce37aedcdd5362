"""The whole view: the hub to true scale, above its axis cut, below it seen."""

from collections.abc import Iterator

from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.clamps import lever_swing
from conemodel.show.instrument.drawing import Box, Group, Label, Part, Plate
from conemodel.show.instrument.end_view import end_box, end_groups, end_label, end_view
from conemodel.show.instrument.holding import behind_groups, front_groups
from conemodel.show.instrument.hub import WholeHub, hub_of
from conemodel.show.instrument.inside import axis_part, inside_groups
from conemodel.show.instrument.paths import ring
from conemodel.show.instrument.wheel import wheel_groups
from conemodel.show.instrument.whole_faults import fault_groups

ROUND, RIM_ROUND = 56.0, 96.0
"""How far above and below the axis the view of a hub alone, and that with its rim, reaches [mm]."""


def whole_plate(scenario: Scenario, *, factor: int, rim_play: float) -> Plate:
    """Return the whole view.

    Args:
        scenario: the hub.
        factor: how many times larger the wheel's rocking is drawn.
        rim_play: at the rim, stop to stop, for each of end play [-].
    """
    hub = hub_of(scenario)
    # towards the adjusted side: its upper ball is the one that touches then
    at_rim = (-1 if hub.adjusted == "left" else 1) * factor * rim_play / 2
    radius = 1e3 * scenario.wheel.rim_radius
    tilt = 57.29578 * at_rim / radius
    drawn = 60.0 / radius  # of the rim's movement, what the tilt alone gives the rim drawn in
    left, right = _reach(hub)
    view = (-left, -ROUND, left + right, 2 * ROUND)
    end = end_view(hub, view)
    groups = [
        *behind_groups(hub),
        *inside_groups(hub),
        *wheel_groups(hub, tilt=tilt, shift=at_rim * (1 - drawn)),
        *front_groups(hub),
        *fault_groups(hub),
        Group(name="axis", parts=(axis_part(hub),)),
        Group(name="lens", parts=(_lens(hub),)),
        *(end_groups(end) if end else ()),
    ]
    return Plate(
        view=view,
        held=end_box(view, end) if end else _with_swing(view, hub),
        wide=(-left, -RIM_ROUND, left + right, 2 * RIM_ROUND),
        groups=tuple(groups),
        labels=(*_labels(hub), *([end_label(end)] if end else [])),
    )


def _reach(hub: WholeHub) -> tuple[float, float]:
    """Return how far the view reaches left and right of the hub's middle [mm]; a lever needs more room."""
    beyond = {"quick release": (31, 21), "nuts": (15, 15), "thru-axle": (21, 21)}[hub.scenario.clamp.kind]
    left, right = (
        max(hub.clamp_face(side) + far, half.plane + half.axle_end + 4)
        for far, (side, half) in zip(beyond, hub.halves.items(), strict=True)
    )
    return left, right


def _with_swing(view: Box, hub: WholeHub) -> Box:
    """Return a view of the hub with all the room that its lever takes on its way."""
    left, top, width, height = view
    pivot, reach = lever_swing(hub)
    more = max(left - (pivot - reach), 0.0)
    return left - more, top, width + more, height


def _lens(hub: WholeHub) -> Part:
    """Return the circle round what the close view shows."""
    half, place = hub.halves[hub.adjusted], hub.row(hub.adjusted)
    return place.part(
        "lens", ring((0, half.pitch), 1.4 * half.ball, steps=30), "lens", title="the close view"
    )


def _labels(hub: WholeHub) -> Iterator[Label]:
    """Yield what the arrows of the load are."""
    x = hub.face + hub.halves["right"].dropout / 2
    yield Label(text="rider", at=(x, -hub.halves["right"].washer - 30), group="load")
    yield Label(text="road", at=(-5, ROUND - 4), anchor="end", group="load")
