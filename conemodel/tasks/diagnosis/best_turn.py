"""The turn to make: of those that seldom end tight the likeliest to end in the good range, the hand's error counted."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr

from conemodel.base.units import Array
from conemodel.tasks.diagnosis.between_rounds import turn_error
from conemodel.tasks.diagnosis.credible_intervals import Likely, histogram, summarise
from conemodel.tasks.diagnosis.posterior import Posterior
from conemodel.tasks.diagnosis.push import Push
from conemodel.tasks.setting.aim import MOST_TIGHT, middle_of_best
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.turn import FULL, WORTH_IT

Indices = npt.NDArray[np.intp]

CURABLE = ("sound", "gritty", "dented", "wrong_balls", "proud", "creeping", "wearing")
"""Causes under which turning the cone does what it does on a sound hub."""

STEP = 1e-6
"""Step in which turns are tried [m]."""

HANDS = 4
"""Parts that the pushes nobody stated fall into, from light to hard, `MOST_TIGHT` holding in each: one hand pushes
alike on every hub, and a limit kept by the mean of all hands would be broken on every hub of a hard one."""

HELD = 0.05
"""Chance from which such a part counts: what the readings speak against limits nothing. Assumption."""

LOOSE_COUNTS = 0.5
"""What a hub left loose counts against one left right, when it is asked whether to turn at all; one left tight counts
nothing. Assumption."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A turn of the cone from where it stands.

    Attributes:
        length: along the axle [m], positive out; lead_per_radian: of the thread [m/rad].
        needed: what is believed of the turn that would end in the middle of the good range [m].
        chance, tight: of ending in the good range, and of ending tight.
        loose_now, chance_now, tight_now: of being loose, right and tight already.
    """

    length: float
    lead_per_radian: float
    needed: Likely
    chance: float
    tight: float
    loose_now: float
    chance_now: float
    tight_now: float

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
    def cautious(self) -> bool:
        """Whether it is a step on the loose side, to be felt again, and no whole turn."""
        return self.chance < FULL

    @property
    def known(self) -> bool:
        """Whether enough is known to advise: it is likely right as it is, or turning helps and the way is plain."""
        way = self.loose_now if self.length < 0 else self.tight_now
        return self.chance_now >= FULL or (self.worth_it and max(self.chance, way) >= FULL)

    @property
    def worth_it(self) -> bool:
        """Whether turning is better than leaving it alone: never where it is no likelier to end right than now."""
        loose = 1 - self.chance - self.tight
        gain = (self.chance - self.chance_now) + LOOSE_COUNTS * (loose - self.loose_now)
        return self.chance > self.chance_now and gain > WORTH_IT


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
    error = float(np.hypot(turn_error(model.scenario, model.beliefs.hand_error), model.beliefs.range_error))
    turns, right, tight = _chances(middles, height, window, error)
    worst = tight
    for hand in _hands(model.pushes, chance):
        one = np.histogram(closed[hand], edges, weights=chance[hand])[0]
        worst = np.maximum(worst, _chances(middles, one / one.sum(), window, error)[2])
    best = _choose(right, worst)
    loose_now = float(height[middles > window.loose_edge].sum())
    tight_now = float(height[middles < window.tight_edge].sum())
    return Move(
        length=float(turns[best]),
        lead_per_radian=model.scenario.axle.lead_per_radian,
        needed=summarise(window.target - closed, chance, step=STEP),
        chance=float(right[best]),
        tight=float(tight[best]),
        loose_now=loose_now,
        chance_now=1 - loose_now - tight_now,
        tight_now=tight_now,
    )


def _hands(pushes: tuple[Push, ...], chance: Array) -> Iterator[Indices]:
    """Yield the cases of each part of the pushes that the readings leave, where there is more than one part.

    `chance` (c, n, m) is of cases, each once for every push.
    """
    part = np.array([min(int(push.rank * HANDS), HANDS - 1) for push in pushes])
    each = np.resize(part, len(chance))
    share = chance.sum(axis=(1, 2)) / chance.sum()
    parts = [number for number in range(HANDS) if share[each == number].sum() >= HELD]
    yield from (np.flatnonzero(each == number) for number in parts if len(set(part)) > 1)


def _choose(right: Array, tight: Array) -> int:
    """Return the number of the turn likeliest to end right of those that seldom end tight; of equals the middle one.

    Far enough out none ends tight, so there always is one.
    """
    return middle_of_best(np.where(tight <= MOST_TIGHT, right, -1.0))


def _chances(end_play: Array, height: Array, window: Window, error: float) -> tuple[Array, Array, Array]:
    """Return turns (k,) [m], the chance of ending in the window after each, and that of ending tight."""
    span = end_play[-1] - end_play[0] + window.width
    around = np.arange(-span, span + STEP, STEP) + window.target
    tight = ndtr((window.tight_edge - around) / error)
    inside = ndtr((window.loose_edge - around) / error) - tight
    # end play e turned by t is in the window with inside(e + t): a correlation over e
    right, over = (np.correlate(part, height, mode="valid") for part in (inside, tight))
    turns = around[0] - end_play[0] + STEP * np.arange(right.size)
    return turns, np.asarray(right), np.asarray(over)
