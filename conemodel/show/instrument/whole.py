"""The whole view: the hub to true scale, above its axis cut, below it seen."""

from collections.abc import Iterator

from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.drawing import Group, Label, Plate
from conemodel.show.instrument.holding import behind_groups, front_groups
from conemodel.show.instrument.hub import WholeHub, hub_of
from conemodel.show.instrument.inside import axis_part, inside_groups
from conemodel.show.instrument.wheel import wheel_groups

ROUND = 62.0
"""How far above and below the axis the view of a hub alone reaches [mm]."""


def whole_plate(scenario: Scenario, *, factor: int, rim_play: float) -> Plate:
    """Return the whole view.

    Args:
        scenario: the hub; factor: how many times larger the wheel's rocking is drawn.
        rim_play: at the rim, stop to stop, for each of end play [-].
    """
    hub = hub_of(scenario)
    at_rim = factor * rim_play / 2
    radius = 1e3 * scenario.wheel.rim_radius
    tilt = 57.29578 * at_rim / radius
    drawn = 60.0 / radius  # of the rim's movement, what the tilt alone gives the rim drawn in
    reach = hub.face + 32
    groups = [
        *behind_groups(hub),
        *inside_groups(hub),
        *wheel_groups(hub, tilt=tilt, shift=at_rim * (1 - drawn)),
        *front_groups(hub),
        Group(name="axis", parts=(axis_part(hub),)),
    ]
    return Plate(
        view=(-reach, -ROUND, 2 * reach, 2 * ROUND),
        groups=tuple(groups),
        labels=tuple(_labels(hub)),
    )


def _labels(hub: WholeHub) -> Iterator[Label]:
    """Yield what must be said: which side the close view shows, and the rider."""
    side = hub.adjusted
    place, half = hub.row(side), hub.halves[side]
    yield Label(
        text="adjusted here",
        at=place.point((0, half.shell_outer + 14)),
        group=None,
        leader=place.point((0, half.pitch)),
    )
    yield Label(text="rider", at=(0, -ROUND + 6), group="load")
