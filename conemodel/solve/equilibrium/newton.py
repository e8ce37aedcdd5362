"""Newton's method on the energy of the pair, damped where balls are loose, many cases at once.

Each case has its own damping, since a loose direction has no stiffness, and its own longest step, since the
Hessian at one contact state says nothing of balls that come to carry beyond it. A step is kept only if it lowers
the energy enough; cases in balance leave the batch, so that slow ones do not hold up the rest.
"""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.solve.equilibrium.batched_ldl import solve_each
from conemodel.solve.equilibrium.energy import EnergyState, evaluate, hessian, rate_products
from conemodel.solve.equilibrium.initial_guess import first_guess, first_softness
from conemodel.solve.equilibrium.kinematics import FREEDOMS, PairArrays

Flags = npt.NDArray[np.bool_]
Integers = npt.NDArray[np.int64]

BALANCE = 1e-8
"""Unbalanced force over load scale at which a case is finished; a hundredth of what is promised [-]."""

FORCE_FLOOR = 1e-3
"""Least load scale [N]: the weight of a tenth of a gram."""

MOST_STEPS = 200
"""Steps after which a case is given up as not converged; ten to twenty are usual."""

_FIRST_REACH = 25e-6
"""Longest first step of a ball [m], about the interference of a firmly preloaded hub."""

_STIFFEN, _NEAR_ENOUGH = 30.0, 0.05
"""Factor by which soft balls are made stiffer, once the unbalanced force is down to this share [-]."""

_FIRST_DAMPING = 1e-3
_LEAST_DAMPING, _MOST_DAMPING = 1e-9, 1e3
_ARMIJO = 1e-4
_TINY = 1e-300  # keeps 0 / 0 at 0
_NOISE = 1e-9
"""Expected gain over energy below which rounding hides the gain, and the slope decides instead [-]."""


class Equilibrium(NamedTuple):
    """Where the shell comes to rest: arrays with the cases last. `q` (6, n) as in `PairArrays`."""

    q: Array
    ball_load: Array
    energy: Array
    residual: Array
    iterations: Integers


class _Batch(NamedTuple):
    """The cases not yet in balance; every field has the cases last."""

    case: Integers
    end_play: Array
    force: Array
    q: Array
    damping: Array
    reach: Array
    softness: Array


def find_equilibrium(pair: PairArrays, *, end_play: Array, force: Array) -> Equilibrium:
    """Find the rest position for `end_play` (n,) [m] and generalised `force` (6, n) [N] on the unknowns q.

    Each case has the same result, to the last digit, whatever is solved beside it in hubs of their own.
    """
    count = end_play.shape[-1]
    if count == 1:
        twice = _never_lone(np.arange(1))
        found = find_equilibrium(pair.of_hubs(twice), end_play=end_play[twice], force=force[:, twice])
        return Equilibrium._make(field[..., :1] for field in found)
    result = _empty(pair.touch.shape[0], count)
    if not count:
        return result
    batch = _Batch(
        case=np.arange(count),
        end_play=end_play,
        force=force,
        q=first_guess(pair, end_play=end_play, force=force),
        damping=np.full(count, _FIRST_DAMPING),
        reach=np.full(count, _FIRST_REACH),
        softness=first_softness(pair, end_play=end_play, force=force),
    )
    state = _evaluate(pair, batch, batch.q)
    table = rate_products(pair)
    for iteration in range(MOST_STEPS + 1):
        residual = residual_of(pair, state, batch.force)
        done = ((residual <= BALANCE) & (batch.softness == 1)) | (iteration == MOST_STEPS)
        if done.any():
            _retire(result, batch, state, residual, done, iteration)
            if done.all():
                break
            pair, batch, state = _part(pair, batch, state, _never_lone(np.flatnonzero(~done)))
        if batch.softness.min() < 1:
            batch = _stiffer(pair, batch, state)
        batch, state = _step(pair, batch, state, table)
    return result


def _stiffer(pair: PairArrays, batch: _Batch, state: EnergyState) -> _Batch:
    """Raise the stiffness of the balls in cases near balance, and reset the damping that suited the old stiffness.

    `state` is worked out again, in place, in those cases.
    """
    near = (batch.softness < 1) & (residual_of(pair, state, batch.force, floor=_TINY) < _NEAR_ENOUGH)
    if not near.any():
        return batch
    batch = batch._replace(
        softness=np.where(near, np.minimum(batch.softness * _STIFFEN, 1.0), batch.softness),
        damping=np.where(near, _FIRST_DAMPING, batch.damping),
        reach=np.where(near, _FIRST_REACH, batch.reach),
    )
    cases = _never_lone(np.flatnonzero(near))
    part, some, _ = _part(pair, batch, state, cases)
    for to, new in zip(state, _evaluate(part, some, some.q), strict=True):
        to[..., cases] = new
    return batch


def _evaluate(pair: PairArrays, batch: _Batch, q: Array) -> EnergyState:
    """Return the state of the batch at `q`."""
    return evaluate(pair, q, end_play=batch.end_play, force=batch.force, softness=batch.softness)


def residual_of(pair: PairArrays, state: EnergyState, force: Array, *, floor: float = FORCE_FLOOR) -> Array:
    """Return the largest unbalanced force, of shell or preload, over the load scale (n,) [-]."""
    scale = np.maximum(state.ball_load.max(0), np.abs(force).max(0))
    shell = np.abs(state.gradient[:5]).max(0)
    preload = np.abs(state.gradient[5]) / np.maximum(pair.stretch, _TINY)  # both 0 for a rigid axle
    residual: Array = np.maximum(shell, preload) / np.maximum(scale, floor)
    return residual


def _step(
    pair: PairArrays, batch: _Batch, state: EnergyState, table: Array | None
) -> tuple[_Batch, EnergyState]:
    """Try one damped Newton step in every case and keep those that lower the energy."""
    matrix = hessian(pair, state, table)
    # the stiffness of the whole complement at the reach of the first step sets the size of the damping
    firm = batch.softness * (pair.load_constant.sum(0) * np.sqrt(_FIRST_REACH))
    matrix[range(5), range(5)] += batch.damping * firm
    move = solve_each(matrix, -state.gradient)
    longest = np.abs(move[:5]).max(0)
    clipped = longest > batch.reach
    move *= np.where(clipped, batch.reach / np.maximum(longest, _TINY), 1.0)
    trial = batch.q + move
    there = _evaluate(pair, batch, trial)

    slope, slope_there = (state.gradient * move).sum(0), (there.gradient * move).sum(0)
    work = (batch.force * move).sum(0)
    gain = there.strain - state.strain - work
    noise = _NOISE * (state.strain + np.abs((batch.force * trial).sum(0)))
    # on a convex energy a slope still downhill means the energy fell all the way
    kept = (slope_there <= 0) | (gain <= _ARMIJO * slope)
    kept |= (-slope < noise) & (np.abs(slope_there) < -0.5 * slope)
    over = slope_there / np.maximum(-slope, _TINY)  # how far the step overshot; below 0 it fell short
    ease = np.where(over < 0.3, 0.1, np.where(over < 0.7, 0.5, 1.0))
    damping = np.clip(batch.damping * np.where(kept, ease, 4.0), _LEAST_DAMPING, _MOST_DAMPING)
    longer = np.where(clipped & (slope_there < 0), 2 * batch.reach, batch.reach)
    reach = np.where(kept, longer, 0.3 * np.minimum(longest, batch.reach))
    batch = batch._replace(q=np.where(kept, trial, batch.q), damping=damping, reach=reach)
    return batch, there if kept.all() else _choose(kept, there, state)


def _choose(kept: Flags, new: EnergyState, old: EnergyState) -> EnergyState:
    """Return the new state where the step was kept, else the old one."""
    return EnergyState._make(np.where(kept, n, o) for n, o in zip(new, old, strict=True))


def _empty(balls: int, count: int) -> Equilibrium:
    """Return a result with room for `count` cases."""
    return Equilibrium(
        q=np.empty((FREEDOMS, count)),
        ball_load=np.empty((balls, count)),
        energy=np.empty(count),
        residual=np.empty(count),
        iterations=np.empty(count, dtype=np.int64),
    )


def _retire(
    result: Equilibrium,
    batch: _Batch,
    state: EnergyState,
    residual: Array,
    done: Flags,
    iteration: int,
) -> None:
    """Write the finished cases into `result`."""
    where = batch.case[done]
    energy = state.strain - (batch.force * batch.q).sum(0)
    values = (batch.q, state.ball_load, energy, residual)
    for target, value in zip(result[:-1], values, strict=True):
        target[..., where] = value[..., done]
    result.iterations[where] = iteration


def _never_lone(cases: Integers) -> Integers:
    """Return the numbers of `cases`, one alone twice: sums over arrays one case wide run in another order."""
    return cases.repeat(2) if cases.size == 1 else cases


def _part(
    pair: PairArrays, batch: _Batch, state: EnergyState, cases: Integers
) -> tuple[PairArrays, _Batch, EnergyState]:
    """Return only the `cases` of those numbers; arrays all cases share stay as they are."""
    if pair.lever.shape[-1] != 1:
        pair = PairArrays._make(array if array.shape[-1] == 1 else array.take(cases, -1) for array in pair)
    batch = _Batch._make(array.take(cases, -1) for array in batch)
    return pair, batch, EnergyState._make(array.take(cases, -1) for array in state)
