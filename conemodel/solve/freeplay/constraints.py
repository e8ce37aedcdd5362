"""What keeps the shell from moving: no groove centre vector is longer than its touching length."""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.solve.equilibrium.energy import product_table
from conemodel.solve.equilibrium.kinematics import FREEDOMS, PairArrays

Integers = npt.NDArray[np.int64]

SHELL = FREEDOMS - 1
"""Freedoms of the shell alone: without load, axle and shell do not yield."""


class Constraints(NamedTuple):
    """The constraints of n cases in h hubs; the cases of a hub stand together, hubs in order.

    `rate` (h, 5, 2Z) of the axial parts, then the radial ones, and `table` (h, 25, 3Z) of their products;
    `hub` (n,) of each case; `rest` (2Z, n) and touching length `touch` (Z, n).
    """

    rate: Array
    table: Array
    hub: Integers
    rest: Array
    touch: Array

    def select(self, cases: npt.NDArray[np.bool_]) -> "Constraints":
        """Return the constraints of some of the cases (n,)."""
        return self._replace(
            hub=self.hub[cases], rest=self.rest.compress(cases, -1), touch=self.touch.compress(cases, -1)
        )

    def times(self, matrices: Array, columns: Array) -> Array:
        """Return each of `columns` (b, n) times its hub's own of `matrices` (h, a, b): (a, n)."""
        result = np.empty((matrices.shape[1], columns.shape[1]))
        bounds = np.searchsorted(self.hub, np.arange(len(matrices) + 1))
        for matrix, first, last in zip(matrices, bounds[:-1], bounds[1:], strict=True):
            np.matmul(matrix, columns[:, first:last], out=result[:, first:last])
        return result


def constraints_of(pair: PairArrays, end_play: Array, hub: Integers | None = None) -> Constraints:
    """Return the constraints under `end_play` (n,) [m], of one hub or of the `hub` (n,) that each case has."""
    which = np.zeros(end_play.size, dtype=np.int64) if hub is None else hub
    rates = (pair.axial_rate, pair.radial_rate)
    # each hub's matrix laid out by itself, so that its products run alike whatever hubs stand beside it
    axial, radial = (np.ascontiguousarray(np.moveaxis(rate[:SHELL], -1, 0)) for rate in rates)
    return Constraints(
        rate=np.concatenate((axial, radial), axis=-1),
        table=product_table(axial, radial),
        hub=which,
        rest=np.concatenate(
            (pair.axial_rest.take(which, -1) - end_play / 2, pair.radial_rest.take(which, -1))
        ),
        touch=pair.touch.take(which, -1),
    )


def groove_vectors(constraints: Constraints, q: Array) -> tuple[Array, Array]:
    """Return the axial and the radial part of every groove centre vector at `q` (5, n), each (Z, n) [m]."""
    return halves(constraints.times(constraints.rate.swapaxes(-1, -2), q) + constraints.rest)


def halves(both: Array) -> tuple[Array, Array]:
    """Return the axial and the radial half of `both` (2Z, n)."""
    balls = len(both) // 2
    return both[:balls], both[balls:]
