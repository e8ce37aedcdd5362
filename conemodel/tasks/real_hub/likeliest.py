"""The likeliest hub and hand for some readings, and how far each of those lies from what the others foretell."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from scipy.optimize import least_squares

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array
from conemodel.tasks.real_hub.readings import Reading
from conemodel.tasks.real_hub.unknown_hub import UnknownHub

NUDGE = 1e-4
"""Step of the derivatives, in standard deviations of an unknown."""

ROUNDS = 3
"""How often the errors of the readings are taken anew at the likeliest hub: they hang on its threshold."""


class Likeliest(NamedTuple):
    """The likeliest hub `z` (d,), the readings' misses and their errors there (r,) [m], and the slopes (r + d, d)."""

    z: Array
    miss: Array
    spread: Array
    slope: Array


def find_likeliest(hub: UnknownHub, readings: Sequence[Reading]) -> Likeliest:
    """Return the likeliest hub.

    Raises:
        NotConverged: no balance of forces, or no likeliest hub, was found.
    """
    z, spread = np.zeros(hub.size), np.ones(len(readings))
    for _ in range(ROUNDS):
        at = hub.show(z[None])
        spread = np.array([reading.spread(hub, at) for reading in readings])
        found = least_squares(_residuals_at, z, jac=_slope, method="lm", args=(hub, readings, spread))
        if not found.success:
            raise NotConverged(f"no likeliest hub was found for these readings: {found.message}")
        z = found.x
    return Likeliest(z, found.fun[: len(readings)] * spread, spread, _slope(z, hub, readings, spread))


def _residuals_at(z: Array, hub: UnknownHub, readings: Sequence[Reading], spread: Array) -> Array:
    """Return the residuals of one hub (r + d,)."""
    return np.asarray(residuals(hub, readings, z[None], spread)[0])


def residuals(hub: UnknownHub, readings: Sequence[Reading], z: Array, spread: Array) -> Array:
    """Return misses in standard errors and the unknowns themselves: (n, r + d) for `z` (n, d)."""
    shown = hub.show(z)
    misses = [reading.miss(hub, shown) / error for reading, error in zip(readings, spread, strict=True)]
    return np.concatenate((np.reshape(misses, (len(readings), len(z))).T, z), axis=1)


def _slope(z: Array, hub: UnknownHub, readings: Sequence[Reading], spread: Array) -> Array:
    """Return how the residuals change with each unknown (r + d, d)."""
    nudges = NUDGE * np.eye(z.size)
    up, down = np.split(residuals(hub, readings, np.concatenate((z + nudges, z - nudges)), spread), 2)
    return np.asarray((up - down).T / (2 * NUDGE))


def deleted_residuals(found: Likeliest) -> Array:
    """Return how far each reading lies from what the others foretell of it (r,), in standard errors [-]."""
    rows = found.slope[: found.miss.size]
    leverage = np.einsum("ri,ri->r", rows, np.linalg.solve(found.slope.T @ found.slope, rows.T).T)
    return np.asarray(found.miss / found.spread / np.sqrt(np.maximum(1 - leverage, 1e-9)))
