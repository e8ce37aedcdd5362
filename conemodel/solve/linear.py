"""Small systems of linear equations, many at once."""

import numpy as np

from conemodel.base.units import Array

_SMALL_BATCH = 128
"""Below this many systems LAPACK's overhead is less than that of array-wide elimination."""


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
