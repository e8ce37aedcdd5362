"""Two full rings of balls between rigid races, brought to rest by scipy's minimiser.

Nothing here is imported from the package. SI throughout; x along the axle to the right, y forward, z up. Point
contact: Hertz by elliptic integrals as in Harris, Rolling Bearing Analysis, and Johnson, Contact Mechanics (both from
memory, pages not seen). The shell has five freedoms; a sixth lets axle and shell give along the axle.
"""

from dataclasses import dataclass, replace
from math import cos, pi, sin

import numpy as np
from scipy.optimize import brentq, minimize
from scipy.special import ellipe, ellipk

SMALL = 1e-6
"""Unit the minimiser works in: micrometres, microradians at a radius of 1 m."""


def contact_stiffness(*, sums: float, difference: float, young: float, poisson: float) -> float:
    """Return K of Q = K δ^1.5 [N/m^1.5] for a sum of curvatures [1/m] and their difference F(ρ) [-]."""

    def excess(ratio: float) -> float:
        flat = 1 - 1 / ratio**2
        first, second = ellipk(flat), ellipe(flat)
        return ((ratio**2 + 1) * second - 2 * first) / ((ratio**2 - 1) * second) - difference

    ratio = brentq(excess, 1.0001, 1e3) if difference > 1e-4 else 1.0
    flat = 1 - 1 / ratio**2
    approach = 2 * ellipk(flat) / pi * (pi / (2 * ratio**2 * ellipe(flat))) ** (1 / 3)
    soft = 2 * (1 - poisson**2) / young
    return float((approach * sums / 2) ** -1.5 * 2 * sums / (3 * soft))


@dataclass(frozen=True, kw_only=True)
class Ring:
    """One row: ball diameter `ball`, pitch diameter `pitch` [m], `angle` [rad], grooves over the ball's diameter."""

    ball: float
    count: int
    pitch: float
    angle: float
    groove: float
    young: float = 208e9
    poisson: float = 0.3

    @property
    def apart(self) -> float:
        """Distance between the centres of the two grooves when just touching [m]."""
        return (2 * self.groove - 1) * self.ball

    @property
    def cone_radius(self) -> float:
        """Radius of the circle of the cone groove's centre about the axle [m]."""
        return self.pitch / 2 + (self.groove - 0.5) * self.ball * cos(self.angle)

    @property
    def cup_radius(self) -> float:
        """Radius of the circle of the cup groove's centre about the axle [m]."""
        return self.pitch / 2 - (self.groove - 0.5) * self.ball * cos(self.angle)

    def stiffness(self) -> float:
        """Return K of a ball between both races [N/m^1.5]."""
        gamma = self.ball * cos(self.angle) / self.pitch
        soft = 0.0
        for along in (2 * gamma / (1 - gamma), -2 * gamma / (1 + gamma)):
            sums = 4 - 1 / self.groove + along
            K = contact_stiffness(
                sums=sums / self.ball,
                difference=(1 / self.groove + along) / sums,
                young=self.young,
                poisson=self.poisson,
            )
            soft += K ** (-2 / 3)
        return float(soft**-1.5)


@dataclass(frozen=True, kw_only=True)
class Rings:
    """Two equal rows `spacing` [m] apart; `tilts` of left and right cone in the plane of x and z [rad].

    `yielding` [m/N] is the give of axle and shell along the axle, `phase` where the first ball stands [rad].
    """

    ring: Ring
    spacing: float
    yielding: float
    tilts: tuple[float, float] = (0.0, 0.0)
    phase: float = 0.0

    def rest(self, *, end_play: float, load: np.ndarray | None = None) -> "AtRest":
        """Return the rings at rest under `load` (5,), forces along x y z [N], moments about y z [N·m]."""
        force = np.zeros(6)
        force[:5] = np.zeros(5) if load is None else load
        start, lever = self._at_zero(end_play)
        K, apart = self.ring.stiffness(), self.ring.apart

        def pressed(q: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
            reach = start + lever @ (q * SMALL)
            length = np.hypot(reach[:, 0], reach[:, 1])
            return reach, length, np.maximum(length - apart, 0.0)

        def energy(q: np.ndarray) -> float:
            spring = (q[5] * SMALL) ** 2 / (2 * self.yielding)
            return float(0.4 * K * (pressed(q)[2] ** 2.5).sum() + spring - force @ q * SMALL) / SMALL

        def slope(q: np.ndarray) -> np.ndarray:
            reach, length, deep = pressed(q)
            pull = (K * deep**1.5 / length)[:, None] * reach
            out: np.ndarray = np.einsum("ba,baf->f", pull, lever) - force
            out[5] += q[5] * SMALL / self.yielding
            return out

        def curvature(q: np.ndarray) -> np.ndarray:
            reach, length, deep = pressed(q)
            n, load = reach / length[:, None], K * deep**1.5
            across = np.stack((-n[:, 1], n[:, 0]), axis=1)
            along = np.einsum("ba,baf->bf", n, lever)
            round_ = np.einsum("ba,baf->bf", across, lever)
            out: np.ndarray = np.diag([1.0, 1.0, 1.0, 1.0, 1.0, 1 / self.yielding])
            out += (along.T * (1.5 * K * np.sqrt(deep))) @ along + (round_.T * (load / length)) @ round_
            return out * SMALL

        found = minimize(
            energy, np.zeros(6), jac=slope, hess=curvature, method="trust-exact", options={"gtol": 1e-5}
        )
        balls = K * pressed(found.x)[2] ** 1.5
        if np.abs(slope(found.x)).max() > 1e-6 * (balls.sum() + np.abs(force[:3]).sum()) + 1e-4:
            raise RuntimeError(f"the rings did not come to rest: {found.message}")
        reach, length, _ = pressed(found.x)
        preload = float(found.x[5] * SMALL / self.yielding)
        return AtRest(balls=balls, directions=reach / length[:, None], preload=preload)

    def _at_zero(self, end_play: float) -> tuple[np.ndarray, np.ndarray]:
        """Return how far each ball's cone centre stands from its cup centre, axially and radially, (b, 2) [m].

        And how that changes with each freedom of the shell (b, 2, 6): three travels, two turns, the spread of the
        two cones. The cone turns about its own middle by a true rotation, the shell by a small one.
        """
        ring, starts, levers = self.ring, [], []
        around = self.phase + 2 * pi / ring.count * np.arange(ring.count)
        c, s = np.cos(around), np.sin(around)
        for side, tilt in zip((-1.0, 1.0), self.tilts, strict=True):
            cup_x = side * (self.spacing / 2 + (ring.groove - 0.5) * ring.ball * sin(ring.angle))
            inboard = ring.apart * sin(ring.angle) - end_play / 2
            x, z = ring.cone_radius * s * sin(tilt), ring.cone_radius * s * cos(tilt)
            radial = ring.cone_radius * c * c + z * s - ring.cup_radius
            starts.append(np.stack((x - side * inboard, radial), axis=1))
            lever = np.zeros((ring.count, 2, 6))
            lever[:, 0, 0] = -1.0
            lever[:, 1, 1], lever[:, 1, 2] = -c, -s
            # the cup's centre at (cup_x, R c, R s), turned about y and z, moves by θ × r
            lever[:, 0, 3], lever[:, 1, 3] = -ring.cup_radius * s, cup_x * s
            lever[:, 0, 4], lever[:, 1, 4] = ring.cup_radius * c, -cup_x * c
            lever[:, 0, 5] = side * 0.5
            levers.append(lever)
        return np.concatenate(starts), np.concatenate(levers)

    def tightened_by_tilt(self, *, preload: float) -> float:
        """Return how far end play must open [m] for tilted cones to carry the same preload [N] as straight ones."""

        def carrying(rings: "Rings") -> float:
            return float(
                brentq(lambda e: rings.rest(end_play=e).preload - preload, -0.3e-3, 0.6e-3, xtol=1e-10)
            )

        return carrying(self) - carrying(replace(self, tilts=(0.0, 0.0)))


@dataclass(frozen=True, kw_only=True)
class AtRest:
    """Load of every ball, left row first (2 Z,) [N], and the pull in the axle between the cones [N].

    `directions` (2 Z, 2): how each pushes the cup, its part along the axle and its part outward [-].
    """

    balls: np.ndarray
    directions: np.ndarray
    preload: float


def worst_ball(rings: Rings, *, end_play: float, load: np.ndarray, phases: int = 8) -> float:
    """Return the largest ball load [N] while the balls roll past, over `phases` places of one ball's pitch."""
    steps = 2 * pi / rings.ring.count * np.arange(phases) / phases
    return max(float(replace(rings, phase=p).rest(end_play=end_play, load=load).balls.max()) for p in steps)
