"""The equilibrium of a pair of rows under a load: arrays in, arrays out."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from conemodel.base.ordered_sum import sum_in_order
from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.solve.equilibrium.arrays import HubArrays, arrays_of_pair
from conemodel.solve.equilibrium.energy import groove_centres
from conemodel.solve.equilibrium.kinematics import FREEDOMS, PairArrays, pair_arrays
from conemodel.solve.equilibrium.newton import find_equilibrium

PROMISED_BALANCE = 1e-6
"""Unbalanced force over load scale above which a case is reported as not converged [-]."""

SHOULDER = np.radians(70.0)
"""Contact angle at which the ball reaches the shoulder of the race [rad]; an assumption, no source."""

NO_LOAD = 1e-9
"""A ball load below this is none [N]: its approach would be less than the size of an atom."""

Integers = npt.NDArray[np.int64]

CHUNK = 4096
"""Cases solved together: enough to spread the cost of each call, few enough for a processor's outer cache."""

_FEW, _ROOM = 256, 2**21
"""Above so many cases the C library would fetch and return every work array page by page, at three times the cost.

It learns not to from one large array [numbers of 8 bytes] that is freed; memory never touched costs nothing.
"""


@dataclass(frozen=True, slots=True)
class RowState:
    """One row of balls at rest; every field has shape (..., Z).

    Attributes:
        ball_load: load of each ball [N]; 0 where it is loose.
        contact_angle: angle of the line of contact to the wheel plane [rad]; of a loose ball, the line along
            which its races face each other.
        cone_pressure: greatest pressure between ball and cone [Pa].
        cup_pressure: greatest pressure between ball and cup [Pa].
    """

    ball_load: Array
    contact_angle: Array
    cone_pressure: Array
    cup_pressure: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class PairSolution:
    """The pair of rows at rest under its load, with the proof that it is.

    Attributes:
        shell_motion: shell against axle, x, y, z [m], tilt about y and z [rad]; (..., 5).
        preload: mean axial force of the two rows [N]; (...).
        left, right: the two rows.
        axial_give: axial deflection of axle and shell under the preload [m]; (...).
        residual: largest unbalanced force, moments over the half span, over the largest load on shell or
            ball [-]; (...).
        iterations: Newton steps taken; (...).
        converged: whether `residual` is within 1e-6; (...). Where it is not, nothing else may be used.
        valid: whether every loaded ball has a contact angle between 0 and the shoulder; (...).
        energy: elastic energy less work of the load [J]; (...).
    """

    shell_motion: Array
    preload: Array
    left: RowState
    right: RowState
    axial_give: Array
    residual: Array
    iterations: Integers
    converged: npt.NDArray[np.bool_]
    valid: npt.NDArray[np.bool_]
    energy: Array


class PreparedHubs(NamedTuple):
    """Hubs and what the energy needs of them, worked out once for many calls."""

    hubs: HubArrays
    arrays: PairArrays

    @classmethod
    def of(cls, hubs: HubArrays) -> "PreparedHubs":
        """Return `hubs` prepared for solving."""
        return cls(hubs, pair_arrays(hubs))


class _Rest(NamedTuple):
    """The results of one chunk: the cases on the last axis, plain SI."""

    motion: Array
    give: Array
    preload: Array
    ball_load: Array
    angle: Array
    energy: Array
    residual: Array
    iterations: Integers


def solve_pair(pair: Pair, *, end_play: npt.ArrayLike, load: npt.ArrayLike) -> PairSolution:
    """Find where the shell rests and what every ball carries.

    `end_play` (...) [m] is the total of the pair, negative for interference; `load` (..., 5) acts on the shell
    at mid-span: Fx, Fy, Fz [N], My, Mz [N·m]. Leading axes broadcast. Newton's method on the convex energy of
    all contacts; a loose hub without load stays where it is. A case without balance is not raised here but has
    `converged` False.

    Raises:
        ValueError: an input is not finite or `load` does not end in 5.

    Source: [HarrisKotzalas2007], combined loading, with both rows and the axial compliance in one energy.

    >>> from conemodel.parts.bearing import Row
    >>> row = Row(ball_diameter=6.35e-3, ball_count=9, pitch_diameter=20e-3, contact_angle=0.785)
    >>> pair = Pair(left=row, right=row, row_spacing=60e-3, axial_compliance=1.5e-8)
    >>> solution = solve_pair(pair, end_play=[-3e-5, 5e-5], load=(0, -400, 0, 0, 0))
    >>> solution.left.ball_load.shape, solution.converged.all().item()
    ((2, 9), True)
    """
    return solve_prepared(_prepare_pair(pair), end_play=end_play, load=load)


def solve_hubs(hubs: HubArrays, *, end_play: npt.ArrayLike, load: npt.ArrayLike) -> PairSolution:
    """Solve like `solve_pair`, with a hub of its own for each case.

    `hubs` holds n hubs, or one; n is the number of cases that `end_play` (...) [m] and `load` (..., 5)
    [N, N·m] make when broadcast and flattened.

    Raises:
        ValueError: the numbers do not match or are not finite.
    """
    ends, forces, shape = _cases(end_play, load)
    if hubs.number not in (1, ends.size):
        raise ValueError(f"{hubs.number} hubs but {ends.size} cases: give one hub, or one for each case")
    return _solution(hubs, _in_chunks(lambda chunk: pair_arrays(hubs.select(chunk)), ends, forces), shape)


def solve_prepared(
    ready: PreparedHubs, *, end_play: npt.ArrayLike, load: npt.ArrayLike, hub: Integers | None = None
) -> PairSolution:
    """Solve like `solve_pair`, with hubs prepared before: the only one, or for each case the one `hub` says.

    `hub` (...) counts from 0 and broadcasts with the other leading axes.
    """
    ends, forces, shape = _cases(end_play, load)
    if hub is None:
        return _solution(ready.hubs, _in_chunks(lambda _: ready.arrays, ends, forces), shape)
    which = np.broadcast_to(hub, shape).reshape(-1)
    rest = _in_chunks(lambda chunk: ready.arrays.of_hubs(which[chunk]), ends, forces)
    return _solution(ready.hubs, rest, shape, which)


@lru_cache(maxsize=256)
def _prepare_pair(pair: Pair) -> PreparedHubs:
    """Return one `pair` prepared for solving."""
    return PreparedHubs.of(arrays_of_pair(pair))


def _in_chunks(arrays: Callable[[slice], PairArrays], end_play: Array, load: Array) -> _Rest:
    """Solve all cases, `CHUNK` at a time; `arrays` returns the hubs of a chunk."""
    if end_play.size > _FEW:
        np.empty(_ROOM)  # given back at once: the allocator now keeps blocks of this size for the work arrays
    chunks = [slice(start, start + CHUNK) for start in range(0, end_play.size, CHUNK)] or [slice(0, 0)]
    found = [_solve_chunk(arrays(chunk), end_play[chunk], load[:, chunk]) for chunk in chunks]
    if len(found) == 1:
        return found[0]
    return _Rest._make(np.concatenate(field, axis=-1) for field in zip(*found, strict=True))


def _cases(end_play: npt.ArrayLike, load: npt.ArrayLike) -> tuple[Array, Array, tuple[int, ...]]:
    """Return end play (n,), load (5, n) and the shape of the leading axes."""
    ends, loads = np.asarray(end_play, dtype=np.float64), np.asarray(load, dtype=np.float64)
    if loads.ndim == 0 or loads.shape[-1] != 5:
        raise ValueError(f"load must end in an axis of 5 (Fx, Fy, Fz, My, Mz), but has shape {loads.shape}")
    if not (np.isfinite(ends).all() and np.isfinite(loads).all()):
        raise ValueError("end_play and load must be finite numbers")
    shape = np.broadcast_shapes(ends.shape, loads.shape[:-1])
    forces = np.ascontiguousarray(np.broadcast_to(loads, (*shape, 5)).reshape(-1, 5).T)
    return np.broadcast_to(ends, shape).reshape(-1), forces, shape


def _solve_chunk(pair: PairArrays, end_play: Array, load: Array) -> _Rest:
    """Solve one chunk and put the unknowns back into metres and radians."""
    force = np.zeros((FREEDOMS, end_play.size))
    force[:3], force[3:5] = load[:3], load[3:] / pair.lever
    found = find_equilibrium(pair, end_play=end_play, force=force)
    axial, radial = groove_centres(pair, found.q, end_play)
    ball_load = np.where(found.ball_load < NO_LOAD, 0.0, found.ball_load)
    found.q[3:5] /= pair.lever
    return _Rest(
        motion=found.q[:5],
        give=found.q[5] * pair.stretch,
        preload=0.5 * sum_in_order(ball_load * axial / np.hypot(axial, radial)),
        ball_load=ball_load,
        angle=np.arctan2(axial, radial),
        energy=found.energy,
        residual=found.residual,
        iterations=found.iterations,
    )


def _solution(
    hubs: HubArrays, found: _Rest, shape: tuple[int, ...], hub: Integers | slice = slice(None)
) -> PairSolution:
    """Return the result in the shape the caller asked in; `hub` (n,) says whose races each case has."""
    ball_load, angle = found.ball_load, found.angle
    inside = (ball_load == 0) | ((angle > 0) & (angle < SHOULDER))
    split = hubs.left.ball_count

    def cases_first(array: Array) -> Array:
        return np.ascontiguousarray(array.T).reshape((*shape, *array.shape[:-1]))

    rows = []
    for row, balls in ((hubs.left, slice(0, split)), (hubs.right, slice(split, None))):
        root = np.cbrt(ball_load[balls])
        units = (row.cone_unit_pressure, row.cup_unit_pressure)
        pressures = ((unit[hub] if unit.size > 1 else unit) * root for unit in units)
        fields = (ball_load[balls], angle[balls], *pressures)
        rows.append(RowState(*map(cases_first, fields)))
    return PairSolution(
        shell_motion=cases_first(found.motion),
        preload=cases_first(found.preload),
        left=rows[0],
        right=rows[1],
        axial_give=cases_first(found.give),
        residual=cases_first(found.residual),
        iterations=found.iterations.reshape(shape),
        converged=(found.residual <= PROMISED_BALANCE).reshape(shape),
        valid=inside.all(0).reshape(shape),
        energy=cases_first(found.energy),
    )
