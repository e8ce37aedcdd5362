"""One fit for everything found on a real hub: the likeliest hub and hand, how sure each number is, what does not fit.

The likeliest hub is a least squares problem in numbers that are all standard normal beforehand (a maximum a posteriori
estimate); how sure it is comes from hubs drawn about it by the curvature there, weighed by how likely they are. A
reading does not fit where it lies further than `MISFIT` standard errors from what all the others and the assumptions
foretell of it: the studentised deleted residual. Sources: [GelmanBDA2013], [CookWeisberg1982]
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.scenario import Scenario
from conemodel.tasks.hand.estimate import HELD, Interval
from conemodel.tasks.real_hub.contradictions import Contradiction
from conemodel.tasks.real_hub.judging import judge
from conemodel.tasks.real_hub.likeliest import Likeliest, find_likeliest, residuals
from conemodel.tasks.real_hub.readings import Measured, Reading
from conemodel.tasks.real_hub.shown import Shown
from conemodel.tasks.real_hub.unknown_hub import DRAWS, SEED, UnknownHub, unknown_hub

ENOUGH = DRAWS / 2
"""Hubs that must count, by their weights, of those drawn by the curvature [-]; else others are drawn. [Kish1965]"""

STEPS = 3
"""Steps to the likeliest hub for readings off by chance: the slopes hardly change over them."""


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
        clash: readings, by number, of which one is wrong and nobody can tell which; nothing rests on them.
        contradictions: between counts, the plainest first.
    """

    hub: UnknownHub
    readings: tuple[Checked, ...]
    shown: Shown
    weight: Array
    clash: tuple[int, ...] = ()
    contradictions: tuple[Contradiction, ...] = ()

    @property
    def all_fits(self) -> bool:
        """No reading is left out, and none contradict each other."""
        return not self.clash and not any(each.left_out for each in self.readings)

    def interval(self, of: Callable[[Shown], Array]) -> Interval:
        """Return what is known of a quantity now."""
        return weighted_interval(of(self.shown), self.weight)

    def interval_before(self, of: Callable[[Shown], Array]) -> Interval:
        """Return what was assumed of a quantity."""
        return weighted_interval(of(self.hub.assumed), np.full(DRAWS, 1 / DRAWS))


def fit_real_hub(scenario: Scenario, readings: Sequence[Reading]) -> Fitted:
    """Return what readings say of a real hub that is like a scenario's, and of the hand that felt it.

    Nothing rests on a reading that does not fit, nor on those that contradict each other.

    Raises:
        NotConverged: no balance of forces, or no likeliest hub, was found.
    """
    marked = [each.mark for each in readings if isinstance(each, Measured) and each.mark is not None]
    hub = unknown_hub(scenario, marks=max(marked, default=-1) + 1)
    judged = judge(hub, readings)
    kept = [readings[number] for number in judged.kept]
    best = judged.best or find_likeliest(hub, kept)
    shown, weight = _draw_about(hub, kept, best)
    at = hub.show(best.z[None])
    return Fitted(
        hub=hub,
        readings=tuple(
            Checked(
                reading=reading,
                miss=float(reading.miss(hub, at)[0]),
                spread=reading.spread(hub, at),
                deleted=float(judged.deleted[number]),
                left_out=number in judged.left_out,
            )
            for number, reading in enumerate(readings)
        ),
        shown=shown,
        weight=weight,
        clash=judged.clash,
        contradictions=judged.contradictions,
    )


def weighted_interval(values: Array, weight: Array) -> Interval:
    """Return the middle of values (n,) by their weights (n,), sum 1, and the ends that hold `HELD` of them."""
    order = np.argsort(values)
    below = np.cumsum(weight[order]) - weight[order] / 2
    low, middle, high = np.interp([(1 - HELD) / 2, 0.5, (1 + HELD) / 2], below, values[order])
    return Interval(value=float(middle), low=float(low), high=float(high))


def _draw_about(hub: UnknownHub, readings: Sequence[Reading], best: Likeliest) -> tuple[Shown, Array]:
    """Return what hubs drawn about the likeliest show, and how likely each is (n,).

    Where only few of those drawn by the curvature would count, because plays read at marks tell more than a straight
    line holds, each hub is instead the likeliest for readings and assumptions that are off by chance. [Bardsley2014]
    """
    covariance = np.asarray(np.linalg.inv(best.slope.T @ best.slope))
    z = best.z + hub.draws @ np.linalg.cholesky(covariance).T
    shown = hub.show(z)
    left = (residuals(readings, hub, shown, z, best.spread) ** 2).sum(axis=1) - (hub.draws**2).sum(axis=1)
    weight = np.exp((left.min() - left) / 2)
    weight /= weight.sum()
    if not hub.marks or 1 / (weight @ weight) > ENOUGH:
        return shown, weight
    return _draw_by_chance(hub, readings, best, covariance), np.full(DRAWS, 1 / DRAWS)


def _draw_by_chance(
    hub: UnknownHub, readings: Sequence[Reading], best: Likeliest, covariance: Array
) -> Shown:
    """Return what the likeliest hubs for readings and assumptions that are off by chance show."""
    off = np.random.default_rng(SEED).standard_normal((DRAWS, len(best.slope)))
    z = best.z + off @ best.slope @ covariance
    for _ in range(STEPS):
        shown = hub.show(z)
        step = (residuals(readings, hub, shown, z, best.spread) - off) @ best.slope @ covariance
        z = z - step
    return hub.show(z)
