"""The turn to make: the one that most likely ends in the good range, the hand's error counted in."""

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from conemodel.base.units import Array
from conemodel.tasks.diagnosis.between_rounds import turn_error
from conemodel.tasks.diagnosis.credible_intervals import Likely, histogram, summarise
from conemodel.tasks.diagnosis.posterior import Posterior
from conemodel.tasks.setting.good_range import Window

CURABLE = ("sound", "gritty", "dented", "wrong_balls", "proud", "creeping", "wearing")
"""Causes under which turning the cone does what it does on a sound hub."""

STEP = 1e-6
"""Step in which turns are tried [m]."""

WORTH_IT = 0.05
"""A turn is advised only where it raises the chance by more than this: what is right is left alone. Assumption."""

LOOSE_COUNTS = 0.5
"""What a hub left loose counts against one left right, when the turn is chosen: play that is left shows and can be
measured, a bearing that was left tight hides it. Assumption; common practice is to come in from the loose side."""

LEAST_CHANCE = 0.35
"""A turn whose chance of ending right is below this is not advised unless its direction is plain. Assumption."""

PLATEAU = 0.002
"""Turns whose chance is this close to the best are as good; the middle of them is taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A turn of the cone from where it stands.

    Attributes:
        length: along the axle [m], positive out; lead_per_radian: of the thread [m/rad].
        needed: what is believed of the turn that would end in the middle of the good range [m].
        chance: of ending in the good range; chance_now: of being there already.
    """

    length: float
    lead_per_radian: float
    needed: Likely
    chance: float
    chance_now: float

    @property
    def angle(self) -> float:
        """The turn [rad], positive out."""
        return self.length / self.lead_per_radian

    @property
    def angle_range(self) -> tuple[float, float]:
        """Where four times in five the turn needed lies [rad], positive out."""
        low, high = self.needed.intervals[0.8]
        return low / self.lead_per_radian, high / self.lead_per_radian

    @property
    def known(self) -> bool:
        """Whether enough is known to advise: a fair chance of ending right, or at least the way to turn."""
        low, high = self.angle_range
        return max(self.chance, self.chance_now) >= LEAST_CHANCE or low * high > 0.0

    @property
    def worth_it(self) -> bool:
        """Whether turning is better than leaving it alone."""
        return self.chance > self.chance_now + WORTH_IT


def best_move(posterior: Posterior, window: Window) -> Move | None:
    """Return the turn that most likely ends in the good range; None where no cause is left that it would cure."""
    model = posterior.model
    curable = [case.cause in CURABLE for case in model.cases]
    chance = posterior.chance[curable]
    if not chance.sum() > 0.0:
        return None
    closed = np.broadcast_to(posterior.closed, posterior.chance.shape)[curable]
    edges, height = histogram(closed, chance, step=STEP)
    middles = (edges[1:] + edges[:-1]) / 2
    error = turn_error(model.scenario, model.beliefs.hand_error)
    turns, reached, loose = _chances(middles, height, window, error)
    worth = reached + (LOOSE_COUNTS * loose if reached.max() >= LEAST_CHANCE else 0.0)
    good = np.flatnonzero(worth >= worth.max() - PLATEAU)
    best = int(good[good.size // 2])
    inside = (middles >= window.tight_edge) & (middles <= window.loose_edge)
    return Move(
        length=float(turns[best]),
        lead_per_radian=model.scenario.axle.lead_per_radian,
        needed=summarise(window.target - closed, chance, step=STEP),
        chance=float(reached[best]),
        chance_now=float(height[inside].sum()),
    )


def _chances(end_play: Array, height: Array, window: Window, error: float) -> tuple[Array, Array, Array]:
    """Return turns (k,) [m], the chance of ending in the window after each, and that of ending loose."""
    span = end_play[-1] - end_play[0] + window.width
    around = np.arange(-span, span + STEP, STEP) + window.target
    not_loose = ndtr((window.loose_edge - around) / error)
    inside = not_loose - ndtr((window.tight_edge - around) / error)
    # end play e turned by t is in the window with inside(e + t): a correlation over e
    chance, loose = (np.correlate(part, height, mode="valid") for part in (inside, 1 - not_loose))
    turns = around[0] - end_play[0] + STEP * np.arange(chance.size)
    return turns, np.asarray(chance), np.asarray(loose)
