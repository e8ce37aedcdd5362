"""A scenario: one hub, how it is clamped, and one setting of its cone."""

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from typing import Any

from conemodel.base.units import ONE
from conemodel.parts import cone_places
from conemodel.parts.axle import Axle
from conemodel.parts.bearing import MOST_TILT, Pair, Row, check_dents, check_oversize
from conemodel.parts.heat import Heat
from conemodel.parts.hub import SIDES, Hub, Side, Stacks
from conemodel.parts.mounting import Clamp, Frame, Wheel
from conemodel.parts.riding import Brake, Drive, LoadMix
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.setting import ASSUMED, Assumed, Condition, Limits, Setting
from conemodel.parts.unknowns.unknown import Unknown


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
    drive: Drive = Drive()
    brake: Brake = Brake()
    mix: LoadMix = LoadMix()
    condition: Condition = Condition()
    heat: Heat = Heat()
    setting: Setting = Setting()
    limits: Limits = Limits()
    assumed: Assumed = Assumed()

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """Hold the parts against each other: clamp against axle, cones against rows, lists against balls."""
        yield from super().cross_checks(values)
        checks: tuple[tuple[Callable[..., Iterator[FieldError]], *tuple[str, ...]], ...] = (
            (_check_clamp, "clamp", "axle"),
            (_check_stacks, "stack", "axle"),
            (cone_places.check_cones, "hub", "axle", "stack"),
            (_check_condition, "hub", "condition"),
            (_check_tilts, "frame", "condition"),
            (_check_assumed, "clamp", "assumed"),
            (_check_seat, "clamp", "setting"),
        )
        for check, *parts in checks:
            if values.keys() >= set(parts):
                yield from check(*(values[part] for part in parts))

    def row(self, side: Side) -> Row:
        """Return one row with its shape and its condition."""
        return _row(self.hub, self.condition, side)

    def pair(self, *, axial_compliance: float) -> Pair:
        """Return both rows, with the axial compliance of axle, shell and jammed cones [m/N]."""
        return _pair(self.hub, self.condition, axial_compliance)

    @property
    def cone_distance(self) -> float:
        """Distance between the middles of both cones' threads, as given or as it follows [m]."""
        return cone_places.cone_distance(self.hub, self.axle, self.stack)

    def ball_place(self, side: Side) -> float:
        """Return how far inboard of a cone's outer end its balls stand [m]."""
        return cone_places.ball_place(self.hub, self.axle, self.stack, side)

    def thread_separation(self, side: Side) -> float:
        """Return the distance between the middles of a side's cone thread and locknut thread [m]."""
        return cone_places.thread_separation(self.hub, self.axle, self.stack, side)

    @property
    def axle_end_arm(self) -> float:
        """Where the fingers hold the axle: the end on the adjustable side, from mid-span along the axle [m]."""
        half = self.axle.length / 2
        return half if self.hub.adjustable_side == "right" else -half

    def with_ranges(self) -> "Scenario":
        """Return the same scenario with every range it is assumed in as numbers, for who reads its file elsewhere."""
        return self.replace(assumed=self.assumed.with_ranges(self.clamp.traits.force, given=self.clamp.force))

    @property
    def unknowns(self) -> dict[str, Unknown]:
        """What nobody measured of this hub, in the range assumed of it, by the name of the pair in `assumed`."""
        ranges = vars(self.assumed.with_ranges(self.clamp.traits.force, given=self.clamp.force))
        return {
            name: _in_range(unknown, ranges[f"{name}_low"], ranges[f"{name}_high"])
            for name, unknown in {"clamp_force": self.clamp.traits.force, **ASSUMED}.items()
        }

    def with_setting(self, **changes: Any) -> "Scenario":
        """Return the scenario with some fields of its setting changed [SI]."""
        return self.replace(setting=self.setting.replace(**changes))


def _in_range(unknown: Unknown, low: float, high: float) -> Unknown:
    """Return an unknown in the range from `low` to `high` [SI], as it is where that is its own."""
    if (low, high) == tuple(map(unknown.unit.to_si, unknown.span)):
        return unknown
    return unknown.with_range(*map(unknown.unit.from_si, (low, high)), because="as given for this hub")


@lru_cache(maxsize=256)
def _row(hub: Hub, condition: Condition, side: Side) -> Row:
    """Return one row with its shape and its condition."""
    return Row(**dict(getattr(hub, side)), **dict(getattr(condition, side)))


@lru_cache(maxsize=256)
def _pair(hub: Hub, condition: Condition, axial_compliance: float) -> Pair:
    """Return both rows; every setting of a hub asks for the same one."""
    return Pair(
        left=_row(hub, condition, "left"),
        right=_row(hub, condition, "right"),
        row_spacing=hub.row_spacing,
        axial_compliance=axial_compliance,
    )


def _check_clamp(clamp: Clamp, axle: Axle) -> Iterator[FieldError]:
    """Yield what does not go together in clamp and axle."""
    if not clamp.traits.through_axle:
        return
    if axle.bore == 0.0:
        yield FieldError(
            field="axle.bore", value=0.0, limit=f"must be above 0: a {clamp.kind} needs a hollow axle"
        )
    elif clamp.rod_diameter >= axle.bore:
        yield FieldError(
            field="clamp.rod_diameter",
            value=clamp.rod_diameter,
            limit="must be smaller than the axle's bore, {}",
            bound=axle.bore,
        )


def _check_stacks(stack: Stacks, axle: Axle) -> Iterator[FieldError]:
    """Yield washers and faces that would not go round the axle."""
    for side in ("left", "right"):
        for name in ("washer_outer_diameter", "face_outer_diameter"):
            size = getattr(getattr(stack, side), name)
            if size <= axle.thread_diameter:
                yield FieldError(
                    field=f"stack.{side}.{name}",
                    value=size,
                    limit="must be larger than the axle's thread, {}",
                    bound=axle.thread_diameter,
                )


def _check_condition(hub: Hub, condition: Condition) -> Iterator[FieldError]:
    """Yield what cannot be wrong with rows of this shape."""
    for side in ("left", "right"):
        shape, wrong = vars(getattr(hub, side)), vars(getattr(condition, side))
        count, oversize = shape["ball_count"], wrong["ball_oversize"]
        yield from check_dents(wrong, count, f"condition.{side}.")
        yield from check_oversize(shape, oversize, f"condition.{side}.")
        if isinstance(oversize, tuple) and len(oversize) != count:
            yield FieldError(
                field=f"condition.{side}.ball_oversize",
                value=f"{len(oversize)} entries",
                limit=f"must be one number, or one for each of the {count} balls",
            )


def _check_tilts(frame: Frame, condition: Condition) -> Iterator[FieldError]:
    """Yield dropouts that would tilt a cone, as skew as it is already, beyond what a row may have."""
    most = max(map(abs, frame.dropout_turns))
    for side in SIDES:
        tilt = getattr(condition, side).cone_tilt
        if most > 0.0 and abs(tilt[1]) + most > MOST_TILT:
            yield FieldError(
                field=f"condition.{side}.cone_tilt",
                value=tilt[1],
                limit="must be within ± {} beside dropouts so far out of parallel",
                bound=MOST_TILT - most,
            )


def _check_assumed(clamp: Clamp, assumed: Assumed) -> Iterator[FieldError]:
    """Yield a range of clamp forces that is upside down, one end of it given and the other usual for the clamp."""
    low, high = assumed.clamp_forces(clamp.traits.force, given=clamp.force)
    if low > high:
        given_low = assumed.clamp_force_low is not None
        yield FieldError(
            field=f"assumed.clamp_force_{'low' if given_low else 'high'}",
            value=low if given_low else high,
            limit=f"must not be {'above' if given_low else 'below'} what is usual for this clamp ({clamp.kind}), {{}}",
            bound=high if given_low else low,
            remedy="give both ends",
        )


def _check_seat(clamp: Clamp, setting: Setting) -> Iterator[FieldError]:
    """Yield a clamp seat that does not go with the clamp."""
    if setting.clamp_seat not in clamp.traits.seats:
        seats = " or ".join(f"'{seat}'" for seat in clamp.traits.seats)
        yield FieldError(
            field="setting.clamp_seat",
            value=setting.clamp_seat,
            limit=f"{clamp.traits.words} press on the locknuts: only {seats} can be",
        )
