"""The push under which play at the rim is read: what wheel and bearing give, and the pushes that are summed over.

A hand that pushes and pulls the rim reads free play and, on top of it, what the wheel and the balls give. One hand and
one wheel made all readings of a hub, so push and stiffness are unknowns of the hub, no error of a reading.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from math import ceil, exp, log

import numpy as np
from scipy.special import ndtr

from conemodel.base.batch_cache import keep_answers
from conemodel.base.units import Array
from conemodel.parts.distributions import BELL_REACH
from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Play, Readings
from conemodel.parts.scenario import Scenario
from conemodel.solve.freeplay.hand_positions import solve_felt_play
from conemodel.solve.stages.terms import pair_of
from conemodel.solve.wheel.rocking import rocking_curve
from conemodel.tasks.diagnosis.likelihood import least_spread

REACH = 2.5
"""How far the pushes summed over reach to either side, in standard deviations of their logarithm."""

NODES = (3, 12)
"""Fewest and most pushes summed over; between, as many as the readings can tell apart. A usual gauge wants eleven."""

GIVE_ENDS = np.concatenate(
    (np.linspace(-60e-6, -16e-6, 8), np.linspace(-12e-6, 6e-6, 19), np.geomspace(10e-6, 0.6e-3, 10))
)
"""End plays at which the bearing's give is solved [m]: close together where the balls begin to be pinched."""

GIVE_PUSHES = np.array([0.0, 0.5, 1.0, 2.0, 3.5, 6.0, 10.0, 18.0, 30.0, 50.0])
"""Pushes at which it is solved [N]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Push:
    """One push that may have been.

    Attributes:
        weight: its chance before anything was read.
        give: what the wheel gives, both ways together, under the push that nobody stated [m].
        softness: factor on what a wheel of usual stiffness gives under a push that was stated [-]: the wheel's and the
            hand's together.
        rank: chance that a push nobody stated makes it give less, before anything was read; 0 where it was stated.
    """

    weight: float = 1.0
    give: float = 0.0
    softness: float = 1.0
    rank: float = 0.0


@keep_answers(size=16)
def bearing_give(scenario: Scenario) -> Array:
    """Return what the bearing gives at the rim beyond its free play, both ways, at `GIVE_ENDS` and `GIVE_PUSHES` [m].

    Raises:
        NotConverged: no balance of forces was found.
    """
    pair, radius = pair_of(scenario), scenario.wheel.rim_radius
    free, _ = solve_felt_play(pair, GIVE_ENDS, rim_radius=radius, axle_arm=scenario.axle_end_arm)
    moved = [
        rocking_curve(pair, end_play=GIVE_ENDS[:, None], rim_radius=radius, force=way * GIVE_PUSHES[1:])
        for way in (1, -1)
    ]
    give = moved[0].bearing - moved[1].bearing - free[:, None]
    return np.concatenate((np.zeros((GIVE_ENDS.size, 1)), np.maximum(give, 0.0)), axis=1)


def give_at_rim(scenario: Scenario, push: float, end_play: Array) -> Array:
    """Return what the bearing gives under a `push` [N] each way at end plays of any shape [m].

    Taken from the hub with true rows: a bent axle's differs by some micrometres of some thirty.
    """
    table = bearing_give(scenario)
    at = min(max(push, 0.0), float(GIVE_PUSHES[-1]))
    upper = int(np.clip(np.searchsorted(GIVE_PUSHES, at), 1, GIVE_PUSHES.size - 1))
    share = (at - GIVE_PUSHES[upper - 1]) / (GIVE_PUSHES[upper] - GIVE_PUSHES[upper - 1])
    return np.asarray(
        np.interp(end_play, GIVE_ENDS, table[:, upper - 1] * (1 - share) + table[:, upper] * share)
    )


def wheel_give(scenario: Scenario, push: float) -> float:
    """Return what a wheel of usual stiffness gives at the rim under a `push` [N], both ways together [m]."""
    return 2 * push / scenario.wheel.side_stiffness


def wheel_spread(beliefs: Beliefs) -> float:
    """Return the standard deviation of the logarithm of the wheel's stiffness: the range reaches a bell's ends."""
    soft, stiff = beliefs.wheel_stiffness
    return log(stiff / soft) / (2 * BELL_REACH)


def gauged(readings: Readings) -> tuple[Play, ...]:
    """Return every play at the rim that was measured."""
    each = (play for look in readings.rounds for play in (look.rim_open, look.rim_closed))
    return tuple(play for play in each if play.play is not None)


def pushes_of(readings: Readings, scenario: Scenario, beliefs: Beliefs) -> tuple[Push, ...]:
    """Return the pushes to sum over, weights summing to 1; a single one where no gauge or ruler stood at the rim."""
    plays = gauged(readings)
    if not plays:
        return (Push(),)
    finest = min(least_spread(play, beliefs) for play in plays)
    hardest = max((play.push_hard or play.push or 0.0 for play in plays), default=0.0)
    unstated = any(play.push is None for play in plays)
    soft = list(_softnesses(wheel_give(scenario, hardest) / finest, beliefs)) if hardest else [Push()]
    if not unstated:  # the hand that reads on without stating it pushes as before
        usual = wheel_give(scenario, plays[0].push or 0.0)
        return tuple(replace(one, give=one.softness * usual) for one in soft)
    return tuple(
        replace(one, weight=one.weight * other.weight, softness=other.softness)
        for one, other in product(_gives(scenario, finest, beliefs), soft)
    )


def _count(span: float) -> int:
    """Return how many pushes a span of standard errors is cut into."""
    return int(np.clip(ceil(span), *NODES))


def _softnesses(give: float, beliefs: Beliefs) -> Iterator[Push]:
    """Yield the factors on stated pushes, log-normal; `give` is the largest give in standard errors of a reading."""
    spread = float(np.hypot(wheel_spread(beliefs), log(beliefs.stated_push_factor)))
    edges = np.linspace(-REACH, REACH, _count(2 * REACH * spread * give) + 1)
    weights = np.diff(ndtr(edges)) / (ndtr(REACH) - ndtr(-REACH))
    for weight, middle in zip(weights, (edges[1:] + edges[:-1]) / 2, strict=True):
        yield Push(weight=float(weight), softness=exp(spread * middle))


def _gives(scenario: Scenario, finest: float, beliefs: Beliefs) -> Iterator[Push]:
    """Yield what the wheel may give under a push nobody stated, told apart to about the `finest` error [m].

    First that nobody pushed, then every push that somebody may have made.
    """
    yield Push(weight=beliefs.no_push)
    most = float(give_quantile(scenario, beliefs, np.array(1.0)))
    edges = np.linspace(0.0, most, _count(most / finest) + 1)
    below = give_below(scenario, beliefs, edges)
    ranks = (below[1:] + below[:-1]) / 2
    for middle, weight, rank in zip((edges[1:] + edges[:-1]) / 2, np.diff(below), ranks, strict=True):
        yield Push(weight=float(weight), give=float(middle), rank=float(rank))


def give_below(scenario: Scenario, beliefs: Beliefs, give: Array) -> Array:
    """Return the chance that the wheel gives no more than each `give` (n,) [m] where nobody stated a push.

    Somebody pushed or nobody did; a push is as likely anywhere in its range, the stiffness log-normal.
    """
    low, high = (wheel_give(scenario, push) for push in beliefs.rim_push)
    factors = np.exp(wheel_spread(beliefs) * _BELL)
    share = (give[..., None] / factors - low) / max(high - low, 1e-9)
    pushed = np.clip(share, 0.0, 1.0) @ _BELL_WEIGHT
    return np.asarray(beliefs.no_push + (1 - beliefs.no_push) * pushed)


def give_quantile(scenario: Scenario, beliefs: Beliefs, chance: Array) -> Array:
    """Return what the wheel gives where nobody stated a push, below which it lies with each `chance` [m]."""
    most = wheel_give(scenario, beliefs.rim_push[1]) * exp(REACH * wheel_spread(beliefs))
    at = np.linspace(0.0, most, 200)
    return np.asarray(np.interp(chance, give_below(scenario, beliefs, at), at, left=0.0))


_BELL = np.linspace(-REACH, REACH, 41)
_BELL_WEIGHT = np.exp(-0.5 * _BELL**2) / np.exp(-0.5 * _BELL**2).sum()
