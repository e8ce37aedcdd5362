"""The two things a hand is asked: which of two hubs has more play, and which is tighter."""

from dataclasses import dataclass
from math import exp, log1p
from typing import Literal

from conemodel.base.units import MM, NEWTON_MM, Unit
from conemodel.parts.unknowns.senses import FELT_AT_RIM, FELT_RIPPLE
from conemodel.tasks.hand.felt_hub import FeltHub
from conemodel.tasks.hand.psychometric import TOLD_SPREADS

KindName = Literal["play", "tightness"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One thing a hand is asked.

    Attributes:
        name: stable; question: as it is asked; more: what is said of the hub that has more of it.
        unit: in which a difference is told; place: where it is felt.
        just_told: the difference a usual hand tells three times in four, in the measure of differences.
        least, most: what both hubs of a pair have about them, so that none is known by its own feel [m or N·m].
    """

    name: KindName
    question: str
    more: str
    unit: Unit
    place: str
    just_told: float
    least: float
    most: float

    @property
    def usual(self) -> float:
        """The usual spread of the difference felt, in the measure of differences."""
        return self.just_told / TOLD_SPREADS

    @property
    def middle(self) -> float:
        """The level at which sizes and turns are told [m or N·m]."""
        return (self.least + self.most) / 2

    def levels(self, level: float, difference: float) -> tuple[float, float]:
        """Return what the first and the second hub of a pair have [m or N·m]."""
        raise NotImplementedError

    def size(self, difference: float) -> float:
        """Return a difference at the middle level as it is told, with its sign [m or N·m]."""
        first, second = self.levels(self.middle, difference)
        return second - first

    def turn(self, hub: FeltHub, difference: float) -> float:
        """Return a difference at the middle level as a turn of the cone, with its sign [rad]."""
        first, second = (self.stand(hub, level) for level in self.levels(self.middle, difference))
        return second - first

    def stand(self, hub: FeltHub, level: float) -> float:
        """Return how far from first touch the cone of a hub stands that has a level [rad]."""
        raise NotImplementedError


class _Play(Kind):
    """Free play at the rim; differences in metres. Both hubs have some, so a knock by itself tells nothing."""

    __slots__ = ()

    def levels(self, level: float, difference: float) -> tuple[float, float]:
        return level + max(0.0, -difference), level + max(0.0, difference)

    def stand(self, hub: FeltHub, level: float) -> float:
        return hub.turn_for_play(level)


class _Tightness(Kind):
    """Torque of the twirled axle; differences as natural logarithms of the torques' ratio.

    What fingers tell of a torque is a share of it. Source: [JanduraSrinivasan1994]
    """

    __slots__ = ()

    def levels(self, level: float, difference: float) -> tuple[float, float]:
        return level * exp(-difference / 2), level * exp(difference / 2)

    def stand(self, hub: FeltHub, level: float) -> float:
        return hub.turn_for_torque(level)


KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        _Play(
            name="play",
            question="Which hub has more play?",
            more="has more play",
            unit=MM,
            place="at the rim",
            just_told=MM.to_si(FELT_AT_RIM.usual),
            least=MM.to_si(0.03),
            most=MM.to_si(0.07),
        ),
        _Tightness(
            name="tightness",
            question="Which hub is tighter?",
            more="is tighter",
            unit=NEWTON_MM,
            place="at the axle",
            just_told=log1p(FELT_RIPPLE.usual),
            least=NEWTON_MM.to_si(18.0),
            most=NEWTON_MM.to_si(22.0),
        ),
    )
}
"""Both, by name. The torques lie about where a hub stops being good: what grease and a seal take, some 8 N·mm, with
the limit on preload's, `PRELOAD_TORQUE`, on top."""
