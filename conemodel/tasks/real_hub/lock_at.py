"""At which count to lock a real hub: where it is most likely right once clamped, and seldom too tight."""

from dataclasses import dataclass

import numpy as np

from conemodel.base.units import MINUTE, Array
from conemodel.parts.priors import Beliefs
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.fit import Fitted, weighted_interval
from conemodel.tasks.real_hub.readings import Felt
from conemodel.tasks.real_hub.unknown_hub import SEED
from conemodel.tasks.setting.aim import MOST_TIGHT, middle_of_best
from conemodel.tasks.setting.good_range import Window, find_states

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
    window = fitted.hub.window
    turned = Felt(what="play", state="locked", count=0.0, step=0.0).turn_error(fitted.hub)
    return find_count(
        fitted.shown.end_play["clamped"], fitted.weight, window, error=turned, lead=fitted.hub.lead
    )


def find_count(
    end_play: Array, weight: Array, window: Window, *, error: float, lead: float, grain: float = GRAIN
) -> LockAt:
    """Return the count that most likely ends right, of those that seldom end too tight.

    Args:
        end_play: of hubs as likely as `weight` (n,), clamped, their cones at count nought (n,) [m].
        weight: how likely each is (n,), sum 1.
        window: their good range.
        error: standard error with which a count is met, and locked [m].
        lead: how far the cone moves per turn [m/rad].
        grain: how far apart the counts are that are tried [rad].
    """
    ends = weighted_interval((window.target - end_play) / lead, weight)
    counts = grain * np.arange(np.floor(min(ends.low, 0.0) / grain), np.ceil(ends.high / grain) + 1)
    _, right, tight = chances_at(end_play, weight, window, error=error, moved=counts * lead)
    seldom = np.flatnonzero(tight <= MOST_TIGHT)
    tried = seldom if seldom.size else np.array([counts.size - 1])
    best = int(tried[middle_of_best(right[tried])])
    return LockAt(count=float(counts[best]), ends=ends, right=float(right[best]), tight=float(tight[best]))


def chances_at(
    end_play: Array, weight: Array, window: Window, *, error: float, moved: Array
) -> tuple[Array, Array, Array]:
    """Return how likely hubs, as in `find_count`, are loose, right and tight, their cones `moved` out (t,) [m].

    The hand errs at the mark and as the cone drifts, and the ends of the good range are not known to the micrometre.
    """
    missed = float(np.hypot(error, Beliefs().range_error))
    off = missed * np.random.default_rng(SEED).standard_normal(weight.size)
    states = find_states(
        end_play + off + moved[:, None], np.array(window.tight_edge), np.array(window.loose_edge)
    )
    return (states == 1) @ weight, (states == 0) @ weight, (states == -1) @ weight
