"""A polynomial through a few nodes, in Lagrange's form."""

from collections.abc import Sequence

import numpy as np

from conemodel.base.units import Array


def lagrange_weights(value: Array, nodes: Sequence[float]) -> Array:
    """Return the share of each node in a polynomial through all of them, at `value` (n,): (n, nodes).

    >>> lagrange_weights(np.array([0.25]), (0.0, 1.0))
    array([[0.75, 0.25]])
    """
    found = np.ones((value.size, len(nodes)))
    for i, node in enumerate(nodes):
        for other in (*nodes[:i], *nodes[i + 1 :]):
            found[:, i] *= (value - other) / (node - other)
    return found
