"""What a mechanic knows or has measured of one hub, and nothing else; the rest is taken as usual for its family."""

from collections.abc import Iterator, Mapping
from math import cos, isfinite
from typing import Any

from conemodel.base.units import MM, NEWTON, ONE
from conemodel.parts.axle import Material
from conemodel.parts.hub_families import (
    CONTACT_ANGLE,
    FAMILIES,
    THREADS,
    Family,
    FamilyName,
    Thread,
    usual_pitch_diameter,
)
from conemodel.parts.schema import FieldError, Part, quantity, unit_of
from conemodel.parts.setting import MOST_CLAMP_FORCE
from conemodel.physics.thread import root_diameter

CONE_WALL = 1e-3
"""Least metal between a cone's thread and the track of its balls [m]. Judgement."""

NUT_NEEDS = 4e-3
"""Least length of axle outside the dropout that an axle nut can hold on [m]. Judgement."""

MOST_SPRUNG = 10e-3
"""Furthest that dropouts are sprung apart or together to take a hub [m]. Judgement."""

LARGEST_RING = 60e-3
"""Largest circle of balls in a hub [m]. Judgement."""


class KnownHub(Part):
    """One hub by what is known of it; what is left out is as usual for its family.

    Balls and protrusion of the right side are as on the left where only these are known.
    """

    family: FamilyName = quantity(ONE, "the usual hub it is most like")
    thread: Thread | None = quantity(ONE, "axle thread", default=None)
    ball_count_left: int | None = quantity(ONE, "balls, left", default=None, at_least=5, at_most=24)
    ball_diameter_left: float | None = quantity(
        MM, "ball diameter, left", default=None, at_least=3, at_most=10
    )
    ball_count_right: int | None = quantity(ONE, "balls, right", default=None, at_least=5, at_most=24)
    ball_diameter_right: float | None = quantity(
        MM, "ball diameter, right", default=None, at_least=3, at_most=10
    )
    over_locknut_width: float | None = quantity(
        MM, "width over the locknuts", default=None, at_least=70, at_most=230
    )
    protrusion_left: float | None = quantity(
        MM, "axle out of the locknut, left", default=None, at_least=0, at_most=60
    )
    protrusion_right: float | None = quantity(
        MM, "axle out of the locknut, right", default=None, at_least=0, at_most=60
    )
    dropout_width: float | None = quantity(
        MM, "width between the dropouts", default=None, at_least=70, at_most=230
    )
    dropout_thickness: float | None = quantity(
        MM, "thickness of a dropout", default=None, at_least=2, at_most=25
    )
    keyed_washer: bool | None = quantity(ONE, "washer keyed to the axle", default=None)
    material: Material | None = quantity(ONE, "axle material", default=None)
    thread_slack: float | None = quantity(
        MM, "slack of the cone along its thread", default=None, at_least=0, at_most=0.5
    )
    thread_slack_error: float | None = quantity(
        MM, "how far that slack may be out, either way", default=None, at_least=0, at_most=0.2
    )
    clamp_force: float | None = quantity(
        NEWTON, "clamp force", default=None, at_least=0, at_most=MOST_CLAMP_FORCE
    )
    clamp_force_error: float | None = quantity(
        NEWTON,
        "how far that force may be out, either way",
        default=None,
        at_least=0,
        at_most=MOST_CLAMP_FORCE,
    )

    def __init__(self, **values: Any) -> None:
        """Take `values` [SI], each to a millionth of the unit its file has, so that file and link hold it whole.

        Raises:
            InputProblems: values that cannot be, naming every mistake.
        """
        units = {name: unit_of(field) for name, field in type(self).model_fields.items()}
        super().__init__(
            **{
                name: units[name].to_si(round(units[name].from_si(value), 6))
                if isinstance(value, float) and name in units and isfinite(value)
                else value
                for name, value in values.items()
            }
        )

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """What was entered must make one hub, with itself and with what is usual of the rest."""
        yield from super().cross_checks(values)
        yield from _check_errors(values)
        if "family" not in values:
            return
        sizes = Sizes(values)
        yield from _check_thread(sizes)
        yield from _check_rings(sizes)
        yield from _check_ends(sizes)

    @property
    def usual(self) -> Family:
        """The usual hub of its family."""
        return FAMILIES[self.family]

    @property
    def known(self) -> dict[str, Any]:
        """What is known [SI], by the name of its field."""
        return {name: value for name, value in self if name != "family" and value is not None}


class Sizes:
    """Every size of a hub by what is known of it and what is usual of the rest [SI]."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        """Take the `values` that are known; ``family`` must be among them."""
        self.values = {name: value for name, value in values.items() if value is not None}
        self.family = FAMILIES[values["family"]]

    def size(self, name: str) -> float:
        """Return a length that both sides have in common."""
        return float(self.values.get(name, getattr(self.family, name).usual))

    def of_side(self, name: str, side: str) -> Any:
        """Return what balls or protrusion are on a side: as known there, as known on the left, or as usual."""
        known = self.values.get(f"{name}_{side}", self.values.get(f"{name}_left"))
        return getattr(self.family, name).usual if known is None else known

    @property
    def thread(self) -> str:
        """The axle's thread."""
        return str(self.values.get("thread", self.family.thread))

    @property
    def over_locknut_width(self) -> float:
        """Width over the locknuts: as known, else as wide as the dropouts are known to be [m]."""
        width = self.values.get("over_locknut_width", self.values.get("dropout_width"))
        return self.family.over_locknut_width.usual if width is None else float(width)

    @property
    def dropout_width(self) -> float:
        """Width between the dropouts: as known, else that of the hub [m]."""
        return float(self.values.get("dropout_width", self.over_locknut_width))

    def pitch_diameter(self, side: str) -> float:
        """Return the circle a side's balls run on: what holds them with the usual room, and goes round the axle [m]."""
        usual, balls = self.family, (self.of_side("ball_diameter", side), self.of_side("ball_count", side))
        ring = usual_pitch_diameter(*balls)
        if balls == (usual.ball_diameter.usual, usual.ball_count.usual):
            ring = usual.pitch_diameter
        return float(max(ring, THREADS[self.thread][0] + 2 * CONE_WALL + balls[0] * cos(CONTACT_ANGLE)))


def _check_errors(values: Mapping[str, Any]) -> Iterator[FieldError]:
    """Yield an error of a measurement without its measurement, or larger than it."""
    for name in ("thread_slack", "clamp_force"):
        error, measured = values.get(f"{name}_error"), values.get(name)
        if error is None or name not in values:
            continue
        if measured is None:
            yield FieldError(field=f"{name}_error", value=error, limit=f"stands without a {name}")
        elif error > measured:
            limit = "must not be above what was measured, {}"
            yield FieldError(field=f"{name}_error", value=error, limit=limit, bound=measured)


def _check_thread(sizes: Sizes) -> Iterator[FieldError]:
    """Yield a thread too slender for what passes through its axle."""
    diameter, pitch = THREADS[sizes.thread]
    if sizes.family.bore >= root_diameter(diameter=diameter, pitch=pitch):
        yield FieldError(
            field="thread",
            value=sizes.thread,
            limit=f"is too slender for a {sizes.family.clamp} to pass through, with a hole of {{}}",
            bound=sizes.family.bore,
            remedy="look again what holds the wheel, or leave the thread out",
        )


def _check_rings(sizes: Sizes) -> Iterator[FieldError]:
    """Yield more or larger balls than a hub has room for."""
    most = f"{MM.from_si(LARGEST_RING):g} mm"  # in full: the field may be a number of balls
    for side in ("left", "right"):
        ring = sizes.pitch_diameter(side)
        known = next((n for n in ("ball_count", "ball_diameter") if f"{n}_{side}" in sizes.values), None)
        if known and ring > LARGEST_RING:
            yield FieldError(
                field=f"{known}_{side}",
                value=sizes.values[f"{known}_{side}"],
                limit=f"would make a ring of balls {MM.from_si(ring):.0f} mm across, more than {most}",
                remedy="count the balls again and measure one",
            )


def _check_ends(sizes: Sizes) -> Iterator[FieldError]:
    """Yield axle ends with no room for a nut, and a hub that does not go between its dropouts."""
    thickness = sizes.size("dropout_thickness")
    needed = round(thickness + NUT_NEEDS, 9)
    for side in ("left", "right"):
        out = sizes.of_side("protrusion", side)
        if sizes.family.clamp != "nuts" or out >= needed:
            continue
        if f"protrusion_{side}" in sizes.values:
            limit = "leaves an axle nut nothing to hold on: dropout and nut need at least {}"
            yield FieldError(field=f"protrusion_{side}", value=out, limit=limit, bound=needed)
        elif "dropout_thickness" in sizes.values and side == "left":
            limit = "leaves an axle nut nothing to hold on: must be at most {}"
            yield FieldError(
                field="dropout_thickness", value=thickness, limit=limit, bound=out - NUT_NEEDS,
                remedy="or enter how far the axle stands out",
            )  # fmt: skip
    width, between = sizes.over_locknut_width, sizes.dropout_width
    if round(abs(width - between), 9) > MOST_SPRUNG:
        yield FieldError(
            field="dropout_width",
            value=between,
            limit=f"must be within {MM.from_si(MOST_SPRUNG):g} mm of the width over the locknuts, {{}}",
            bound=width,
            remedy="measure both again",
        )
