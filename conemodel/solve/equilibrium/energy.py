"""The energy of the pair, its gradient and its Hessian, for many cases at once.

Elastic energy of the balls (2/5 K δ^2.5 each) and of axle and shell, less the work of the load. It is convex,
because the distance between groove centres is the norm of a linear function of the unknowns: a minimum that is
found is the least of all, and the only one where the balls hold the shell.
"""

from typing import NamedTuple

import numpy as np

from conemodel.base.units import Array, Floats
from conemodel.solve.equilibrium.kinematics import FREEDOMS, PairArrays


class EnergyState(NamedTuple):
    """Everything known at a position q (6, n) of the shell.

    `strain` (n,): elastic energy [J]; `gradient` (6, n): force still unbalanced [N]; `ball_load` (Z, n) [N];
    `curvature` (3Z, n): second derivatives to the groove centre vector, axial, mixed, then radial [N/m].
    """

    strain: Array
    gradient: Array
    ball_load: Array
    curvature: Array


def groove_centres(pair: PairArrays, q: Array, end_play: Array) -> tuple[Array, Array]:
    """Return the inboard and the radial part of every groove centre vector at `q` (6, n), each (Z, n) [m]."""
    axial = sum_over_freedoms(pair.axial_rate, q)
    axial += pair.axial_rest
    axial -= end_play / 2
    radial = sum_over_freedoms(pair.radial_rate, q)
    radial += pair.radial_rest
    return axial, radial


def evaluate(
    pair: PairArrays, q: Array, *, end_play: Array, force: Array, softness: Floats = 1.0
) -> EnergyState:
    """Return the state at `q` (6, n) under `end_play` (n,) [m] and the generalised `force` (6, n) [N].

    `softness` (n,) [-] scales the stiffness of the balls; 1 is the hub itself. It works in place, without
    temporary arrays: most of the time of a solution is spent here, in moving memory.
    """
    axial, radial = groove_centres(pair, q, end_play)
    balls = axial.shape[0]
    curvature = np.empty((3 * balls, axial.shape[1]))
    aa, ar, rr = curvature[:balls], curvature[balls:-balls], curvature[-balls:]
    np.multiply(axial, axial, out=aa)
    np.multiply(axial, radial, out=ar)
    np.multiply(radial, radial, out=rr)
    square = aa + rr
    length = np.sqrt(square)
    approach = length - pair.touch
    np.maximum(approach, 0.0, out=approach)
    rate = np.sqrt(approach)
    rate *= pair.load_constant * softness
    ball_load = rate * approach
    turn = ball_load / length  # stiffness across the line of contact; along it 1.5 K δ^0.5
    approach *= ball_load
    strain = 0.4 * approach.sum(0) + 0.5 * q[5] * q[5]
    gradient = sum_over_balls(pair.axial_rate, turn * axial)
    gradient += sum_over_balls(pair.radial_rate, turn * radial)
    gradient -= force
    gradient[5] += q[5]
    rate *= 1.5
    rate -= turn
    rate /= square
    aa *= rate
    aa += turn
    ar *= rate
    rr *= rate
    rr += turn
    return EnergyState(strain, gradient, ball_load, curvature)


def rate_products(pair: PairArrays) -> Array | None:
    """Return the table (36, 3Z) that makes a Hessian of curvatures, or None if each case is its own hub."""
    if pair.lever.shape[-1] != 1:
        return None
    return product_table(pair.axial_rate[..., 0], pair.radial_rate[..., 0])


def product_table(axial: Array, radial: Array) -> Array:
    """Return the products of rates (..., m, Z) with each other, for curvatures as in `EnergyState`: (..., m², 3Z)."""
    size = axial.shape[-2]
    a, r = axial[..., :, None, :], radial[..., :, None, :]
    aa, ar, rr = (left * right.swapaxes(-3, -2) for left, right in ((a, a), (a, r), (r, r)))
    table = np.concatenate((aa, ar + ar.swapaxes(-3, -2), rr), axis=-1)
    return np.ascontiguousarray(table.reshape(*axial.shape[:-2], size * size, -1))


def hessian(pair: PairArrays, state: EnergyState, table: Array | None) -> Array:
    """Return the second derivatives of the energy (6, 6, n) [N/m]; `table` is `rate_products(pair)`."""
    count = state.strain.shape[-1]
    if table is not None:
        result = (table @ state.curvature).reshape(FREEDOMS, FREEDOMS, count)
    else:
        result = _hessian_each(pair, state, count)
    result[5, 5] += 1.0  # the energy of axle and shell is q5^2 / 2
    return result


def _hessian_each(pair: PairArrays, state: EnergyState, count: int) -> Array:
    """Return the balls' part of the Hessian (6, 6, n) [N/m] when every case is a hub of its own."""
    aa, ar, rr = np.split(state.curvature, 3)
    result = np.empty((FREEDOMS, FREEDOMS, count))
    for i in range(FREEDOMS):
        a, r = pair.axial_rate[i], pair.radial_rate[i]
        row = sum_over_balls(pair.axial_rate[: i + 1], aa * a + ar * r)
        row += sum_over_balls(pair.radial_rate[: i + 1], ar * a + rr * r)
        result[i, : i + 1] = result[: i + 1, i] = row
    return result


def sum_over_freedoms(rate: Array, q: Array) -> Array:
    """Return `rate` (6, Z, n) times `q` (6, n), summed over the freedoms: (Z, n)."""
    if rate.shape[-1] == 1:
        moved: Array = rate[..., 0].T @ q
        return moved
    each: Array = np.einsum("izn,in->zn", rate, q)
    return each


def sum_over_balls(rate: Array, ball: Array) -> Array:
    """Return `rate` (6, Z, n) times `ball` (Z, n), summed over the balls: (6, n)."""
    if rate.shape[-1] == 1:
        gathered: Array = rate[..., 0] @ ball
        return gathered
    each: Array = np.einsum("izn,zn->in", rate, ball)
    return each
