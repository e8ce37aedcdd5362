"""At which count to lock a real hub: where it is most likely right once clamped, and seldom too tight."""

from dataclasses import dataclass

import numpy as np

from conemodel.base.units import MINUTE, Array
from conemodel.parts.priors import Beliefs
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.fit import SEED, Fitted
from conemodel.tasks.real_hub.readings import Felt
from conemodel.tasks.setting.aim import MOST_TIGHT, middle_of_best
from conemodel.tasks.setting.good_range import Window, find_states, window_of

GRAIN = MINUTE.to_si(0.25)
"""How far apart the counts are that are tried [rad]: finer than a hand counts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LockAt:
    """A count to lock at, the hub found as it was.

    Attributes:
        count: turn of the cone out of finger contact [rad].
        ends: what is known of the count that would end in the middle of the good range [rad].
        right, tight: how likely the hub is so once clamped [-].
    """

    count: float
    ends: Interval
    right: float
    tight: float


def lock_at(fitted: Fitted) -> LockAt | None:
    """Return the count to lock at; None where readings clash, or none of the hub locked or clamped is used.

    Raises:
        NotConverged: no balance of forces was found.
    """
    locked = [each for each in fitted.readings if each.reading.state != "nut loose" and not each.left_out]
    if fitted.clash or not locked:
        return None
    window, lead = window_of(fitted.hub.scenario), fitted.hub.lead
    ends = fitted.interval(lambda shown: (window.target - shown.end_play["clamped"]) / lead)
    counts = np.arange(min(ends.low, 0.0), ends.high + GRAIN, GRAIN)
    right, tight = _chances(fitted, window, counts)
    seldom = np.flatnonzero(tight <= MOST_TIGHT)
    tried = seldom if seldom.size else np.array([counts.size - 1])
    best = int(tried[middle_of_best(right[tried])])
    return LockAt(count=float(counts[best]), ends=ends, right=float(right[best]), tight=float(tight[best]))


def _chances(fitted: Fitted, window: Window, counts: Array) -> tuple[Array, Array]:
    """Return how likely the hub is right, and tight, once clamped, for each count (t,).

    The hand errs at the mark and as the cone drifts, and the ends of the good range are not known to the micrometre.
    """
    turned = Felt(what="play", state="locked", count=0.0, step=0.0).turn_error(fitted.hub)
    error = float(np.hypot(turned, Beliefs().range_error))
    off = error * np.random.default_rng(SEED).standard_normal(fitted.weight.size)
    end_play = fitted.shown.end_play["clamped"] + off + (counts * fitted.hub.lead)[:, None]
    states = find_states(end_play, np.array(window.tight_edge), np.array(window.loose_edge))
    return (states == 0) @ fitted.weight, (states == -1) @ fitted.weight
