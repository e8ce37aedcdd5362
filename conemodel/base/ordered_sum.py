"""Sums that come to the same, to the last digit, for one case as for many."""

import numpy as np

from conemodel.base.units import Array


def sum_in_order(values: Array) -> Array:
    """Return the sum of `values` (m, n) over the first axis (n,), from first to last in every case.

    Left to itself numpy adds up an array one case wide, or one laid out case by case, in another order.

    >>> sum_in_order(np.array([[1.0, 2.0], [3.0, 4.0]])).tolist()
    [4.0, 6.0]
    """
    laid = np.ascontiguousarray(values if values.shape[-1] > 1 else values.repeat(2, -1))
    return np.asarray(laid.sum(0)[: values.shape[-1]])
