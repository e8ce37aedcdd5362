"""Small systems of linear equations, many at once."""

import numpy as np

from conemodel.base.units import Array


def solve_each(matrix: Array, right: Array) -> Array:
    """Solve n small symmetric positive systems: `matrix` (m, m, n), `right` (m, n).

    Each by itself, so that none depends on how many there are.

    >>> solve_each(np.array([[[2.0], [1.0]], [[1.0], [3.0]]]), np.array([[5.0], [10.0]])).ravel().tolist()
    [1.0, 3.0]
    """
    return np.asarray(np.linalg.solve(matrix.transpose(2, 0, 1), right.T[..., None])[..., 0].T)


def factor(matrix: Array) -> None:
    """Turn n small symmetric positive matrices (m, m, n) into their factors L D Lᵀ, in place.

    D comes to stand on the diagonal, L below it.
    """
    for j in range(len(matrix) - 1):
        rows = matrix[j + 1 :, j]
        across = rows.copy()
        rows /= matrix[j, j]
        matrix[j + 1 :, j + 1 :] -= rows[:, None] * across


def solve_factored(factors: Array, right: Array) -> Array:
    """Solve n small systems with the `factors` (m, m, n) that `factor` left, `right` (m, n).

    >>> matrix = np.array([[[2.0], [1.0]], [[1.0], [3.0]]])
    >>> factor(matrix)
    >>> solve_factored(matrix, np.array([[5.0], [10.0]])).ravel().tolist()
    [1.0, 3.0]
    """
    x = right.copy()
    size = len(x)
    for j in range(size - 1):
        x[j + 1 :] -= factors[j + 1 :, j] * x[j]
    x /= np.einsum("iin->in", factors)
    for j in range(size - 1, 0, -1):
        x[:j] -= factors[j, :j] * x[j]
    return x
