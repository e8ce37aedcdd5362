"""Where a quantity most likely lies: its middle, its intervals and its density for a picture."""

from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array

INTERVALS = (0.5, 0.8, 0.95)
"""Shares of the central intervals that are kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Likely:
    """What is believed of one number, in SI.

    Attributes:
        median: as likely above as below; mean; spread: standard deviation.
        intervals: for 0.5, 0.8 and 0.95 the central interval that holds so much, (low, high).
        at, density: for a picture, (n,): values and chance per unit.
    """

    median: float
    mean: float
    spread: float
    intervals: dict[float, tuple[float, float]]
    at: Array
    density: Array


def summarise(values: Array, chance: Array, *, step: float) -> Likely:
    """Return what is believed of a number that takes `values` with `chance` (same shape), to about `step`."""
    values, chance = np.broadcast_arrays(values, chance)
    edges, height = histogram(values, chance, step=step)
    total = np.concatenate(([0.0], np.cumsum(height)))
    rising, first = np.unique(total, return_index=True)

    def quantile(share: float) -> float:
        return float(np.interp(share, rising, edges[first]))

    weights = chance / chance.sum()
    mean = float((values * weights).sum())
    return Likely(
        median=quantile(0.5),
        mean=mean,
        spread=float(np.sqrt(((values - mean) ** 2 * weights).sum())),
        intervals={share: (quantile(0.5 - share / 2), quantile(0.5 + share / 2)) for share in INTERVALS},
        at=(edges[1:] + edges[:-1]) / 2,
        density=height / np.diff(edges),
    )


def histogram(values: Array, chance: Array, *, step: float) -> tuple[Array, Array]:
    """Return edges (n + 1,) `step` apart and the chance between them (n,), summing to 1.

    Each value is shared between the two bins nearest to it, so that values on a grid leave no gaps.
    """
    flat, weight = values.ravel(), chance.ravel()
    held = weight > 1e-12 * weight.max()
    flat, weight = flat[held], weight[held]
    low = float(flat.min()) - 1.5 * step
    place = (flat - low) / step - 0.5
    below = np.floor(place).astype(np.intp)
    share = place - below
    count = int(below.max()) + 3
    height = np.bincount(below, weight * (1 - share), count) + np.bincount(below + 1, weight * share, count)
    edges = low + step * np.arange(count + 1)
    return np.asarray(edges), np.asarray(height / height.sum())
