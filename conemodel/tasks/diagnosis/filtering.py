"""How chances on the grid are carried through the rounds: what happens between them spreads, each reading weighs."""

import numpy as np

from conemodel.base.units import Array
from conemodel.tasks.diagnosis.between_rounds import Spread, spread_out


def filter_rounds(
    prior: Array, products: list[Array], between: list[tuple[Spread, ...]]
) -> tuple[list[Array], float]:
    """Return the chances before each round's readings and after the last (c, n, m), and the log of the evidence."""
    whole = float(prior.sum())
    if not whole > 0.0:
        return [np.full_like(prior, 1 / prior.size)] * (len(products) + 1), -np.inf
    chance, evidence = prior / whole, float(np.log(whole))
    ahead = []
    for product, spreads in zip(products, between, strict=True):
        chance = spread_out(chance, spreads)
        ahead.append(chance)
        total = float((chance * product).sum())
        if not total > 0.0:  # so improbable that the densities underflow; `contradictions` reports it
            return [*ahead, *([chance] * (len(products) - len(ahead) + 1))], -np.inf
        evidence += float(np.log(total))
        chance = chance * product / total
    return [*ahead, chance], evidence


def look_back(products: list[Array], between: list[tuple[Spread, ...]]) -> Array:
    """Return how likely all readings are from each place of the grid as found (c, n, m), but for a common factor."""
    seen = np.ones_like(products[-1])
    for product, spreads in zip(reversed(products), reversed(between), strict=True):
        seen = seen * product
        seen = seen / max(float(seen.max()), 1e-300)
        seen = spread_out(seen, [Spread(one.cases, one.shares[::-1]) for one in reversed(spreads)])
    return seen


def product_of(found: dict[str, Array], shape: tuple[int, ...]) -> Array:
    """Return the likelihood of all readings of a round together (c, n, m)."""
    product = np.ones(shape)
    for value in found.values():
        product = product * value
    return product


def widen(likelihood: Array) -> Array:
    """Return a likelihood in which every point also has the best of its neighbours in end play and force."""
    wide = likelihood
    for axis in (1, 2):
        if wide.shape[axis] > 1:
            ends = [(0, 0)] * 3
            ends[axis] = (1, 1)
            padded = np.pad(wide, ends, mode="edge")
            size = wide.shape[axis]
            parts = [np.take(padded, np.arange(start, start + size), axis=axis) for start in range(3)]
            wide = np.maximum(np.maximum(parts[0], parts[1]), parts[2])
    return wide
