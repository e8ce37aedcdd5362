"""What the mechanic does, what counts as good, and what is only assumed."""

from collections.abc import Iterator, Mapping
from typing import Any, Literal

from conemodel.base.units import DEG, MM, MM2_PER_S, MPA, NEWTON, NEWTON_METRE, NEWTON_MM, ONE, TURN, UM
from conemodel.parts import unknowns
from conemodel.parts.bearing import RowCondition
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.unknowns.unknown import Unknown

State = Literal["loose", "right", "tight"]
"""Where a setting stands against its good range."""

Technique = Literal["nut turned", "cone turned out", "both"]
ContactFound = Literal["nut loose", "nut snug"]
AxleHeld = Literal["vice", "far spanners", "nothing"]
ClampSeat = Literal["dropouts", "spacers on locknuts", "spacer on axle end", "one side in frame"]

MOST_CLAMP_FORCE = 40000
"""Largest clamp force that is computed with [N]."""

Grease = Literal["fresh", "worn", "dry"]

LimitName = Literal["rim_play", "torque", "cone_pressure", "life_ratio"]


class Setting(Part):
    """One adjustment of the cone, from finger contact to the closed clamp."""

    finger_torque: float = quantity(
        NEWTON_METRE,
        "how hard the fingers screw the cone in",
        default=unknowns.hands.FINGER_TORQUE.usual,
        at_least=0,
        at_most=2,
    )
    back_off: float = quantity(
        TURN, "how far the cone is turned out from finger contact", default=0.25, at_least=-1, at_most=3
    )
    technique: Technique = quantity(ONE, "what is turned to lock", default="nut turned")
    lock_torque: float = quantity(
        NEWTON_METRE,
        "torque at the locknut",
        default=unknowns.hands.LOCK_TORQUE.usual,
        at_least=0,
        at_most=80,
    )
    cone_held: bool = quantity(ONE, "a spanner holds the cone while the locknut is tightened", default=True)
    drift: float = quantity(
        DEG,
        "how far the held cone still turns in with the locknut",
        default=unknowns.hands.DRIFT.usual,
        at_least=0,
        at_most=180,
    )
    contact_found: ContactFound = quantity(
        ONE,
        "how the locknut stood when finger contact was found: loose, or snug on the cone",
        default="nut loose",
    )
    axle_held: AxleHeld = quantity(ONE, "what keeps the axle from turning", default="vice")
    clamp_seat: ClampSeat = quantity(ONE, "what the clamp presses on", default="dropouts")


class Condition(Part):
    """What is not as it should be in this hub."""

    left: RowCondition = RowCondition()
    right: RowCondition = RowCondition()
    cup_moved_left: float = quantity(
        UM,
        "how far the left cup has crept into the shell in riding since the cone was set; below 0 outward",
        default=0.0,
        at_least=-500,
        at_most=500,
    )
    cup_moved_right: float = quantity(
        UM,
        "how far the right cup has crept into the shell in riding since the cone was set; below 0 outward",
        default=0.0,
        at_least=-500,
        at_most=500,
    )
    grease: Grease = quantity(
        ONE, "fresh from the tin, worn in, or dry: its oil gone and the rest stiff", default="worn"
    )
    oil_viscosity: float = quantity(
        MM2_PER_S,
        "viscosity of the grease's base oil as warm as it is",
        default=300.0,
        above=1,
        at_most=100000,
    )
    seal_torque: float = quantity(
        NEWTON_MM, "turning torque of the seals of both sides", default=5.0, at_least=0, at_most=1000
    )


class Limits(Part):
    """What counts as good once clamped, and what can be felt. Judgement, not measurement: adjust it."""

    rim_play: float = quantity(
        MM,
        "free play at the rim that is still none to the hand",
        default=unknowns.senses.FELT_AT_RIM.usual,
        above=0,
        at_most=5,
    )
    axle_end_play: float = quantity(
        MM,
        "free play at the axle end that is just felt by the fingers",
        default=unknowns.senses.FELT_AT_AXLE_END.usual,
        above=0,
        at_most=2,
    )
    clear_rim_play: float = quantity(
        MM,
        "free play at the rim that anybody feels",
        default=unknowns.senses.CLEAR_AT_RIM.usual,
        above=0,
        at_most=10,
    )
    torque: float = quantity(
        NEWTON_MM,
        "turning torque of both rows from preload alone",
        default=unknowns.senses.PRELOAD_TORQUE.usual,
        above=0.1,
        at_most=5000,
    )
    cone_pressure: float = quantity(
        MPA, "peak pressure on the cone from preload alone", default=2000.0, above=100, at_most=6000
    )
    life_ratio: float = quantity(
        ONE,
        "fatigue life under the straight load over the best this hub can have",
        default=0.5,
        above=0,
        below=1,
    )
    off: tuple[LimitName, ...] = quantity(ONE, "limits that are switched off", default=())


def _least(unknown: Unknown, **limits: float) -> Any:
    """Declare the low end of the range an unknown is assumed in."""
    return quantity(unknown.unit, f"{unknown.words}, least", default=unknown.low, **limits)


def _most(unknown: Unknown, **limits: float) -> Any:
    """Declare the high end of the range an unknown is assumed in."""
    return quantity(unknown.unit, f"{unknown.words}, most", default=unknown.high, **limits)


class Assumed(Part):
    """Ranges of what nobody measured, as `parts.unknowns` has them unless a file says otherwise.

    Every turn advised is a range over them.
    """

    clamp_force_low: float | None = quantity(
        NEWTON,
        "clamp force, least; as usual for the kind of clamp if left out",
        default=None,
        at_least=0,
        at_most=MOST_CLAMP_FORCE,
    )
    clamp_force_high: float | None = quantity(
        NEWTON,
        "clamp force, most; as usual for the kind of clamp if left out",
        default=None,
        at_least=0,
        at_most=MOST_CLAMP_FORCE,
    )
    conformity_low: float = _least(unknowns.hub.GROOVE, above=0.5, at_most=1)
    conformity_high: float = _most(unknowns.hub.GROOVE, above=0.5, at_most=1)
    drift_low: float = _least(unknowns.hands.DRIFT, at_least=0, at_most=90)
    drift_high: float = _most(unknowns.hands.DRIFT, at_least=0, at_most=90)
    key_clearance_low: float = _least(unknowns.joint.KEY_CLEARANCE, at_least=0, at_most=90)
    key_clearance_high: float = _most(unknowns.joint.KEY_CLEARANCE, at_least=0, at_most=90)
    core_share_low: float = _least(unknowns.joint.CORE_SHARE, at_least=0, at_most=1)
    core_share_high: float = _most(unknowns.joint.CORE_SHARE, at_least=0, at_most=1)
    thread_bridging_low: float = _least(unknowns.joint.THREAD_BRIDGING, at_least=0, at_most=1)
    thread_bridging_high: float = _most(unknowns.joint.THREAD_BRIDGING, at_least=0, at_most=1)
    lock_torque_low: float = _least(unknowns.hands.LOCK_TORQUE, above=0, at_most=80)
    lock_torque_high: float = _most(unknowns.hands.LOCK_TORQUE, above=0, at_most=80)
    friction_low: float = _least(unknowns.joint.FRICTION, above=0.02, at_most=0.5)
    friction_high: float = _most(unknowns.joint.FRICTION, above=0.02, at_most=0.5)
    finger_torque_low: float = _least(unknowns.hands.FINGER_TORQUE, at_least=0, at_most=2)
    finger_torque_high: float = _most(unknowns.hands.FINGER_TORQUE, at_least=0, at_most=2)
    spanner_length: float = quantity(MM, "length of the cone spanner", default=150.0, above=30, at_most=600)

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """A range must not be upside down."""
        yield from super().cross_checks(values)
        for low, given in values.items():
            high = f"{low.removesuffix('_low')}_high"
            if given is not None and values.get(high) is not None and given > values[high]:
                yield FieldError(
                    field=low, value=given, limit=f"must not be above {high}, {{}}", bound=values[high]
                )

    def clamp_forces(self, usual: Unknown, *, given: float | None) -> tuple[float, float]:
        """Return least and most force of a clamp [N] whose kind has a `usual` force.

        Where its force was `given` and no end of a range, it is the given force as well as it was measured.
        """
        ends = self.clamp_force_low, self.clamp_force_high
        low, high = usual.span
        if given is not None and ends == (None, None):
            low, high = (
                min(given * (1 + error), MOST_CLAMP_FORCE) for error in unknowns.joint.MEASURED_FORCE.span
            )
        return low if ends[0] is None else ends[0], high if ends[1] is None else ends[1]

    def with_ranges(self, usual: Unknown, *, given: float | None) -> "Assumed":
        """Return the same ranges with the clamp force's ends as numbers, for a clamp as in `clamp_forces`."""
        low, high = self.clamp_forces(usual, given=given)
        return self.replace(clamp_force_low=low, clamp_force_high=high)


ASSUMED: dict[str, Unknown] = {
    "conformity": unknowns.hub.GROOVE,
    "drift": unknowns.hands.DRIFT,
    "key_clearance": unknowns.joint.KEY_CLEARANCE,
    "core_share": unknowns.joint.CORE_SHARE,
    "thread_bridging": unknowns.joint.THREAD_BRIDGING,
    "lock_torque": unknowns.hands.LOCK_TORQUE,
    "friction": unknowns.joint.FRICTION,
    "finger_torque": unknowns.hands.FINGER_TORQUE,
}
"""The unknown behind each pair of ends in `Assumed`, by the name of the pair; the clamp force's goes by its kind."""
