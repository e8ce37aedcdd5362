"""What a careful hand can tell of where a cone stands: no mark is finer."""

from functools import lru_cache

import numpy as np

from conemodel.parts.distributions import UncertainTurn
from conemodel.parts.unknowns.hands import BACK_OFF_ERROR, DRIFT, MARK_ERROR
from conemodel.tasks.practice.cone_position import EYE

SURE = 0.75
"""How often a hand must be able to tell what it is marked for [-]: three times in four."""

STEPS = 64
"""Values of each error that are combined."""


@lru_cache(maxsize=2)
def least_told(*, pen: bool) -> float:
    """Return the turn of the cone that a careful hand stays within three times in four [rad].

    The hand sets out from a pen line, or by eye; the cone goes in with the locknut by more or less than usual; and
    the eye reads the clock to its step. What is within that it can neither set nor tell.

    Source: the ranges stand in `parts.unknowns`; how they add up is derived.
    """
    share = (np.arange(STEPS) + 0.5) / STEPS
    aimed = UncertainTurn.of(MARK_ERROR if pen else BACK_OFF_ERROR).at(share)
    drift = UncertainTurn.of(DRIFT)
    drifted = drift.at(share) - drift.top
    read = (share - 0.5) * EYE[pen]
    missed = np.abs(aimed[:, None, None] + drifted[:, None] + read)
    return float(np.quantile(missed, SURE))
