"""What warmth does to a pair of rows: rings pressed in one another, bars, and where a ball then touches both races.

Nothing here is imported from the package. SI throughout; warmth is a change of temperature [K]. Thick rings: Lamé, as
in Timoshenko and Goodier, Theory of Elasticity (from memory, page not seen), ends free.
"""

from dataclasses import dataclass, replace
from math import cos, hypot, sin

from scipy.optimize import brentq


@dataclass(frozen=True, kw_only=True)
class Material:
    """Elastic modulus [Pa], Poisson's ratio [-] and thermal expansion [1/K]."""

    young: float
    poisson: float
    expansion: float


STEEL = Material(young=206e9, poisson=0.3, expansion=11.7e-6)
ALLOY = Material(young=71e9, poisson=0.33, expansion=23.4e-6)
"""Common engineering values, from memory."""


@dataclass(frozen=True, kw_only=True)
class Cup:
    """A cup pressed into a shell: radii of its bore, of its seat, and of the shell outside [m].

    `interference` is how much larger the cold cup's outer radius is than the cold bore's [m].
    """

    inner: float
    seat: float
    outer: float
    interference: float
    cup: Material = STEEL
    shell: Material = ALLOY

    def seat_pressure(self, *, cup: float = 0.0, shell: float = 0.0) -> float:
        """Return the pressure on the seat [Pa], 0 once the shell has grown off its cup."""
        grip = self.interference + (self.cup.expansion * cup - self.shell.expansion * shell) * self.seat
        soft = self._shell_per_pressure(self.seat) + self._cup_per_pressure(self.seat)
        return max(grip / soft, 0.0)

    def growth(self, *, radius: float, cup: float = 0.0, shell: float = 0.0) -> float:
        """Return how far a fibre of the cup at `radius` moves outward as the parts warm [m]."""
        relieved = self.seat_pressure() - self.seat_pressure(cup=cup, shell=shell)
        return self.cup.expansion * cup * radius + relieved * self._cup_per_pressure(radius)

    def _cup_per_pressure(self, radius: float) -> float:
        """Return how far the cup shrinks at `radius` per pressure on its outside [m/Pa]."""
        nu, a, b = self.cup.poisson, self.inner, self.seat
        round_ = (1 - nu) * radius + (1 + nu) * a**2 / radius
        return b**2 / (self.cup.young * (b**2 - a**2)) * round_

    def _shell_per_pressure(self, radius: float) -> float:
        """Return how far the shell widens at `radius` per pressure in its bore [m/Pa]."""
        nu, b, c = self.shell.poisson, self.seat, self.outer
        round_ = (1 - nu) * radius + (1 + nu) * c**2 / radius
        return b**2 / (self.shell.young * (c**2 - b**2)) * round_


@dataclass(frozen=True, kw_only=True)
class WarmPair:
    """Two equal rows, cones outboard: `ball`, `pitch` diameters, row `spacing`, distance of the cups' `seats` [m]."""

    ball: float
    pitch: float
    angle: float
    groove: float
    spacing: float
    seats: float
    fit: Cup
    axle: Material = STEEL

    def end_play_gained(
        self, *, shell: float = 0.0, cups: float = 0.0, balls: float = 0.0, axle: float = 0.0
    ) -> float:
        """Return how much the end play grows [m] as each part warms [K]; cones are as warm as the axle."""
        warm = {"shell": shell, "cups": cups, "balls": balls, "axle": axle}
        return 2 * (self._cone_beyond_touch(**warm) - self._cone_beyond_touch(**dict.fromkeys(warm, 0.0)))

    def _cone_beyond_touch(self, *, shell: float, cups: float, balls: float, axle: float) -> float:
        """Return how far one cone stands outboard of where its balls touch [m], of the warm dimensions."""
        steel, offset = self.fit.cup.expansion, (self.groove - 0.5) * self.ball
        cone, cup, ball = 1 + self.axle.expansion * axle, 1 + steel * cups, 1 + steel * balls
        cup_radius = self.pitch / 2 - offset * cos(self.angle)
        track = self.pitch / 2 + self.ball / 2 * cos(self.angle)
        widened = self.fit.growth(radius=track, cup=cups, shell=shell) - steel * cups * track
        grown = cup_radius * cup + widened
        cone_radius = (self.pitch / 2 + offset * cos(self.angle)) * cone
        apart = self.groove * self.ball * (cone + cup) - self.ball * ball
        beyond_seat = (self.spacing - self.seats) / 2 + offset * sin(self.angle)
        cup_place = self.seats / 2 * (1 + self.fit.shell.expansion * shell) + beyond_seat * cup
        cone_place = (self.spacing / 2 - offset * sin(self.angle)) * cone

        def gap(x: float) -> float:
            return hypot(x, cone_radius - grown) - apart

        return cone_place - cup_place + float(brentq(gap, 0.0, 2 * apart, xtol=1e-16))

    def with_cup_bound_to_shell(self) -> "WarmPair":
        """Return the pair with a shell so stiff that its cups follow it: the bound the thin wall runs into."""
        stiff = replace(self.fit.shell, young=1e6 * self.fit.shell.young)
        return replace(self, fit=replace(self.fit, shell=stiff, interference=1.0))
