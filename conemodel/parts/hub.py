"""Hub shell and the stack of locknut and washers on each side."""

from collections.abc import Iterator, Mapping
from typing import Any, Literal

from conemodel.base.units import DEG, MM, N_PER_MM, NEWTON_METRE, ONE
from conemodel.parts import unknowns
from conemodel.parts.bearing import RowGeometry
from conemodel.parts.cone import Cone
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.shell import Shell

Side = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")


class Hub(Part):
    """The shell with its two rows of balls."""

    left: RowGeometry
    right: RowGeometry
    row_spacing: float = quantity(MM, "distance between the two planes of ball centres", above=5, at_most=300)
    shell_stiffness: float = quantity(
        N_PER_MM,
        "force that shortens the shell between the cups by 1 mm",
        default=220e3,
        above=1e3,
        at_most=1e7,
    )
    over_locknut_width: float = quantity(
        MM, "width over the outer faces of the two locknuts", above=40, at_most=400
    )
    adjustable_side: Side = quantity(ONE, "side on which the cone is adjusted", default="left")
    shell: Shell = Shell()

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """The cups must lie round the balls' tracks."""
        yield from super().cross_checks(values)
        cup = values["shell"].cup_outer_diameter if "shell" in values else None
        track = max((values[side].cup_track_diameter for side in SIDES if side in values), default=0.0)
        if cup is not None and cup <= track:
            yield FieldError(
                field="shell.cup_outer_diameter",
                value=cup,
                limit="must be larger than the track of the balls in the cup, {}",
                bound=track,
            )


class Stack(Part):
    """Cone, washers and locknut of one side."""

    protrusion: float = quantity(
        MM, "how far the axle stands out of the locknut's outer face", at_least=0, at_most=60
    )
    cone: Cone = Cone()
    locknut_length: float = quantity(
        MM, "length of the locknut along the axle", default=5.0, at_least=2, at_most=15
    )
    washer_outer_diameter: float = quantity(
        MM, "outer diameter of washers and cone neck", default=17.0, above=4, at_most=60
    )
    face_outer_diameter: float = quantity(
        MM, "outer diameter of the face between locknut and washer", default=15.0, above=4, at_most=60
    )
    thread_friction: float = quantity(
        ONE,
        "friction coefficient in the thread",
        default=unknowns.joint.FRICTION.usual,
        above=0.02,
        at_most=0.5,
    )
    face_friction: float = quantity(
        ONE,
        "friction coefficient under the locknut",
        default=unknowns.joint.FRICTION.usual,
        above=0.02,
        at_most=0.5,
    )
    keyed_washer: bool = quantity(
        ONE, "a washer keyed to the axle stands between locknut and cone", default=True
    )
    key_clearance: float = quantity(
        DEG,
        "how far the keyed washer lets the cone turn",
        default=unknowns.joint.KEY_CLEARANCE.usual,
        at_least=0,
        at_most=30,
    )
    lock_torque: float = quantity(
        NEWTON_METRE,
        "torque this side's locknut was tightened with",
        default=unknowns.hands.LOCK_TORQUE.usual,
        above=0,
        at_most=80,
    )


class Stacks(Part):
    """The stacks of both sides."""

    left: Stack
    right: Stack

    def side(self, side: Side) -> Stack:
        """Return the stack of one side."""
        return self.left if side == "left" else self.right
