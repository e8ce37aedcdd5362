"""What stands in the way of more than one action, and the words for it."""

from conemodel.parts.clamp_kinds import ON_LOCKNUTS
from conemodel.tasks.practice.session import HubState

CONE_FREE = "spacer on axle end"
"""Seat on which a closed clamp leaves cone and locknut free, so that they can be trimmed."""

IN_FRAME = ("dropouts", "one side in frame")
"""Seats on which the axle is in the frame."""

AXLE_TURNS = "The axle turns with the cone: nothing has changed. Hold the axle."
IN_VICE = "The axle is still in the vice: let go of it first (nothing holds it)."
NO_CLAMP = "No clamp is fitted."
NOT_IN_FRAME = "The wheel is not in the frame."


def clamp_on_locknut(hub: HubState) -> str | None:
    """Return that a closed clamp presses on the locknut, or None."""
    if hub.closed and hub.seat in ON_LOCKNUTS:
        return "The clamp presses on the locknut: open it first."
    return None


def cone_locked(hub: HubState) -> str | None:
    """Return what keeps the cone from being turned by itself, or None."""
    if hub.lock is not None:
        return "The locknut is tight against the cone: undo it first."
    return clamp_on_locknut(hub)


def axle_not_in_fingers(hub: HubState) -> str | None:
    """Return what keeps the axle end from being taken in the fingers, or None."""
    if hub.seat in IN_FRAME:
        return (
            "In the frame the axle cannot be twirled: spin the wheel, or take it out and clamp it on spacers."
        )
    return IN_VICE if hub.axle_held == "vice" else None
