"""The likeliest hub and hand for some readings, and how far each of those lies from what the others foretell."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from scipy.stats import chi2, norm

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array
from conemodel.tasks.real_hub.readings import Reading
from conemodel.tasks.real_hub.shown import Shown
from conemodel.tasks.real_hub.unknown_hub import UnknownHub

NUDGE = 1e-4
"""Step of the derivatives, in standard deviations of an unknown."""

ROUNDS = 3
"""How often at most the errors of the readings are taken anew at the likeliest hub: they hang on its threshold."""

LEAST_ROOM = 1e-9
"""Keeps apart from nought what a reading that is all by itself leaves to the others [-]."""

SETTLED = 1e-6
"""Share by which errors, or the squares that are left, may still change [-]."""

MOST_STEPS = 60
"""Steps after which a search that still descends is given up; most take five."""

AS_FORETOLD = 0.25
"""Least share of what a whole step should gain that it must gain [-]: as is usual in such searches."""

DAMPED = 10.0 ** np.arange(-3.0, 7.0, 0.5)
"""Dampings that are tried where a whole step goes too far, as shares of the curvature [-]."""


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
    z = np.zeros(hub.size)
    spread = _errors_at(z, hub, readings)
    for _ in range(ROUNDS):
        used = spread
        z, left, slope = _descend(z, hub, readings, used)
        spread = _errors_at(z, hub, readings)
        if np.allclose(spread, used, rtol=SETTLED):
            break
    return Likeliest(z, left[: len(readings)] * used, used, slope)


def _errors_at(z: Array, hub: UnknownHub, readings: Sequence[Reading]) -> Array:
    """Return the standard errors of the readings of one hub (r,) [m]."""
    at = hub.show(z[None])
    return np.array([reading.spread(hub, at) for reading in readings])


def _descend(
    z: Array, hub: UnknownHub, readings: Sequence[Reading], spread: Array
) -> tuple[Array, Array, Array]:
    """Return where the squares of the residuals are least, those residuals (r + d,) and their slopes (r + d, d).

    Gauss and Newton's step; where it gains less than it should, the lowest of many damped ones. [Marquardt1963]

    Raises:
        NotConverged: it still descends after `MOST_STEPS`.
    """
    left, slope = _residuals_and_slope(z, hub, readings, spread)
    for _ in range(MOST_STEPS):
        curved, down = slope.T @ slope, slope.T @ left
        step = -np.linalg.solve(curved, down)
        at = z + step
        after, its_slope = _residuals_and_slope(at, hub, readings, spread)
        if left @ left - after @ after < AS_FORETOLD * (step @ curved @ step):
            damped = curved + DAMPED[:, None, None] * np.diag(np.diag(curved))
            places = (
                z
                - np.linalg.solve(damped, np.broadcast_to(down, (DAMPED.size, down.size))[..., None])[..., 0]
            )
            tried = residuals(readings, hub, hub.show(places), places, spread)
            at = places[np.argmin((tried**2).sum(axis=1))]
            after, its_slope = _residuals_and_slope(at, hub, readings, spread)
        gained = float(left @ left - after @ after)
        if gained <= 0.0:  # no way leads down: at most a kink
            return z, left, slope
        z, left, slope = at, after, its_slope
        if gained < SETTLED * (1.0 + float(left @ left)):
            return z, left, slope
    raise NotConverged(f"no likeliest hub was found for these readings in {MOST_STEPS} steps")


def residuals(readings: Sequence[Reading], hub: UnknownHub, shown: Shown, z: Array, spread: Array) -> Array:
    """Return misses in standard errors and the unknowns themselves: (n, r + d) for what hubs at `z` (n, d) show."""
    misses = [reading.miss(hub, shown) / error for reading, error in zip(readings, spread, strict=True)]
    return np.concatenate((np.reshape(misses, (len(readings), len(z))).T, z), axis=1)


def _residuals_and_slope(
    z: Array, hub: UnknownHub, readings: Sequence[Reading], spread: Array
) -> tuple[Array, Array]:
    """Return the residuals of one hub (r + d,), and how they change with each unknown (r + d, d)."""
    nudges = NUDGE * np.eye(z.size)
    places = np.concatenate((z[None], z + nudges, z - nudges))
    found = residuals(readings, hub, hub.show(places), places, spread)
    up, down = np.split(found[1:], 2)
    return found[0], np.asarray((up - down).T / (2 * NUDGE))


def deleted_residuals(found: Likeliest, together: Sequence[Sequence[int]], *, from_one: float) -> Array:
    """Return how far each reading lies from what the others foretell of it (r,), in standard errors [-].

    Readings that one slip would spoil `together`, by their places, are held against all others at once, and each gets
    the number of all: their squared distance is chi-squared. It is scaled so that chance carries them beyond
    `from_one` as seldom as one alone.
    """
    rows = found.slope[: found.miss.size]
    leverage = rows @ np.linalg.solve(found.slope.T @ found.slope, rows.T)
    apart, left = found.miss / found.spread, np.zeros(found.miss.size)
    for places in together:
        own = np.ix_(places, places)
        room = np.eye(len(places)) - leverage[own] + LEAST_ROOM * np.eye(len(places))
        far = apart[list(places)]
        limit = chi2.isf(2 * norm.sf(from_one), len(places)) ** 0.5
        left[list(places)] = np.sign(far) * float(far @ np.linalg.solve(room, far)) ** 0.5 * from_one / limit
    return left
