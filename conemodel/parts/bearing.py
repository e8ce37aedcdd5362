"""The bearing: a row of balls between cone and cup, and the pair of rows in a hub."""

from collections.abc import Iterator, Mapping
from math import cos, pi
from typing import Any

from conemodel.base.units import DEG, GPA, MM, MRAD, ONE, UM
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.unknowns.hub import GROOVE
from conemodel.physics.packing import balls_that_fit

Tilt = tuple[float, float]

MOST_ODD = 0.5e-3
"""Furthest a ball may be from its nominal diameter to be a ball of that size at all [m]."""

MOST_TILT = 0.05
"""Furthest a cone or cup may be tilted [rad]."""

MOST_DENTS = 60
"""Dents one race can be given: more is a worn-out race, not a dented one."""


class RowGeometry(Part):
    """The shape of one row: balls, pitch circle, contact angle and grooves."""

    ball_diameter: float = quantity(MM, "diameter of one ball", above=0.5, at_most=25)
    ball_count: int = quantity(ONE, "number of balls in the row", at_least=3, at_most=60)
    pitch_diameter: float = quantity(
        MM, "diameter of the circle the ball centres run on", above=2, at_most=200
    )
    contact_angle: float = quantity(
        DEG, "angle between the line of contact and the wheel plane, just touching", above=5, at_most=70
    )
    cone_conformity: float = quantity(
        ONE, "groove radius of the cone over ball diameter", default=GROOVE.usual, above=0.5, at_most=1.0
    )
    cup_conformity: float = quantity(
        ONE, "groove radius of the cup over ball diameter", default=GROOVE.usual, above=0.5, at_most=1.0
    )
    young: float = quantity(GPA, "elastic modulus of balls and races", default=208, above=10, at_most=700)
    poisson: float = quantity(ONE, "Poisson's ratio of balls and races", default=0.3, at_least=0, below=0.5)
    phase: float = quantity(DEG, "where the first ball stands, from +y towards +z", default=0.0)

    @property
    def gamma(self) -> float:
        """Ball diameter across the line of contact over pitch diameter, D cos α/dm [-]."""
        return self.ball_diameter * cos(self.contact_angle) / self.pitch_diameter

    @property
    def cup_track_diameter(self) -> float:
        """Diameter on which the balls touch the cup [m]."""
        return self.pitch_diameter + self.ball_diameter * cos(self.contact_angle)

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """The balls must fit side by side on the pitch circle."""
        yield from super().cross_checks(values)
        if not {"ball_diameter", "ball_count", "pitch_diameter"} <= values.keys():
            return
        ball, pitch, count = values["ball_diameter"], values["pitch_diameter"], values["ball_count"]
        room = float(balls_that_fit(ball_diameter=ball, pitch_diameter=pitch)) if ball < pitch else 0.0
        if count > room:
            yield FieldError(
                field="ball_count",
                value=count,
                limit=f"at most {int(room)} such balls fit side by side on this pitch circle",
                remedy="count the balls again and measure ball and pitch circle",
            )


class Dents(Part):
    """Dents across the track of one race: of `count` at ball spacing, or one at each of `positions`."""

    count: int = quantity(
        ONE, "number of dents one ball spacing apart, as an overload leaves them", default=0, at_least=0
    )
    first: float = quantity(
        DEG, "where the first of them is, from +y towards +z", default=0.0, at_least=-360, at_most=360
    )
    positions: tuple[float, ...] = quantity(
        DEG, "where each dent is, from +y towards +z, for pits anywhere on the race", default=()
    )
    depth: float = quantity(UM, "depth of a dent", default=2.0, above=0, at_most=50)
    half_length: float = quantity(
        MM, "half the length of a dent along the track", default=0.2, at_least=0.02, at_most=3
    )

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """Dents are given in one way only."""
        yield from super().cross_checks(values)
        if values.get("count") and values.get("positions"):
            yield FieldError(
                field="count",
                value=values["count"],
                limit="cannot stand beside positions",
                remedy="give a number of dents at ball spacing, or the place of each",
            )
        if len(values.get("positions", ())) > MOST_DENTS:
            yield FieldError(
                field="positions",
                value=f"{len(values['positions'])} entries",
                limit=f"must be at most {MOST_DENTS}",
            )

    def places(self, ball_count: int) -> tuple[float, ...]:
        """Return where the dents are on a race of `ball_count` balls [rad], from +y towards +z."""
        if self.positions:
            return self.positions
        return tuple(self.first + 2 * pi * k / ball_count for k in range(self.count))


class RowCondition(Part):
    """What is not as it should be in one row."""

    ball_oversize: float | tuple[float, ...] = quantity(
        UM, "how much larger than nominal: one number, or one for each ball", default=0.0
    )
    cone_tilt: Tilt = quantity(
        MRAD, "tilt of the cone about y and z: bent axle or a locknut face out of square", default=(0.0, 0.0)
    )
    cup_tilt: Tilt = quantity(
        MRAD, "tilt of the cup in the shell about y and z; it turns with the wheel", default=(0.0, 0.0)
    )
    cone_dents: Dents = Dents()
    cup_dents: Dents = Dents()

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """Oversize and tilts must be small: the model holds for micrometres and milliradians."""
        yield from super().cross_checks(values)
        oversize = values.get("ball_oversize", 0.0)
        each = oversize if isinstance(oversize, tuple) else (oversize,)
        worst = max(each, key=abs, default=0.0)
        if abs(worst) > MOST_ODD:
            yield FieldError(field="ball_oversize", value=worst, limit="must be within ± {}", bound=MOST_ODD)
        for name in ("cone_tilt", "cup_tilt"):
            worst = max(values.get(name, (0.0,)), key=abs)
            if abs(worst) > MOST_TILT:
                yield FieldError(field=name, value=worst, limit="must be within ± {}", bound=MOST_TILT)


OVERSIZE_ROOM = 0.9
"""Share of the room between the grooves up to which the model follows a ball that is too large [-]."""


class Row(RowGeometry, RowCondition):
    """One row of balls, as `solve_pair` takes it. SI throughout.

    Shapes: scalars, but `ball_oversize` may hold one value a ball [m]; `cone_tilt`, `cup_tilt` are
    (about y, about z) [rad].

    Raises:
        InputProblems: fields that cannot be, naming each.
    """

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """A list of oversizes must have one entry a ball; no more dents than balls that made them."""
        yield from super().cross_checks(values)
        yield from check_dents(values, values.get("ball_count"))
        yield from check_oversize(values, values.get("ball_oversize", 0.0))
        oversize, count = values.get("ball_oversize"), values.get("ball_count")
        if isinstance(oversize, tuple) and isinstance(count, int) and len(oversize) != count:
            yield FieldError(
                field="ball_oversize",
                value=f"{len(oversize)} entries",
                limit=f"must be one number, or one for each of the {count} balls",
            )


def check_oversize(geometry: Mapping[str, Any], oversize: Any, where: str = "") -> Iterator[FieldError]:
    """Yield a mistake where balls are so large that they cannot lie between the grooves at any end play.

    Side by side the groove centres stand A cos α apart, A = (f_i + f_o - 1) D; a ball needs A less its oversize.
    """
    needed = {"ball_diameter", "contact_angle", "cone_conformity", "cup_conformity"}
    if not needed <= geometry.keys():
        return
    conformity = geometry["cone_conformity"] + geometry["cup_conformity"] - 1
    room = conformity * geometry["ball_diameter"] * (1 - cos(geometry["contact_angle"]))
    largest = max(oversize, default=0.0) if isinstance(oversize, tuple) else oversize
    if isinstance(largest, float) and OVERSIZE_ROOM * room <= largest <= MOST_ODD:
        yield FieldError(
            field=f"{where}ball_oversize",
            value=largest,
            limit="must be below {}: larger balls do not go in between cone and cup",
            bound=OVERSIZE_ROOM * room,
        )


def check_dents(condition: Mapping[str, Any], ball_count: Any, where: str = "") -> Iterator[FieldError]:
    """Yield a mistake for each race of a row's `condition` with more dents than balls that could have made them."""
    if not isinstance(ball_count, int):
        return
    for name in ("cone_dents", "cup_dents"):
        dents = condition.get(name)
        if isinstance(dents, Dents) and dents.count > ball_count:
            yield FieldError(
                field=f"{where}{name}.count",
                value=dents.count,
                limit=f"must be at most the {ball_count} balls of the row",
                remedy="dents at ball spacing are made by the balls; give positions for pits anywhere",
            )


class Pair(Part):
    """The two rows of a hub, and the axial compliance of axle and shell in series with them.

    `row_spacing` is the distance between the planes of the ball centres [m]; `axial_compliance` the
    lengthening of axle and shortening of shell per newton of preload [m/N].
    """

    left: Row
    right: Row
    row_spacing: float = quantity(MM, "distance between the two planes of ball centres", above=5, at_most=300)
    axial_compliance: float = quantity(
        ONE, "axial compliance of axle and shell [m/N]", default=0.0, at_least=0, at_most=1e-6
    )
