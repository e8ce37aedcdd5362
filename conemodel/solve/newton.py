"""Newton's method on the energy of the pair, damped where balls are loose, many cases at once.

Each case has its own damping and its own longest step. A step is kept only if it lowers the energy enough;
cases that have reached balance leave the batch, so the last stubborn ones do not hold up the rest.
"""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.solve.energy import State, evaluate, hessian, products
from conemodel.solve.geometry import FREEDOMS, PairArrays

Flags = npt.NDArray[np.bool_]
Integers = npt.NDArray[np.int64]

BALANCE = 1e-8
"""Unbalanced force over load scale at which a case is finished; a hundredth of what is promised [-]."""

FORCE_FLOOR = 1e-3
"""Least load scale [N]: the weight of a tenth of a gram."""

MOST_STEPS = 200
"""Steps after which a case is given up as not converged; ten to twenty are usual."""

_FIRST_REACH = 50e-6
"""Longest first step of a ball [m], about the interference of a firmly preloaded hub."""

_SOFT_APPROACH = 40e-6
"""A loose hub's balls start so soft that the load alone would press one in by this much [m]."""

_STIFFEN, _NEAR_ENOUGH = 30.0, 0.05
"""Factor by which soft balls are made stiffer, once the unbalanced force is down to this share [-]."""

_FIRST_DAMPING = 1e-4
_LEAST_DAMPING, _MOST_DAMPING = 1e-9, 1e3
_ARMIJO = 1e-4
_NOISE = 1e-9
"""Expected gain over energy below which rounding hides the gain, and the slope is judged instead [-]."""

_SMALL_BATCH = 24
"""Below this many cases LAPACK's overhead is less than that of array-wide elimination."""


class Equilibrium(NamedTuple):
    """Where the shell comes to rest: arrays with the cases last. `q` (6, n) as in `PairArrays`."""

    q: Array
    ball_load: Array
    axial: Array
    radial: Array
    energy: Array
    residual: Array
    iterations: Integers


class _Batch(NamedTuple):
    """The cases still being worked on; every field has the cases last."""

    case: Integers
    end_play: Array
    force: Array
    q: Array
    damping: Array
    reach: Array
    softness: Array


def equilibrium(pair: PairArrays, *, end_play: Array, force: Array) -> Equilibrium:
    """Find the rest position for `end_play` (n,) [m] and generalised `force` (6, n) [N] on the unknowns q."""
    count = end_play.shape[-1]
    result = _empty(pair.touch.shape[0], count)
    batch = _Batch(
        case=np.arange(count),
        end_play=end_play,
        force=force,
        q=np.zeros((FREEDOMS, count)),
        damping=np.full(count, _FIRST_DAMPING),
        reach=np.full(count, _FIRST_REACH),
        softness=_first_softness(pair, end_play, force),
    )
    state = _evaluate(pair, batch, batch.q)
    table = products(pair)
    for iteration in range(MOST_STEPS + 1):
        residual = unbalanced(pair, state, batch.force)
        done = ((residual <= BALANCE) & (batch.softness == 1)) | (iteration == MOST_STEPS)
        if done.any():
            _retire(result, batch, state, residual, done, iteration)
            if done.all():
                break
            pair, batch, state = _keep(pair, batch, state, ~done)
            residual = residual[~done]
        stiffen = (batch.softness < 1) & (residual < _NEAR_ENOUGH)
        if stiffen.any():
            batch = _stiffer(batch, stiffen)
            state = _evaluate(pair, batch, batch.q)
        batch, state = _step(pair, batch, state, table)
    return result


def _first_softness(pair: PairArrays, end_play: Array, force: Array) -> Array:
    """Return the share of their stiffness that the balls start with (n,).

    A light load on a loose hub must feel its way round the gap between walls that are hard against it; with
    soft balls the walls come towards it. A tight or an unloaded hub needs none of this.
    """
    load = np.abs(force).max(0)
    firm = pair.load_constant.max(0) * _SOFT_APPROACH**1.5
    share = np.minimum(np.maximum(load, FORCE_FLOOR) / firm, 1.0)
    return np.where((end_play > 0) & (load > 0), share, 1.0)


def _stiffer(batch: _Batch, which: Flags) -> _Batch:
    """Make the balls of some cases stiffer and forget the damping that went with the old stiffness."""
    return batch._replace(
        softness=np.where(which, np.minimum(batch.softness * _STIFFEN, 1.0), batch.softness),
        damping=np.where(which, _FIRST_DAMPING, batch.damping),
        reach=np.where(which, _FIRST_REACH, batch.reach),
    )


def _evaluate(pair: PairArrays, batch: _Batch, q: Array) -> State:
    """Return the state of the batch at `q`."""
    return evaluate(pair, q, end_play=batch.end_play, force=batch.force, softness=batch.softness)


def unbalanced(pair: PairArrays, state: State, force: Array) -> Array:
    """Return the largest unbalanced force, of shell or preload, over the load scale (n,) [-]."""
    scale = np.maximum(state.ball_load.max(0), np.abs(force).max(0))
    shell = np.abs(state.gradient[:5]).max(0)
    preload = np.abs(state.gradient[5]) / np.maximum(pair.stretch, 1e-300)  # both 0 for a rigid axle
    residual: Array = np.maximum(shell, preload) / np.maximum(scale, FORCE_FLOOR)
    return residual


def _step(pair: PairArrays, batch: _Batch, state: State, table: Array | None) -> tuple[_Batch, State]:
    """Try one damped Newton step in every case and keep those that lower the energy."""
    matrix = hessian(pair, state, table)
    # the stiffness of the whole complement at the reach of the first step sets the size of the damping
    firm = batch.softness * (pair.load_constant.sum(0) * np.sqrt(_FIRST_REACH))
    matrix[range(5), range(5)] += batch.damping * firm
    move = solve_each(matrix, -state.gradient)
    longest = np.abs(move[:5]).max(0)
    clipped = longest > batch.reach
    move *= np.where(clipped, batch.reach / np.maximum(longest, 1e-300), 1.0)
    trial = batch.q + move
    there = _evaluate(pair, batch, trial)

    slope, slope_there = (state.gradient * move).sum(0), (there.gradient * move).sum(0)
    work = (batch.force * move).sum(0)
    gain = there.strain - state.strain - work
    noise = _NOISE * (state.strain + np.abs((batch.force * trial).sum(0)))
    # on a convex energy a slope still downhill means the energy fell all the way
    kept = (slope_there <= 0) | (gain <= _ARMIJO * slope)
    kept |= (-slope < noise) & (np.abs(slope_there) < -0.5 * slope)
    over = slope_there / np.maximum(-slope, 1e-300)  # how far the step overshot; below 0 it fell short
    ease = np.where(over < 0.3, 0.1, np.where(over < 0.7, 0.5, 1.0))
    damping = np.clip(batch.damping * np.where(kept, ease, 4.0), _LEAST_DAMPING, _MOST_DAMPING)
    longer = np.where(clipped & (slope_there < 0), 2 * batch.reach, batch.reach)
    reach = np.where(kept, longer, 0.3 * np.minimum(longest, batch.reach))
    batch = batch._replace(q=np.where(kept, trial, batch.q), damping=damping, reach=reach)
    return batch, there if kept.all() else _choose(kept, there, state)


def solve_each(matrix: Array, right: Array) -> Array:
    """Solve n small symmetric positive systems: `matrix` (m, m, n), `right` (m, n). `matrix` is spent.

    >>> solve_each(np.array([[[2.0], [1.0]], [[1.0], [3.0]]]), np.array([[5.0], [10.0]])).ravel().tolist()
    [1.0, 3.0]
    """
    size, count = right.shape
    if count < _SMALL_BATCH:
        return np.asarray(np.linalg.solve(matrix.transpose(2, 0, 1), right.T[..., None])[..., 0].T)
    x = right.copy()
    for j in range(size - 1):
        factor = matrix[j + 1 :, j] / matrix[j, j]
        matrix[j + 1 :, j + 1 :] -= factor[:, None] * matrix[j, j + 1 :]
        x[j + 1 :] -= factor * x[j]
    for j in range(size - 1, -1, -1):
        x[j] = (x[j] - (matrix[j, j + 1 :] * x[j + 1 :]).sum(0)) / matrix[j, j]
    return x


def _choose(kept: Flags, new: State, old: State) -> State:
    """Return the new state where the step was kept, else the old one."""
    return State._make(np.where(kept, n, o) for n, o in zip(new, old, strict=True))


def _empty(balls: int, count: int) -> Equilibrium:
    """Return a result with room for `count` cases."""
    return Equilibrium(
        q=np.empty((FREEDOMS, count)),
        ball_load=np.empty((balls, count)),
        axial=np.empty((balls, count)),
        radial=np.empty((balls, count)),
        energy=np.empty(count),
        residual=np.empty(count),
        iterations=np.empty(count, dtype=np.int64),
    )


def _retire(
    result: Equilibrium,
    batch: _Batch,
    state: State,
    residual: Array,
    done: Flags,
    iteration: int,
) -> None:
    """Write the finished cases into `result`."""
    where = batch.case[done]
    energy = state.strain - (batch.force * batch.q).sum(0)
    values = (batch.q, state.ball_load, state.axial, state.radial, energy, residual)
    for target, value in zip(result[:-1], values, strict=True):
        target[..., where] = value[..., done]
    result.iterations[where] = iteration


def _keep(pair: PairArrays, batch: _Batch, state: State, keep: Flags) -> tuple[PairArrays, _Batch, State]:
    """Return only the cases still to be solved; arrays all cases share stay as they are."""
    if pair.lever.shape[-1] != 1:
        pair = PairArrays._make(array if array.shape[-1] == 1 else array[..., keep] for array in pair)
    batch = _Batch._make(array[..., keep] for array in batch)
    return pair, batch, State._make(array[..., keep] for array in state)
