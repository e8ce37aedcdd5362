"""One fit for everything found on a real hub: the likeliest hub and hand, how sure each number is, what does not fit.

The likeliest hub is a least squares problem in numbers that are all standard normal beforehand (a maximum a posteriori
estimate); how sure it is comes from hubs drawn about it by the curvature there, weighed by how likely they are. A
reading does not fit where it lies further than `MISFIT` standard errors from what all the others and the assumptions
foretell of it: the studentised deleted residual. Sources: [GelmanBDA2013], [CookWeisberg1982]
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from scipy.optimize import least_squares

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array
from conemodel.parts.scenario import Scenario
from conemodel.tasks.hand.estimate import HELD, Interval
from conemodel.tasks.real_hub.readings import Reading
from conemodel.tasks.real_hub.unknown_hub import Shown, UnknownHub, unknown_hub

DRAWS = 2000
"""Hubs drawn about the likeliest: an end of an interval errs by a few hundredths of its width."""

SEED = 7
"""Of the draw: any number, always the same, so that the same readings give the same answer."""

NUDGE = 1e-4
"""Step of the derivatives, in standard deviations of an unknown."""

ROUNDS = 3
"""How often the errors of the readings are taken anew at the likeliest hub: they hang on its threshold."""

MISFIT = 3.0
"""Standard errors from which a reading does not fit [-]: one in 370 goes as far by chance."""

AS_FAR = 0.8
"""Share of the furthest miss from which another is as suspect as it [-]. Judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """One reading beside the fit.

    Attributes:
        reading: as given; miss: by how much it lies above the likeliest hub [m]; spread: its standard error [m].
        deleted: how far it lies from what the others foretell, in standard errors [-].
        left_out: it does not fit, and nothing else rests on it.
    """

    reading: Reading
    miss: float
    spread: float
    deleted: float
    left_out: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A hub and a hand as the readings show them.

    Attributes:
        hub: as described and assumed; readings: each beside the fit.
        shown: what hubs as likely as the readings leave them show; weight: how likely each is (n,), sum 1.
        assumed: what hubs showed before the first reading, all as likely (n,).
        clash: readings, by number, of which one is wrong and nobody can tell which.
    """

    hub: UnknownHub
    readings: tuple[Checked, ...]
    shown: Shown
    weight: Array
    assumed: Shown
    clash: tuple[int, ...] = ()

    def interval(self, of: Callable[[Shown], Array]) -> Interval:
        """Return what is known of a quantity now."""
        return weighted_interval(of(self.shown), self.weight)

    def interval_before(self, of: Callable[[Shown], Array]) -> Interval:
        """Return what was assumed of a quantity."""
        return weighted_interval(of(self.assumed), np.full(DRAWS, 1 / DRAWS))


class _Likeliest(NamedTuple):
    """The likeliest hub `z` (d,), the readings' misses and their errors there (r,) [m], and the slopes (r + d, d)."""

    z: Array
    miss: Array
    spread: Array
    slope: Array


def fit_real_hub(scenario: Scenario, readings: Sequence[Reading]) -> Fitted:
    """Return what readings say of a real hub that is like a scenario's, and of the hand that felt it.

    A reading that does not fit is left out if it alone stands out.

    Raises:
        NotConverged: no balance of forces, or no likeliest hub, was found.
    """
    hub = unknown_hub(scenario)
    found = _find_likeliest(hub, readings)
    deleted = _deleted_residuals(found)
    suspects = _suspects(deleted)
    alone = suspects if len(suspects) == 1 else ()
    kept = [reading for number, reading in enumerate(readings) if number not in alone]
    best = _find_likeliest(hub, kept) if alone else found
    draws = np.random.default_rng(SEED).standard_normal((DRAWS, hub.size))
    shown, weight = _draw_about(hub, kept, best, draws)
    at = hub.show(best.z[None])
    return Fitted(
        hub=hub,
        readings=tuple(
            Checked(
                reading=reading,
                miss=float(reading.miss(hub, at)[0]),
                spread=reading.spread(hub, at),
                deleted=float(deleted[number]),
                left_out=number in alone,
            )
            for number, reading in enumerate(readings)
        ),
        shown=shown,
        weight=weight,
        assumed=hub.show(draws),
        clash=suspects if len(suspects) > 1 else (),
    )


def weighted_interval(values: Array, weight: Array) -> Interval:
    """Return the middle of values (n,) by their weights (n,), sum 1, and the ends that hold `HELD` of them."""
    order = np.argsort(values)
    below = np.cumsum(weight[order]) - weight[order] / 2
    low, middle, high = np.interp([(1 - HELD) / 2, 0.5, (1 + HELD) / 2], below, values[order])
    return Interval(value=float(middle), low=float(low), high=float(high))


def _find_likeliest(hub: UnknownHub, readings: Sequence[Reading]) -> _Likeliest:
    """Return the likeliest hub."""
    z, spread = np.zeros(hub.size), np.ones(len(readings))
    for _ in range(ROUNDS):
        at = hub.show(z[None])
        spread = np.array([reading.spread(hub, at) for reading in readings])
        found = least_squares(_residuals_at, z, jac=_slope, method="lm", args=(hub, readings, spread))
        if not found.success:
            raise NotConverged(f"no likeliest hub was found for these readings: {found.message}")
        z = found.x
    return _Likeliest(z, found.fun[: len(readings)] * spread, spread, _slope(z, hub, readings, spread))


def _residuals_at(z: Array, hub: UnknownHub, readings: Sequence[Reading], spread: Array) -> Array:
    """Return the residuals of one hub (r + d,)."""
    return np.asarray(_residuals(hub, readings, z[None], spread)[0])


def _residuals(hub: UnknownHub, readings: Sequence[Reading], z: Array, spread: Array) -> Array:
    """Return misses in standard errors and the unknowns themselves: (n, r + d) for `z` (n, d)."""
    shown = hub.show(z)
    misses = [reading.miss(hub, shown) / error for reading, error in zip(readings, spread, strict=True)]
    return np.concatenate((np.reshape(misses, (len(readings), len(z))).T, z), axis=1)


def _slope(z: Array, hub: UnknownHub, readings: Sequence[Reading], spread: Array) -> Array:
    """Return how the residuals change with each unknown (r + d, d)."""
    nudges = NUDGE * np.eye(z.size)
    up, down = np.split(_residuals(hub, readings, np.concatenate((z + nudges, z - nudges)), spread), 2)
    return np.asarray((up - down).T / (2 * NUDGE))


def _deleted_residuals(found: _Likeliest) -> Array:
    """Return how far each reading lies from what the others foretell of it (r,), in standard errors [-]."""
    rows = found.slope[: found.miss.size]
    leverage = np.einsum("ri,ri->r", rows, np.linalg.solve(found.slope.T @ found.slope, rows.T).T)
    return np.asarray(found.miss / found.spread / np.sqrt(np.maximum(1 - leverage, 1e-9)))


def _suspects(deleted: Array) -> tuple[int, ...]:
    """Return the readings of which one is wrong: none where all fit, one where it alone stands out."""
    size = np.abs(deleted)
    if not size.size or size.max() < MISFIT:
        return ()
    return tuple(int(number) for number in np.flatnonzero(size >= AS_FAR * size.max()))


def _draw_about(
    hub: UnknownHub, readings: Sequence[Reading], best: _Likeliest, draws: Array
) -> tuple[Shown, Array]:
    """Return what hubs drawn about the likeliest show, and how likely each is (n,)."""
    root = np.linalg.cholesky(np.linalg.inv(best.slope.T @ best.slope))
    z = best.z + draws @ root.T
    left = (_residuals(hub, readings, z, best.spread) ** 2).sum(axis=1) - (draws**2).sum(axis=1)
    weight = np.exp((left.min() - left) / 2)
    return hub.show(z), weight / weight.sum()
