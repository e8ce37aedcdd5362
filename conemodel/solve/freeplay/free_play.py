"""Free play: how far a named place on the hub moves, stop to stop, with no force at all."""

from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt

from conemodel.base.errors import NotConverged
from conemodel.base.ordered_sum import sum_in_order
from conemodel.base.units import Array, Floats
from conemodel.parts.bearing import Pair
from conemodel.solve.equilibrium.arrays import HubArrays, arrays_of_pair
from conemodel.solve.equilibrium.kinematics import FREEDOMS, PairArrays, pair_arrays
from conemodel.solve.equilibrium.newton import Flags, find_equilibrium
from conemodel.solve.equilibrium.pair import SHOULDER
from conemodel.solve.freeplay.constraints import SHELL, Constraints, Integers, constraints_of, groove_vectors
from conemodel.solve.freeplay.interior_point import maximise_movement

CHUNK = 512
"""Cases worked out together."""

_MARGINS = (1e-6, 1e-7, 1e-8, 1e-9)
"""How much larger the balls are made to find a point where none is pinched, the largest that works [m]. An interior
point method must start strictly inside its constraints; balance of larger balls is such a point.
"""

PROVEN = 1e-9
"""How close to the proven bound a stop must come [m]."""

_CLEAR = 1e-10
"""Room every ball must have for the pair to count as loose [m]."""

_TOUCHING = 1e-8
"""Room below which a ball counts as touching at a stop [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FreePlay:
    """Movement of a place from stop to stop; all fields (...).

    Attributes:
        low, high: the stops, from where the shell stands central [m]; both 0 where the pair is not loose.
        gap: how much more travel there could be at most, by duality [m]; 0 where the pair is not loose.
        feasible: whether there is a place where no ball is pinched, by a tenth of a nanometre or more.
        valid: whether the balls that stop the shell touch between 0 and the shoulder.
        slope: how fast `travel` grows with end play [-]; 0 where the pair is not loose.
    """

    low: Array
    high: Array
    gap: Array
    feasible: Flags
    valid: Flags
    slope: Array

    @property
    def travel(self) -> Array:
        """From stop to stop [m]; 0 where the pair is not loose."""
        return np.asarray(self.high - self.low)


def rim_direction(radius: Floats, azimuth: Floats = 0.0) -> Array:
    """Return the direction (..., 5) of a rim point moving along the axle: `radius` [m], from +z to +y [rad].

    >>> rim_direction(0.311).tolist()
    [1.0, 0.0, 0.0, 0.311, -0.0]
    """
    radius, azimuth = np.broadcast_arrays(np.asarray(radius, dtype=np.float64), azimuth)
    one = np.ones_like(radius)
    return np.stack((one, 0 * one, 0 * one, radius * np.cos(azimuth), -radius * np.sin(azimuth)), axis=-1)


def axle_end_direction(arm: Floats) -> Array:
    """Return the direction (..., 5) of the axle end moving along z against the shell: `arm` from mid-span [m].

    >>> axle_end_direction(0.065).tolist()
    [0.0, 0.0, 1.0, -0.065, 0.0]
    """
    arm = np.asarray(arm, dtype=np.float64)
    one = np.ones_like(arm)
    return np.stack((0 * one, 0 * one, one, -arm, 0 * one), axis=-1)


def solve_free_play(pair: Pair, *, end_play: npt.ArrayLike, direction: npt.ArrayLike) -> FreePlay:
    """Find how far the shell moves along `direction` before a ball stops it, both ways, without force.

    `end_play` (...) [m]; `direction` (..., 5): what moves per metre of x, y, z and per radian of tilt about y
    and z. Leading axes broadcast. The shell may be anywhere where no ball is pinched, a convex set; both stops
    are found in it by an interior point method whose duality gap is below a nanometre.

    Raises:
        ValueError: an input is not finite or `direction` does not end in 5.
        NotConverged: the gap stays above a nanometre a stop, or above a millionth of a longer travel.

    Source: [BoydVandenberghe2004], interior point methods and duality.

    >>> from conemodel.parts.bearing import Row
    >>> row = Row(ball_diameter=6.35e-3, ball_count=9, pitch_diameter=20e-3, contact_angle=0.785)
    >>> pair = Pair(left=row, right=row, row_spacing=60e-3)
    >>> solve_free_play(pair, end_play=[-1e-5, 1e-5], direction=(1, 0, 0, 0, 0)).travel.round(9).tolist()
    [0.0, 1e-05]
    """
    found = solve_free_plays(
        arrays_of_pair(pair), end_play=np.asarray(end_play)[None], direction=np.asarray(direction)[None]
    )
    return FreePlay(**{field.name: getattr(found, field.name)[0] for field in fields(found)})


def solve_free_plays(hubs: HubArrays, *, end_play: npt.ArrayLike, direction: npt.ArrayLike) -> FreePlay:
    """Find the same for n hubs at once.

    The first axis of `end_play` (n, ...) and of `direction` (n, ..., 5) goes over the hubs; it may be 1 long.

    Raises:
        ValueError, NotConverged: as for `solve_free_play`.
    """
    ends, ways, shape = _cases(hubs.number, end_play, direction)
    rigid = pair_arrays(hubs._replace(axial_compliance=np.zeros(1)))
    each = ends.size // hubs.number
    hub = np.repeat(np.arange(hubs.number), each)
    ways = np.concatenate((ways[:3], ways[3:] / rigid.lever[hub]))
    parts = [
        _stops(rigid, hubs.are_mirror_symmetric, hub[chunk], ends[chunk], ways[:, chunk])
        for chunk in _chunks(ends.size, each)
    ]
    found = FreePlay(
        **{
            field.name: np.concatenate([getattr(stops, field.name) for stops in parts]).reshape(shape)
            for field in fields(FreePlay)
        }
    )
    if not (found.gap <= np.maximum(2 * PROVEN, 1e-6 * found.travel)).all():
        raise NotConverged(f"free play was found to {found.gap.max():.1e} m only")
    return found


def _chunks(count: int, each: int) -> list[slice]:
    """Return the chunks of `count` cases, `each` of a hub: whole hubs together, a larger hub in its own pieces.

    So a hub is cut up alike whatever hubs are worked out along with it.
    """
    if not count:
        return [slice(0, 0)]
    whole = max(CHUNK // each, 1) * each
    return [
        slice(start, min(start + CHUNK, first + whole))
        for first in range(0, count, whole)
        for start in range(first, min(first + whole, count), CHUNK)
    ]


def _cases(
    hubs: int, end_play: npt.ArrayLike, direction: npt.ArrayLike
) -> tuple[Array, Array, tuple[int, ...]]:
    """Return end play (n,), direction (5, n) and the shape of the leading axes, the first of them `hubs` long."""
    ends, ways = np.asarray(end_play, dtype=np.float64), np.asarray(direction, dtype=np.float64)
    if ways.ndim == 0 or ways.shape[-1] != SHELL:
        raise ValueError(
            f"direction must end in an axis of 5 (x, y, z, two tilts), but has shape {ways.shape}"
        )
    if not (np.isfinite(ends).all() and np.isfinite(ways).all()):
        raise ValueError("end_play and direction must be finite numbers")
    shape = np.broadcast_shapes(ends.shape, ways.shape[:-1])
    shape = (*np.broadcast_shapes(shape[:1], (hubs,)), *shape[1:])
    ways = np.broadcast_to(ways, (*shape, SHELL)).reshape(-1, SHELL).T
    return np.broadcast_to(ends, shape).reshape(-1), ways, shape


def _stops(rigid: PairArrays, symmetric: Flags, hub: Integers, end_play: Array, way: Array) -> FreePlay:
    """Return both stops (n,) along `way` (5, n), each case in its `hub` (n,), `symmetric` (h,) or not."""
    start, loose = _inside(rigid, hub, end_play)
    moves = (np.abs(way).max(0) > 0) & loose  # a zero direction has no travel
    # mirror symmetry reverses movement along the axle and tilts: both stops are equally far, one is solved
    once = moves & symmetric[hub] & (way[1:3] == 0).all(0)
    case, back = np.nonzero(np.stack((moves, moves & ~once), axis=-1))
    constraints = constraints_of(rigid, end_play[case], hub[case])
    found = maximise_movement(
        constraints, direction=way.take(case, -1) * (1 - 2 * back), start=start.take(case, -1)
    )
    stops = np.zeros((3, 2, end_play.size))
    stops[:, back, case] = found.value, found.gap, found.slope
    stops[:, 1, once] = stops[:, 0, once]
    valid = _angles_hold(constraints_of(rigid, end_play, hub), start)
    np.logical_and.at(valid, case, _angles_hold(constraints, found.q))
    reach, gap, slope = stops
    return FreePlay(
        low=-reach[1], high=reach[0], gap=gap.sum(0), feasible=loose, valid=valid, slope=slope.sum(0)
    )


def _inside(rigid: PairArrays, hub: Integers, end_play: Array) -> tuple[Array, Flags]:
    """Return a place (5, n) where no ball is pinched, and whether there is one (n,).

    The centre, if it is free. Else the rest position of slightly larger balls: where their squeeze is less
    than what was added, the true balls are loose. Where it is not less, mean over the balls by how hard they
    press, no place is free: their forces balance, so no movement makes all their distances shorter.
    """
    place = np.zeros((SHELL, end_play.size))
    squeeze = np.hypot(*groove_vectors(constraints_of(rigid, end_play, hub), place)) - rigid.touch[:, hub]
    loose: Flags = np.asarray((squeeze < -_CLEAR).all(0))
    open_cases = np.flatnonzero(~loose)
    for margin in _MARGINS:
        if not open_cases.size:
            break
        which, ends = hub[open_cases], end_play[open_cases]
        arrays = rigid.of_hubs(which)
        larger = arrays._replace(touch=arrays.touch - margin)
        rest = find_equilibrium(larger, end_play=ends, force=np.zeros((FREEDOMS, ends.size)))
        place[:, open_cases] = rest.q[:SHELL]
        squeeze = np.hypot(*groove_vectors(constraints_of(rigid, ends, which), rest.q[:SHELL])) - arrays.touch
        loose[open_cases] = (squeeze < -_CLEAR).all(0)
        pinched = sum_in_order(rest.ball_load * (squeeze + _CLEAR)) > 0
        open_cases = open_cases[~(loose[open_cases] | pinched)]
    return place, loose


def _angles_hold(constraints: Constraints, q: Array) -> Flags:
    """Return whether every ball that touches at `q` (5, n) does so between 0 and the shoulder (n,)."""
    axial, radial = groove_vectors(constraints, q)
    touching = np.hypot(axial, radial) > constraints.touch - _TOUCHING
    angle = np.arctan2(axial, radial)
    held: Flags = (~touching | ((angle > 0) & (angle < SHOULDER))).all(0)
    return held
