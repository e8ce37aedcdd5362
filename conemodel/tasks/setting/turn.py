"""The turn of the cone that is advised: where it most likely ends right, and never further in than is safe."""

from dataclasses import dataclass

from conemodel.parts.scenario import Scenario
from conemodel.parts.unknowns.hands import SEEN_TURN
from conemodel.solve.stages.terms import SettingTerms
from conemodel.tasks.setting.aim import Aim
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.outlook import Spread

FULL = 0.5
"""Chance of ending right from which a turn is advised outright; below it is a cautious step. Judgement."""

WORTH_IT = 0.05
"""A turn is made only where it gains more chance of right than this: what is right is left alone. Judgement."""


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
    def loose(self) -> float:
        """Chance that it ends loose [-]."""
        return 1 - self.right - self.tight

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
    aim: Aim,
    *,
    moved: float,
) -> Turn:
    """Return the turn that brings a cone backed off by `moved` [m] to where it should end."""
    needed = window.target - terms.judged_end_play
    up = sum(max(spread.high - needed, 0.0) ** 2 for spread in spreads) ** 0.5
    down = sum(max(needed - spread.low, 0.0) ** 2 for spread in spreads) ** 0.5
    return Turn(
        length=aim.moved - moved,
        right=aim.right,
        tight=aim.tight,
        needed=needed,
        low=needed - down,
        high=needed + up,
        spreads=spreads,
        lead_per_radian=scenario.axle.lead_per_radian,
    )
