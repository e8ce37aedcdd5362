"""What holds the hub in the bicycle: clamp, frame and wheel."""

from collections.abc import Iterator, Mapping
from typing import Any

from conemodel.base.units import CM2, DEG, GRAM, KG_M2, MM, MPA, N_PER_MM, NEWTON, NEWTON_METRE, ONE
from conemodel.parts.clamp_kinds import CLAMP_KINDS, ClampKind, ClampName
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.setting import MOST_CLAMP_FORCE
from conemodel.parts.unknowns.hub import DROPOUT_GIVE, WHEEL_STIFFNESS

MOST_LEAN = 2
"""Furthest a dropout may lean and the wheel still be clamped [°]. Judgement."""


class Clamp(Part):
    """How the wheel is held: quick release, axle nuts or thru-axle.

    A quick release is given by its `force` or by the lever angle at which resistance begins (`pick_up`);
    nuts and thru-axle by `force` or `torque`. With none of them, the usual force of its kind is assumed.
    """

    kind: ClampName = quantity(ONE, "what holds the wheel in the frame")
    force: float | None = quantity(
        NEWTON, "clamping force", default=None, at_least=0, at_most=MOST_CLAMP_FORCE
    )
    pick_up: float | None = quantity(
        DEG, "lever angle before closed at which resistance begins", default=None, above=0, at_most=110
    )
    torque: float | None = quantity(
        NEWTON_METRE, "tightening torque of nuts or thru-axle", default=None, above=0, at_most=80
    )
    rod_diameter: float = quantity(
        MM, "diameter of the quick release's rod or the thru-axle", default=5.0, above=2, at_most=30
    )
    rod_pitch: float = quantity(
        MM, "thread pitch of the quick release's rod", default=0.8, above=0.2, at_most=2
    )
    rod_yield: float = quantity(MPA, "stress at which the rod yields", default=640, above=50, at_most=2000)
    hand_force: float = quantity(
        NEWTON, "most the hand may push on the lever", default=200.0, above=10, at_most=1000
    )
    eccentricity: float = quantity(MM, "half of the cam's stroke", default=1.25, above=0.1, at_most=4)
    lever_length: float = quantity(
        MM, "from cam to where the hand pushes", default=60.0, above=20, at_most=200
    )
    cam_friction: float = quantity(
        ONE, "friction coefficient of the cam", default=0.12, at_least=0, at_most=0.5
    )
    cam_radius: float = quantity(MM, "radius of the cam's sliding face", default=6.0, above=1, at_most=20)
    fixed_give: float = quantity(
        ONE, "give of lever, nut and dropouts [m/N]", default=2e-8, at_least=0, at_most=1e-6
    )
    thread_diameter: float = quantity(MM, "thread of nuts or thru-axle", default=12.0, above=3, at_most=30)
    thread_pitch: float = quantity(MM, "pitch of that thread", default=1.5, above=0.2, at_most=3)
    face_radius: float = quantity(MM, "mean radius of the turning face", default=8.0, above=2, at_most=30)
    friction: float = quantity(ONE, "friction of thread and face", default=0.15, above=0.02, at_most=0.5)

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """Only one of force, lever angle and torque can be given, and only where it belongs."""
        yield from super().cross_checks(values)
        given = [name for name in ("force", "pick_up", "torque") if values.get(name) is not None]
        if len(given) > 1:
            yield FieldError(
                field=given[-1],
                value=values[given[-1]],
                limit=f"cannot stand beside {given[0]}",
                remedy="give one of force, lever angle and torque",
            )
        if "kind" not in values:
            return
        for name in ("pick_up", "torque"):
            if values.get(name) is not None and name != CLAMP_KINDS[values["kind"]].given_by:
                yield FieldError(
                    field=name,
                    value=values[name],
                    limit=f"does not belong to {CLAMP_KINDS[values['kind']].words}",
                )

    @property
    def traits(self) -> ClampKind:
        """What depends on the kind."""
        return CLAMP_KINDS[self.kind]


class Frame(Part):
    """The dropouts the hub is clamped between."""

    dropout_width: float = quantity(
        MM, "clear width between the dropouts' inner faces", above=40, at_most=400
    )
    dropout_thickness: float = quantity(MM, "thickness of one dropout at the axle", above=1, at_most=30)
    spread_stiffness: float = quantity(
        N_PER_MM, "force that spreads the dropouts by 1 mm", default=40.0, above=1, at_most=10000
    )
    left_dropout_angle: float = quantity(
        DEG,
        "how far the left dropout leans out of square to the axle, outward at the top",
        default=0.0,
        at_least=-MOST_LEAN,
        at_most=MOST_LEAN,
    )
    right_dropout_angle: float = quantity(
        DEG,
        "how far the right dropout leans out of square to the axle, outward at the top",
        default=0.0,
        at_least=-MOST_LEAN,
        at_most=MOST_LEAN,
    )
    angular_compliance: float = quantity(
        ONE,
        "turn of one dropout per moment on it [rad/(N·m)], 0 for a rigid frame",
        default=DROPOUT_GIVE.usual,
        at_least=0,
        at_most=1e-3,
    )

    @property
    def dropout_turns(self) -> tuple[float, float]:
        """How far left and right dropout are turned about the axis that points to the rear [rad]."""
        return self.left_dropout_angle, -self.right_dropout_angle


class Wheel(Part):
    """The wheel around the hub and what it carries."""

    rim_radius: float = quantity(MM, "radius at which the rim is held", default=311.0, above=80, at_most=450)
    rim_inertia: float = quantity(
        KG_M2, "moment of inertia about the axle", default=0.09, above=1e-4, at_most=2
    )
    rim_mass: float = quantity(
        GRAM, "mass of rim, tyre and spokes that follows the hand", default=1000.0, above=10, at_most=20000
    )
    side_stiffness: float = quantity(
        N_PER_MM,
        "sideways force at the rim that bends the wheel by 1 mm",
        default=WHEEL_STIFFNESS.usual,
        above=1,
        at_most=2000,
    )
    radial_load: float = quantity(
        NEWTON, "upward load of the road on the wheel", default=600.0, at_least=0, at_most=20000
    )
    side_load: float = quantity(
        NEWTON, "sideways load of the road at the tyre", default=0.0, at_least=-5000, at_most=5000
    )
    impact_load: float = quantity(
        NEWTON, "upward load of a kerb or a pothole; assumed", default=3000.0, at_least=0, at_most=50000
    )
    air_drag_area: float = quantity(
        CM2,
        "drag area of spokes and rim as the wheel turns; assumed",
        default=22.0,
        at_least=0,
        at_most=1000,
    )
