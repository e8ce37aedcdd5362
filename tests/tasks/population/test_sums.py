"""Many hubs against what is known of a sum of independent things: shares of variance, and convolution."""

import numpy as np
import pytest
from scipy import stats

from conemodel.parts.crowd import Crowd
from conemodel.parts.distributions import Uncertain
from conemodel.parts.setting import Setting
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.population.drawn_inputs import COLUMNS, INPUTS
from conemodel.tasks.population.sampling import evaluate_draws
from conemodel.tasks.population.sobol import what_matters
from conemodel.tasks.population.study import many_hubs
from tests.tasks.population.populations import known, one_kind, plain_sum, workshop


@pytest.fixture
def linear() -> Crowd:
    return plain_sum()


def parts_of_the_sum(crowd: Crowd) -> dict[str, tuple[float, Uncertain]]:
    """Return for each linear input by how much end play changes from its least to its largest value [m].

    By hand: slack is (D2 - d2) tan 30° less; clamp by Hooke's law and the cone threads' share; both turns by the lead.
    """
    kind, population = crowd.kinds[0], crowd.population
    lead = 1e-3 / (2 * np.pi)
    slack = (
        (0.500 + 9.000 - 9.212 - (9.350 - 9.324)) * 1e-3 * np.tan(np.pi / 6)
    )  # M10 x 1, 6g and 6H, printed
    force = population.clamp_force.of("quick release")
    ends = [
        setting_terms(kind.replace(clamp=kind.clamp.replace(force=end), setting=middle(crowd)))
        for end in force.ends
    ]
    clamp = ends[1].end_play("clamped") - ends[0].end_play("clamped")
    drift, error = population.hands.drift, population.hands.back_off_error
    return {
        "thread_fit": (-slack, population.threads.fit),
        "clamp_force": (clamp, force),
        "drift": (-(drift.high - drift.low) * lead, drift),
        "back_off_error": ((error.high - error.low) * lead, error),
    }


def middle(crowd: Crowd) -> Setting:
    return crowd.kinds[0].setting.replace(lock_torque=crowd.population.hands.lock_torque.top)


def variance(shape: str, low: float, top: float, high: float) -> float:
    """Return the closed form of the variance: even, triangle, and a bell cut off at two deviations."""
    if shape == "even":
        return (high - low) ** 2 / 12
    if shape == "peaked":
        return (low**2 + top**2 + high**2 - low * top - low * high - top * high) / 18
    density, inside = np.exp(-2.0) / np.sqrt(2 * np.pi), 0.9544997361036416  # of the standard normal at 2
    return float(((high - low) / 4) ** 2 * (1 - 4 * density / inside))


def variances(crowd: Crowd) -> dict[str, float]:
    found = {}
    for name, (reach, spread) in parts_of_the_sum(crowd).items():
        low, high = spread.ends
        found[name] = variance(spread.shape, low, spread.top, high) * (reach / (high - low)) ** 2
    return found


def test_sobol_indices_are_the_shares_of_variance_of_a_sum(linear):
    """For a sum first and total index are each one's share of the variance: closed form. 0.01 is the sample's error."""
    whole = variances(linear)
    for influence in what_matters(linear, sample=4096):
        wanted = whole.get(influence.name, 0.0) / sum(whole.values())
        assert influence.first == pytest.approx(wanted, abs=0.01)
        assert influence.total == pytest.approx(wanted, abs=0.01)


def test_monte_carlo_has_the_variance_of_the_sum(linear):
    """The spread of n values is known to sqrt(2/n) at worst: 1 in 100 at four deviations of a hundred thousand."""
    counts = many_hubs(linear).all.spread
    at = (counts.edges[:-1] + counts.edges[1:]) / 2
    mean = np.average(at, weights=counts.counts)
    found = np.average((at - mean) ** 2, weights=counts.counts)
    assert found == pytest.approx(sum(variances(linear).values()), rel=0.02)


def convolved(crowd: Crowd) -> tuple[np.ndarray, np.ndarray]:
    """Return end plays [m] and how many hubs lie below each, by folding the four densities into one another."""
    step, density, start = 0.05e-6, np.ones(1), 0.0
    for reach, spread in parts_of_the_sum(crowd).values():
        low, high = spread.ends
        cells = round(abs(reach) / step)
        share = (np.arange(cells + 1) / cells) * (high - low) + low
        below = law(spread, share)
        mass = np.diff(below)
        density = np.convolve(density, mass if reach > 0 else mass[::-1])
        start += min(reach, 0.0)
    return start + step * np.arange(len(density) + 1), np.concatenate(([0.0], np.cumsum(density)))


def law(spread: Uncertain, value: np.ndarray) -> np.ndarray:
    """Return the share of values below each `value`, from scipy's distributions."""
    low, high = spread.ends
    if spread.shape == "even":
        return stats.uniform(low, high - low).cdf(value)
    if spread.shape == "peaked":
        return stats.triang((spread.top - low) / (high - low), low, high - low).cdf(value)
    return stats.truncnorm(-2, 2, (low + high) / 2, (high - low) / 4).cdf(value)


def test_monte_carlo_is_the_numerical_convolution_of_its_parts(linear):
    """Kolmogorov's distance of 100,000 draws is below 1.95/sqrt(n) in 999 of 1000 samples; the seed is fixed.

    Only the place of the sum is taken from the model; its shape is folded from the four spreads.
    """
    result = many_hubs(linear, hubs=100_000)
    at, below = convolved(linear)
    lowest = evaluate_draws(linear, corner(linear), back_off=result.back_off).end_play[0]
    at = at - at[0] + lowest
    edges, counts = result.all.spread.edges, result.all.spread.counts
    seen = np.concatenate(([0], np.cumsum(counts))) / counts.sum()
    assert np.abs(seen - np.interp(edges, at, below)).max() < 1.95 / np.sqrt(100_000) + 1e-3


def corner(crowd: Crowd) -> np.ndarray:
    """Return the draw with the least end play: each linear input at the end that takes most."""
    shares = np.full((len(COLUMNS), 1), 0.5)
    for name, (reach, _) in parts_of_the_sum(crowd).items():
        shares[list(INPUTS).index(name)] = 0.0 if reach > 0 else 1.0
    return shares


def test_the_most_important_input_survives_doubling_the_sample():
    crowd = workshop()
    first, second = (what_matters(crowd, sample=sample) for sample in (1024, 2048))
    assert first[0].name == second[0].name
    alone = one_kind(crowd)
    first, second = (what_matters(alone, sample=sample) for sample in (1024, 2048))
    assert first[0].name == second[0].name == "thread_fit"


def test_a_population_in_which_all_is_known_has_nothing_that_matters(linear):
    sure = Crowd(population=known(linear.population, ()), kinds=linear.kinds)
    assert {(i.first, i.total) for i in what_matters(sure, sample=64)} == {(0.0, 0.0)}
    shares = many_hubs(sure, hubs=100).all.shares
    assert max(shares.loose, shares.right, shares.tight) == 1.0
