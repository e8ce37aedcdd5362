"""Two rows of balls between cones and cups that may be skew, many hubs at once, brought to rest by Newton's method.

Nothing here is imported from the package. SI throughout; x along the axle to the right, y forward, z up, from the
middle between the rows. Point contact: Hertz, from memory, as `spring_and_beam.balls` has it.
"""

from dataclasses import dataclass, fields, replace
from functools import lru_cache
from math import cos
from typing import Self

import numpy as np

from tests.solve.stages.spring_and_beam.balls import contact_stiffness

UNIT = 1e-6
"""What the solver counts in: a micrometre along the axle, and as much at the pitch circle's radius for a turn [m]."""

MOST_STEP = 50.0
"""Furthest a hub moves in one step [µm]."""

BALANCE = 1e-5
"""What may be left of a force, as a share of the load and of all the balls carry."""

NOTHING = 1e-9 * UNIT
"""Size of a force that is none, times a micrometre [J]."""

STEPS = 500
"""Most steps of the solver; some thirty are usual."""

SIDES = np.array((-1.0, 1.0))
YOUNG, POISSON = 208e9, 0.3


@lru_cache(maxsize=4096)
def ball_stiffness(ball: float, pitch: float, angle: float, cone_groove: float, cup_groove: float) -> float:
    """Return K of Q = K δ^1.5 of a ball between cone and cup [N/m^1.5]; grooves over the ball's diameter."""
    gamma = ball * cos(angle) / pitch
    soft = 0.0
    for groove, along in ((cone_groove, 2 * gamma / (1 - gamma)), (cup_groove, -2 * gamma / (1 + gamma))):
        sums, apart = 4 - 1 / groove + along, 1 / groove + along
        K = contact_stiffness(sums=sums / ball, difference=apart / sums, young=YOUNG, poisson=POISSON)
        soft += K ** (-2 / 3)
    return float(soft**-1.5)


@dataclass(frozen=True, kw_only=True)
class Rows:
    """The rows of n hubs, all with balls of one size and number; arrays have n hubs first, then left and right.

    Attributes:
        ball, count, pitch: diameter of a ball [m], balls in a row, diameter of the circle they run on [m].
        angle, cone_groove, cup_groove: contact angle [rad], grooves over the ball's diameter, (n,).
        spacing, yielding: distance of the rows [m], give of axle and shell along the axle [m/N], (n,).
        cone_tilt, cup_tilt: turns about y and z (n, 2, 2) [rad].
        oversize: of each ball (n, 2, count) [m]; phase: where the first ball stands (n, 2) [rad].
    """

    ball: float
    count: int
    pitch: float
    angle: np.ndarray
    cone_groove: np.ndarray
    cup_groove: np.ndarray
    spacing: np.ndarray
    yielding: np.ndarray
    cone_tilt: np.ndarray
    cup_tilt: np.ndarray
    oversize: np.ndarray
    phase: np.ndarray

    def __len__(self) -> int:
        return len(self.angle)

    def take(self, which: np.ndarray) -> Self:
        """Return some of the hubs, by number or by a mask."""
        arrays = {f.name: getattr(self, f.name) for f in fields(self)}
        return replace(self, **{name: a[which] for name, a in arrays.items() if isinstance(a, np.ndarray)})

    def turned(self, wheel: np.ndarray, balls: np.ndarray) -> Self:
        """Return the hubs with the wheel turned (n,) and the balls of each row rolled on (n, 2) [rad]."""
        c, s = np.cos(wheel)[:, None], np.sin(wheel)[:, None]
        y, z = self.cup_tilt[..., 0], self.cup_tilt[..., 1]
        cups = np.stack((c * y - s * z, s * y + c * z), axis=-1)
        return replace(self, cup_tilt=cups, phase=self.phase + balls)

    def leaning(self, tilt: np.ndarray) -> Self:
        """Return the hubs with their cones tilted by more (n, 2, 2) [rad]."""
        return replace(self, cone_tilt=self.cone_tilt + tilt)

    @property
    def stiffness(self) -> np.ndarray:
        """K of a ball of each hub (n,) [N/m^1.5]."""
        each = zip(self.angle, self.cone_groove, self.cup_groove, strict=True)
        return np.array([ball_stiffness(self.ball, self.pitch, *map(float, hub)) for hub in each])


@dataclass(frozen=True, kw_only=True)
class AtRest:
    """Hubs at rest: travel and turns of the shell (n, 5) [m, rad], load of balls (n, 2, count), preload (n,) [N]."""

    motion: np.ndarray
    balls: np.ndarray
    preload: np.ndarray


@dataclass(frozen=True, kw_only=True)
class _Reach:
    """How far cone centre stands from cup centre, along and across (n, b, 2) [m], and how the shell changes it."""

    start: np.ndarray
    lever: np.ndarray
    apart: np.ndarray


def bring_to_rest(rows: Rows, *, end_play: np.ndarray, load: np.ndarray) -> AtRest:
    """Return the hubs at rest under loads (n, 5): forces along x y z [N], moments about y z [N·m].

    Newton's method on a convex energy, damped until each step goes downhill.
    """
    count, scale = len(rows), np.array((1, 1, 1, 2 / rows.pitch, 2 / rows.pitch, 1)) * UNIT
    reach = _reach_of(rows, end_play)
    reach = replace(reach, lever=reach.lever * scale)
    force = np.concatenate((load, np.zeros((count, 1))), axis=1) * scale
    yielding = np.zeros((count, 6, 6))
    yielding[:, 5, 5] = UNIT**2 / rows.yielding
    place, K = np.zeros((count, 6)), rows.stiffness[:, None]
    moving, damping = np.arange(count), np.full(count, 1e-3)
    for _ in range(STEPS):
        part = _Reach(start=reach.start[moving], lever=reach.lever[moving], apart=reach.apart[moving])
        given = part, K[moving], yielding[moving], force[moving]
        energy, slope, curvature, size = _energy(place[moving], *given)
        uneasy = np.abs(slope).max(axis=1) > BALANCE * size
        if not uneasy.any():
            break
        mean = np.trace(curvature, axis1=1, axis2=2) / 6
        held = curvature + (damping[moving] * mean)[:, None, None] * np.eye(6)
        step = -np.linalg.solve(held, slope[..., None])[..., 0]
        step /= np.maximum(1.0, np.abs(step).max(axis=1) / MOST_STEP)[:, None]
        better = _energy(place[moving] + step, *given)[0] <= energy
        place[moving[better]] += step[better]
        damping[moving] *= np.where(better, 0.2, 6.0)
        moving = moving[uneasy]
    else:
        raise RuntimeError(f"{moving.size} hubs did not come to rest")
    deep = _pressed(place, reach)[2]
    balls = (K * deep**1.5).reshape(count, 2, rows.count)
    return AtRest(motion=place[:, :5] * scale[:5], balls=balls, preload=place[:, 5] * UNIT / rows.yielding)


def _pressed(place: np.ndarray, reach: _Reach) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    across = reach.start + np.einsum("nbaf,nf->nba", reach.lever, place)
    length = np.hypot(across[..., 0], across[..., 1])
    return across, length, np.maximum(length - reach.apart, 0.0)


def _energy(
    place: np.ndarray, reach: _Reach, K: np.ndarray, yielding: np.ndarray, force: np.ndarray
) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Return energy (n,), its slope (n, 6) and curvature (n, 6, 6), and the size of the forces in it (n,)."""
    across, length, deep = _pressed(place, reach)
    spring = np.einsum("nf,nfg->ng", place, yielding)
    energy = 0.4 * (K * deep**2.5).sum(axis=1) + ((0.5 * spring - force) * place).sum(axis=1)
    way = across / length[..., None]
    sideways = np.stack((-way[..., 1], way[..., 0]), axis=-1)
    along = np.einsum("nba,nbaf->nbf", way, reach.lever)
    round_ = np.einsum("nba,nbaf->nbf", sideways, reach.lever)
    load = K * deep**1.5
    slope = np.einsum("nb,nbf->nf", load, along) + spring - force
    curvature = yielding + np.matmul((1.5 * K * np.sqrt(deep))[:, None, :] * along.swapaxes(1, 2), along)
    curvature += np.matmul((load / length)[:, None, :] * round_.swapaxes(1, 2), round_)
    size = np.abs(force).max(axis=1) + load.sum(axis=1) * UNIT + NOTHING
    return energy, slope, curvature, size


def _reach_of(rows: Rows, end_play: np.ndarray) -> _Reach:
    """Return where the groove centres of cone and cup stand to one another at each ball, before the shell moves."""
    n, Z = len(rows), rows.count
    sin, cosine = np.sin(rows.angle)[:, None, None], np.cos(rows.angle)[:, None, None]
    cone_arm = ((rows.cone_groove - 0.5) * rows.ball)[:, None, None]
    cup_arm = ((rows.cup_groove - 0.5) * rows.ball)[:, None, None]
    around = rows.phase[..., None] + 2 * np.pi * np.arange(Z) / Z
    c, s, side = np.cos(around), np.sin(around), SIDES[None, :, None]
    half = rows.spacing[:, None, None] / 2
    cone = _ring(
        side * (half - cone_arm * sin + end_play[:, None, None] / 2), rows.pitch / 2 + cone_arm * cosine, c, s
    )
    cup = _ring(side * (half + cup_arm * sin), rows.pitch / 2 - cup_arm * cosine, c, s)
    middle_of_cone = cone * np.array((0.0, 1.0, 1.0))
    middle_of_cup = cup * np.array((0.0, 1.0, 1.0))
    apart = cone + _tilted(middle_of_cone, rows.cone_tilt) - cup - _tilted(middle_of_cup, rows.cup_tilt)
    start = np.stack((apart[..., 0], apart[..., 1] * c + apart[..., 2] * s), axis=-1)
    lever = np.zeros((n, 2, Z, 2, 6))
    lever[..., 0, 0] = -1.0
    lever[..., 1, 1], lever[..., 1, 2] = -c, -s
    # the cup's centre at (x, R c, R s) moves by θ × r: along by R (θy s - θz c), outward by x (θz c - θy s)
    radius = cup[..., 1] * c + cup[..., 2] * s
    lever[..., 0, 3], lever[..., 1, 3] = -radius * s, cup[..., 0] * s
    lever[..., 0, 4], lever[..., 1, 4] = radius * c, -cup[..., 0] * c
    lever[..., 0, 5] = side / 2
    room = ((rows.cone_groove + rows.cup_groove - 1) * rows.ball)[:, None, None] - rows.oversize
    flat = (n, 2 * Z)
    return _Reach(start=start.reshape(*flat, 2), lever=lever.reshape(*flat, 2, 6), apart=room.reshape(flat))


def _ring(x: np.ndarray, radius: np.ndarray, c: np.ndarray, s: np.ndarray) -> np.ndarray:
    """Return the groove centres (n, 2, count, 3) of a race at `x` of `radius` [m]."""
    return np.stack(np.broadcast_arrays(x, radius * c, radius * s), axis=-1)


def _tilted(at: np.ndarray, tilt: np.ndarray) -> np.ndarray:
    """Return how far points (n, 2, count, 3) move as their race turns about its middle: to second order of the turn."""
    turn = np.concatenate((np.zeros((*tilt.shape[:2], 1)), tilt), axis=-1)[:, :, None, :]
    first = np.cross(np.broadcast_to(turn, at.shape), at)
    return np.asarray(first + 0.5 * np.cross(np.broadcast_to(turn, at.shape), first))
