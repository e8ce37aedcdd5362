"""How far the shell can move before a ball is pinched: a convex programme and its own solver.

Greatest c·q such that no groove centre vector is longer than its touching length. The constraints are concave
quadratics, so a log barrier keeps the way inside, Newton's method follows it with the multipliers as unknowns
of their own (primal and dual together), and any multipliers at all bound the answer from the other side: the
gap between the two is the proof.
"""

from typing import NamedTuple

import numpy as np

from conemodel.base.units import Array
from conemodel.solve.energy import products
from conemodel.solve.geometry import FREEDOMS, PairArrays
from conemodel.solve.linear import solve_each

GAP = 1e-10
"""Distance between reached and provable movement at which a case is finished [m]."""

_MOST_STEPS = 80
SHELL = FREEDOMS - 1
"""Freedoms of the shell alone: without load, axle and shell do not yield."""

_LEAST_CENTRING, _MOST_CENTRING = 0.05, 0.9  # share of the complementarity to aim for next
_CLOSEST = 0.99  # of the way to the nearest wall


class Furthest(NamedTuple):
    """Greatest movement `value` (n,) [m], where it is reached `q` (5, n), and the proof `gap` (n,) [m]."""

    value: Array
    q: Array
    gap: Array


class _Point(NamedTuple):
    """Room `slack` (Z, n) [m²] left at q, the groove centre vectors, and the multipliers (Z, n)."""

    q: Array
    multiplier: Array
    axial: Array
    radial: Array
    slack: Array


class Walls(NamedTuple):
    """The constraints: rates of axial (above) and radial (below) parts (5, 2Z), their rest, touching length."""

    rate: Array
    rest: Array
    touch: Array
    table: Array


def walls_of(pair: PairArrays, end_play: Array) -> Walls:
    """Return the constraints of one hub under `end_play` (n,) [m]."""
    rate = np.concatenate((pair.axial_rate[:SHELL, :, 0], pair.radial_rate[:SHELL, :, 0]), axis=-1)
    radial = np.broadcast_to(pair.radial_rest, (pair.radial_rest.shape[0], end_play.size))
    rest = np.concatenate((pair.axial_rest - end_play / 2, radial))
    table = products(pair)
    assert table is not None, "free play is worked out for one hub at a time"
    table = table.reshape(FREEDOMS, FREEDOMS, -1)[:SHELL, :SHELL].reshape(SHELL**2, -1)
    return Walls(rate, rest, pair.touch, np.ascontiguousarray(table))


def furthest(walls: Walls, *, direction: Array, start: Array) -> Furthest:
    """Maximise `direction` (5, n) · q from a `start` (5, n) strictly inside the walls."""
    point = _at(walls, start, np.empty(0))
    length = np.full(start.shape[-1], 0.5)
    size = np.abs(direction).max(0) * (point.slack / (2 * walls.touch)).mean(0)
    point = point._replace(multiplier=size / point.slack)
    gap = np.full(start.shape[-1], np.inf)
    for _ in range(_MOST_STEPS):
        if (point.multiplier * point.slack).sum(0).min() <= GAP:
            gap = np.minimum(gap, _gap(walls, point, direction))
        if (gap <= GAP).all():
            break
        # a short step says that the way runs along a wall: go back to the middle before going on
        share = np.clip((1 - length) ** 2, _LEAST_CENTRING, _MOST_CENTRING)
        point, length = _step(walls, point, direction, share * (gap > GAP))
    return Furthest((direction * point.q).sum(0), point.q, gap)


def sides(walls: Walls, q: Array) -> tuple[Array, Array]:
    """Return the axial and the radial part of every groove centre vector at `q` (5, n), each (Z, n) [m]."""
    axial, radial = np.split(walls.rate.T @ q + walls.rest, 2)
    return axial, radial


def _at(walls: Walls, q: Array, multiplier: Array) -> _Point:
    """Return the point at `q`."""
    axial, radial = sides(walls, q)
    return _Point(q, multiplier, axial, radial, walls.touch**2 - axial**2 - radial**2)


def _push(walls: Walls, point: _Point, weight: Array) -> Array:
    """Return the sum over the balls of `weight` (Z, n) times the outward normal of each wall (5, n)."""
    push: Array = 2 * (walls.rate @ np.concatenate((weight * point.axial, weight * point.radial)))
    return push


def _matrix(walls: Walls, aa: Array, ar: Array, rr: Array) -> Array:
    """Return the sum over the balls of the weighted products of their rates (5, 5, n)."""
    return (walls.table @ np.concatenate((aa, ar, rr))).reshape(SHELL, SHELL, -1)


def _gap(walls: Walls, point: _Point, direction: Array) -> Array:
    """Return how much further the movement could be at most, by Lagrange duality.

    With the multipliers held, the Lagrangian is a quadratic whose least value is known exactly, whether or not
    the point is well centred.
    """
    curve = 2 * point.multiplier
    out_of_balance = _push(walls, point, point.multiplier) - direction
    back = solve_each(_matrix(walls, curve, 0 * curve, curve), out_of_balance)
    gap: Array = (point.multiplier * point.slack).sum(0) + 0.5 * (out_of_balance * back).sum(0)
    return gap


def _step(walls: Walls, point: _Point, direction: Array, share: Array) -> tuple[_Point, Array]:
    """Take one Newton step towards `share` (n,) of the present complementarity; a case with share 0 stays.

    Also returns how much of the step was taken before a wall came too close (n,).
    """
    slack, multiplier = point.slack, point.multiplier
    aim = share * (multiplier * slack).mean(0)
    curve, steep = 2 * multiplier, 4 * multiplier / slack
    matrix = _matrix(
        walls,
        curve + steep * point.axial**2,
        steep * point.axial * point.radial,
        curve + steep * point.radial**2,
    )
    matrix[:, :, share == 0] = np.eye(SHELL)[:, :, None]  # a case that stays may lie flat against its walls
    move = solve_each(matrix, direction - _push(walls, point, aim / slack))
    axial, radial = np.split(walls.rate.T @ move, 2)
    change = -2 * (axial * point.axial + radial * point.radial)
    change_multiplier = (aim - multiplier * change) / slack - multiplier
    # the slack along the way is a concave quadratic: its root is where the wall is met
    bend = axial**2 + radial**2
    root = np.sqrt(change**2 + 4 * bend * slack) - change
    wall = (2 * slack / np.maximum(root, 1e-300)).min(0)
    spent = (multiplier / np.maximum(-change_multiplier, 1e-300)).min(0)
    length = np.minimum(1.0, _CLOSEST * np.minimum(wall, spent))
    taken = np.where(share > 0, length, 0.0)
    return _at(walls, point.q + taken * move, multiplier + taken * change_multiplier), length
