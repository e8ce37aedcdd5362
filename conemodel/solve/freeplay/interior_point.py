"""How far the shell can move before a ball is pinched: a convex programme and its own solver.

Greatest c·q such that no groove centre vector is longer than its touching length. The constraints are concave
quadratics, so the feasible set is convex: a logarithmic barrier keeps every iterate inside it, Newton's method
follows the central path with the multipliers as unknowns of their own (primal-dual), and any multipliers bound
the maximum from above (weak duality): the gap between the two is the proof.
"""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from conemodel.base.ordered_sum import sum_in_order
from conemodel.base.units import Array
from conemodel.solve.equilibrium.batched_ldl import factor, solve_each, solve_factored
from conemodel.solve.freeplay.constraints import SHELL, Constraints, Integers, groove_vectors, halves

GAP = 1e-10
"""Distance between reached and provable movement at which a case is finished [m]."""

_MOST_STEPS = 80

_CLOSEST = 0.99  # of the way to the nearest constraint
_LEAST_DUE = 0.1  # of the complementarity aimed for, for each ball: less would steer into its constraint


class GreatestMovement(NamedTuple):
    """Greatest movement `value` (n,) [m], where it is reached `q` (5, n), and the proof `gap` (n,) [m].

    `slope` (n,) [-] is how fast the movement grows with end play.
    """

    value: Array
    q: Array
    gap: Array
    slope: Array


class _Iterate(NamedTuple):
    """Room `slack` (Z, n) [m²] left at q, the groove centre vectors, and the multipliers (Z, n)."""

    q: Array
    multiplier: Array
    axial: Array
    radial: Array
    slack: Array


def maximise_movement(constraints: Constraints, *, direction: Array, start: Array) -> GreatestMovement:
    """Maximise `direction` (5, n) · q from a `start` (5, n) strictly inside the `constraints`."""
    count = start.shape[-1]
    result = GreatestMovement(np.zeros(count), start.copy(), np.full(count, np.inf), np.zeros(count))
    point = _at(constraints, start, np.empty(0))
    size = (
        np.abs(direction).max(0)
        * sum_in_order(point.slack / (2 * constraints.touch))
        / len(constraints.touch)
    )
    point = point._replace(multiplier=size / point.slack)
    case = np.arange(count)
    for _ in range(_MOST_STEPS):
        near = sum_in_order(point.multiplier * point.slack) <= GAP
        if near.any():  # another step could bring them too close to a constraint for rounding
            gap = np.full(case.size, np.inf)
            gap[near] = _gap(constraints.select(near), _part(point, near), direction.compress(near, -1))
            done = gap <= GAP
            _retire(result, case[done], _part(point, done), direction.compress(done, -1), gap[done])
            constraints, point, direction = (
                constraints.select(~done),
                _part(point, ~done),
                direction.compress(~done, -1),
            )
            case = case[~done]
        if not case.size:
            break
        point = _step(constraints, point, direction)
    else:
        _retire(result, case, point, direction, _gap(constraints, point, direction))
    return result


def _retire(result: GreatestMovement, case: Integers, point: _Iterate, direction: Array, gap: Array) -> None:
    """Write what the finished cases have come to into `result`.

    The slope is that of the Lagrangian (envelope theorem): end play takes half of itself off every axial part.
    """
    slope = sum_in_order(point.multiplier * point.axial)
    for field, value in zip(result, (sum_in_order(direction * point.q), point.q, gap, slope), strict=True):
        field[..., case] = value


def _part(point: _Iterate, cases: npt.NDArray[np.bool_]) -> _Iterate:
    """Return some of the cases (n,) of a point."""
    return _Iterate._make(field.compress(cases, -1) for field in point)


def _at(constraints: Constraints, q: Array, multiplier: Array) -> _Iterate:
    """Return the point at `q`."""
    axial, radial = groove_vectors(constraints, q)
    return _Iterate(q, multiplier, axial, radial, constraints.touch**2 - axial**2 - radial**2)


def _push(constraints: Constraints, point: _Iterate, weight: Array) -> Array:
    """Return the sum over the balls of `weight` (Z, n) times the outward normal of each constraint (5, n)."""
    return 2 * constraints.times(
        constraints.rate, np.concatenate((weight * point.axial, weight * point.radial))
    )


def _matrix(constraints: Constraints, aa: Array, ar: Array, rr: Array) -> Array:
    """Return the sum over the balls of the weighted products of their rates (5, 5, n)."""
    return constraints.times(constraints.table, np.concatenate((aa, ar, rr))).reshape(SHELL, SHELL, -1)


def _gap(constraints: Constraints, point: _Iterate, direction: Array) -> Array:
    """Return how much further the movement could be at most, by Lagrange duality.

    With the multipliers held, the Lagrangian is a quadratic whose least value is known exactly, whether or not
    the point is well centred.
    """
    curve = 2 * point.multiplier
    out_of_balance = _push(constraints, point, point.multiplier) - direction
    back = solve_each(_matrix(constraints, curve, 0 * curve, curve), out_of_balance)
    gap: Array = sum_in_order(point.multiplier * point.slack) + 0.5 * sum_in_order(out_of_balance * back)
    return gap


def _step(constraints: Constraints, point: _Iterate, direction: Array) -> _Iterate:
    """Take one step: predict with the linearised constraints, then correct for their curvature.

    The prediction shows how far complementarity can be reduced in this step, hence how near to the optimum to aim;
    the correction uses the same factors once more, so it costs little beside another step.

    Source: [Mehrotra1992], predictor and corrector.
    """
    slack, multiplier = point.slack, point.multiplier
    curve, steep = 2 * multiplier, 4 * multiplier / slack
    matrix = _matrix(
        constraints,
        curve + steep * point.axial**2,
        steep * point.axial * point.radial,
        curve + steep * point.radial**2,
    )
    factor(matrix)
    ahead = _move(constraints, point, solve_factored(matrix, direction), np.zeros(1))
    present = sum_in_order(multiplier * slack) / len(slack)
    left = multiplier + ahead.length * ahead.multiplier
    left *= slack + ahead.length * (ahead.change - ahead.length * ahead.bend)
    aim = present * (sum_in_order(left) / len(left) / present) ** 3
    # what the prediction left out: the products of its own changes, over the length it could be followed
    gone = ahead.length**2 * ahead.multiplier * (ahead.change - ahead.bend)
    due = np.maximum(aim - gone + multiplier * ahead.bend, _LEAST_DUE * aim)
    weight = due / slack
    turned = (
        weight * point.axial + ahead.multiplier * ahead.axial,
        weight * point.radial + ahead.multiplier * ahead.radial,
    )
    rest = direction - 2 * constraints.times(constraints.rate, np.concatenate(turned))
    move = _move(constraints, point, solve_factored(matrix, rest), due)
    return _Iterate(
        q=point.q + move.length * move.q,
        multiplier=multiplier + move.length * move.multiplier,
        axial=point.axial + move.length * move.axial,
        radial=point.radial + move.length * move.radial,
        slack=slack + move.length * (move.change - move.length * move.bend),
    )


class _SearchDirection(NamedTuple):
    """A move `q` (5, n), what it does to groove centres and multipliers, and how much of it to take, `length` (n,).

    Taken in part, the slack changes by length `change` less length² `bend` (Z, n) [m²].
    """

    q: Array
    multiplier: Array
    axial: Array
    radial: Array
    change: Array
    bend: Array
    length: Array


def _move(constraints: Constraints, point: _Iterate, q: Array, due: Array) -> _SearchDirection:
    """Return the move `q` (5, n) towards products `due` (Z, n) of slack and multiplier."""
    slack, multiplier = point.slack, point.multiplier
    axial, radial = halves(constraints.times(constraints.rate.swapaxes(-1, -2), q))
    change = -2 * (axial * point.axial + radial * point.radial)
    bend = axial**2 + radial**2
    change_multiplier = (due - multiplier * change) / slack - multiplier
    # the slack along the way is a concave quadratic: its root, here one over it, is where the constraint is met
    met = (np.sqrt(change**2 + 4 * bend * slack) - change) / (2 * slack)
    soonest = np.maximum(met, -change_multiplier / multiplier).max(0)  # constraint met or multiplier zero
    length = 1 / np.maximum(1.0, soonest / _CLOSEST)
    return _SearchDirection(q, change_multiplier, axial, radial, change, bend, length)
