"""The turn of the cone that is advised: where it most likely ends right, and never further in than is safe."""

from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.hands import SEEN_TURN
from conemodel.solve.stages.terms import SettingTerms
from conemodel.tasks.setting.drawn_hubs import DrawnHubs
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.outlook import Spread, moved_out

MOST_TIGHT = 0.1
"""Chance of ending too tight that a turn may have. Judgement: play that is left shows and can be measured, a bearing
that was left tight hides it and wears; common practice is to come in from the loose side."""

FULL = 0.5
"""Chance of ending right from which a turn is advised outright; below it is a cautious step. Judgement."""

WORTH_IT = 0.05
"""A turn is made only where it gains more chance of right than this: what is right is left alone. Judgement."""

TRIED = 241
"""Turns tried between the furthest in and the furthest out."""

PLATEAU = 0.002
"""Turns whose chance is this close to the best are as good; the middle of them is taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """A turn of the cone from where it stands; every length along the axle [m], positive out, negative in.

    Attributes:
        length: to make; right, tight: how likely it ends so [-].
        needed: to the middle of the good range, were everything as assumed.
        low, high: its range over everything assumed: the spreads taken as independent, root of the sum of squares.
        spreads: what each assumption does to it, widest first.
        lead_per_radian: of the axle's thread [m/rad].
    """

    length: float
    right: float
    tight: float
    needed: float
    low: float
    high: float
    spreads: tuple[Spread, ...]
    lead_per_radian: float

    @property
    def angle(self) -> float:
        """The turn to make [rad]; positive is out."""
        return self.length / self.lead_per_radian

    @property
    def angle_range(self) -> tuple[float, float]:
        """Range of the turn needed [rad]."""
        return self.low / self.lead_per_radian, self.high / self.lead_per_radian

    @property
    def cautious(self) -> bool:
        """It is a step on the way only, to be felt before the next."""
        return self.right < FULL

    @property
    def small(self) -> bool:
        """It is no more than an eye tells: as good as none."""
        return abs(self.angle) < SEEN_TURN.unit.to_si(SEEN_TURN.usual)

    @property
    def widest(self) -> str:
        """The assumption that widens the range most, in words; empty where nothing is assumed."""
        return self.spreads[0].label if self.spreads and self.spreads[0].width > 0 else ""


def turn_of(
    scenario: Scenario,
    terms: SettingTerms[float],
    window: Window,
    spreads: tuple[Spread, ...],
    drawn: DrawnHubs,
) -> Turn:
    """Return the turn to make from where the cone stands: of those that seldom end tight, the likeliest to be right."""
    needed = window.target - terms.judged_end_play
    up = sum(max(spread.high - needed, 0.0) ** 2 for spread in spreads) ** 0.5
    down = sum(max(needed - spread.low, 0.0) ** 2 for spread in spreads) ** 0.5
    length, right, tight = _likeliest(drawn, moved_out(scenario))
    return Turn(
        length=length,
        right=right,
        tight=tight,
        needed=needed,
        low=needed - down,
        high=needed + up,
        spreads=spreads,
        lead_per_radian=scenario.axle.lead_per_radian,
    )


def _likeliest(drawn: DrawnHubs, moved: float) -> tuple[float, float, float]:
    """Return the turn [m] that most likely ends right of those whose chance of tight is small, and both chances."""
    furthest_in = drawn.cautious_turn(moved, tight=MOST_TIGHT)
    furthest_out = max(furthest_in, float(np.max(drawn.loose_edge - drawn.end_play)) - moved)
    turns = np.linspace(furthest_in, furthest_out, TRIED)
    right, tight = drawn.chances_after(moved, turns)
    best = middle_of_best(right)
    return float(turns[best]), float(right[best]), float(tight[best])


def middle_of_best(chance: Array) -> int:
    """Return the number of the likeliest of several turns (t,), of those as good the middle one."""
    good = np.flatnonzero(chance >= chance.max() - PLATEAU)
    return int(good[good.size // 2])
