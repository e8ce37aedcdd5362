"""What may happen to end play between two rounds: a turn of the cone from a mark, and riding."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr

from conemodel.base.units import Array
from conemodel.parts.readings import Round
from conemodel.parts.scenario import Scenario
from conemodel.tasks.diagnosis.causes import CAUSES
from conemodel.tasks.diagnosis.model import HubModel

FARTHEST = 3.5
"""How far a turn's error is followed for the range looked at [standard deviations]."""

FARTHEST_RIDE = 5.0
"""How far the play gained in riding is followed [means]."""


class Spread(NamedTuple):
    """How end play spreads in some `cases` (c,) over the steps of a grid: an odd number of shares (k,)."""

    cases: npt.NDArray[np.bool_]
    shares: Array


def turn_error(scenario: Scenario, hand_error: float) -> float:
    """Return the standard error of end play after a turn from a mark and locking anew [m].

    The hand errs by `hand_error` [rad]; the cone drifts with the nut by another amount than last time, taken as
    evenly spread over the assumed range, old and new.
    """
    drift = (scenario.assumed.drift_high - scenario.assumed.drift_low) / np.sqrt(12)
    return float(scenario.axle.lead_per_radian * np.sqrt(hand_error**2 + 2 * drift**2))


def spreads_before(model: HubModel, look: Round, end_play: Array) -> tuple[Spread, ...]:
    """Return how end play spread before a round was felt, on evenly spaced `end_play` (n,) [m].

    A turn errs in every case alike. In riding, grease and faces bed in; where something creeps or wears the end
    play grows besides, by an amount exponentially distributed about the mean believed.
    """
    every = np.ones(len(model.cases), dtype=bool)
    found = []
    if look.turned:
        error = turn_error(model.scenario, model.beliefs.hand_error)
        found.append(Spread(every, _normal_shares(end_play, error)))
    if look.was_ridden:
        found.append(Spread(every, _normal_shares(end_play, model.beliefs.bedding)))
        found += [
            Spread(
                np.array([case.cause == cause for case in model.cases], dtype=bool),
                _growth_shares(end_play, mean),
            )
            for cause, mean in _growing(model)
        ]
    return tuple(found)


def spread_out(chance: Array, spreads: Sequence[Spread]) -> Array:
    """Return chances (c, n, m) after end play has spread, one spread after the other."""
    if not spreads:
        return chance
    from scipy.ndimage import convolve1d  # only several rounds need it

    chance = chance.copy()
    for spread in spreads:
        chance[spread.cases] = convolve1d(chance[spread.cases], spread.shares, axis=1, mode="constant")
    return chance


def reach_between(model: HubModel, rounds: Sequence[Round]) -> float:
    """Return how far end play may have moved from the first round to the last, beside the turns themselves [m]."""
    turns = sum(1 for look in rounds if look.turned)
    rides = sum(1 for look in rounds if look.was_ridden)
    turned = FARTHEST * turn_error(model.scenario, model.beliefs.hand_error) * turns**0.5
    most = max((mean for _, mean in _growing(model)), default=0.0)
    return float(turned + FARTHEST_RIDE * most * rides**0.5)


def _growing(model: HubModel) -> Iterator[tuple[str, float]]:
    """Yield the causes there are under which end play grows in riding, each with its mean in one ride [m]."""
    for cause in dict.fromkeys(case.cause for case in model.cases):
        if cause in CAUSES and (mean := CAUSES[cause].grows(model.beliefs)) > 0.0:
            yield cause, mean


def _normal_shares(end_play: Array, error: float) -> Array:
    """Return how a normal `error` [m] spreads end play over the grid's steps."""
    step, off = _steps(end_play, 4 * error)
    return np.asarray(ndtr((off + step / 2) / error) - ndtr((off - step / 2) / error))


def _growth_shares(end_play: Array, mean: float) -> Array:
    """Return how an exponential growth of this `mean` [m] spreads end play over the grid's steps."""
    step, off = _steps(end_play, FARTHEST_RIDE * mean)
    below, above = (-np.expm1(-np.maximum(off + side * step / 2, 0.0) / mean) for side in (-1, 1))
    return np.asarray(above - below)


def _steps(end_play: Array, far: float) -> tuple[float, Array]:
    """Return the grid's step [m] and the distances of its points up to `far` either way [m]."""
    step = float(end_play[1] - end_play[0])
    reach = min(int(np.ceil(far / step)), end_play.size // 2)
    return step, np.asarray(step * np.arange(-reach, reach + 1), dtype=np.float64)
