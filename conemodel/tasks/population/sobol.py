"""Which unknown quantity matters most to the clamped end play: Sobol indices."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.stats import sobol_indices

from conemodel.base.units import Array
from conemodel.parts.crowd import Crowd
from conemodel.tasks.population.drawn_inputs import INPUTS
from conemodel.tasks.population.sampling import evaluate_draws
from conemodel.tasks.population.study import CHUNK, Cancelled

SAMPLE = 4096
"""Base sample, a power of two; so many hubs are computed for each input, and twice as many besides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Influence:
    """How much of the variance of the clamped end play one input makes.

    Attributes:
        name, label: which input.
        first: by itself [-]; total: by itself and together with others [-]. Slightly below 0 is sampling error.
    """

    name: str
    label: str
    first: float
    total: float


class _Even:
    """Numbers evenly spread from 0 to 1, in the one form the sampler asks for."""

    def ppf(self, *share: Any, **_: Any) -> Any:
        """Return each share itself."""
        return share[0]


def what_matters(
    crowd: Crowd,
    *,
    sample: int = SAMPLE,
    seed: int = 1,
    back_off: float | None = None,
    stop: Callable[[], bool] | None = None,
) -> tuple[Influence, ...]:
    """Return the Sobol indices of every input, most important (by `total`) first.

    `sample` is a power of two. Where end play does not vary at all, every index is 0.

    Raises:
        Cancelled: the study was stopped.
        NotConverged: no balance of forces was found.
        ValueError: a sample that is no power of two.

    Source: [Saltelli2010]
    """
    angle = crowd.population.hands.back_off if back_off is None else back_off

    def end_play(shares: Array) -> Array:
        parts = np.array_split(shares, max(shares.shape[1] // CHUNK, 1), axis=1)
        found = []
        for part in parts:
            if stop is not None and stop():
                raise Cancelled("the study was stopped before its end")
            found.append(evaluate_draws(crowd, part, back_off=angle).end_play)
        return np.concatenate(found)

    first, total = _indices(end_play, sample, seed)
    named = [
        Influence(name=name, label=label, first=float(first[i]), total=float(total[i]))
        for i, (name, label) in enumerate(INPUTS.items())
    ]
    return tuple(sorted(named, key=lambda influence: -influence.total))


def _indices(values: Callable[[Array], Array], sample: int, seed: int) -> tuple[Array, Array]:
    """Return first and total indices of a function of evenly spread numbers; 0 where it is the same everywhere."""
    inputs = len(INPUTS)
    probe = values(np.random.default_rng(seed).random((inputs, 64)))
    if np.ptp(probe) <= 1e-15:
        return np.zeros(inputs), np.zeros(inputs)
    found = sobol_indices(func=values, n=sample, dists=[_Even()] * inputs, rng=np.random.default_rng(seed))
    return np.asarray(found.first_order), np.asarray(found.total_order)
