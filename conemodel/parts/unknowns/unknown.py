"""What one unknown is: a range, a usual value, a reason and a word."""

from dataclasses import dataclass, replace
from typing import Literal

from conemodel.base.units import Unit

Shape = Literal["even", "peaked", "bell"]
"""How values lie between their ends: all alike, a triangle with its top at the usual, a normal spread cut off."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """One quantity that is not measured on a given hub; every number of it is an assumption.

    Attributes:
        name: stable; words: as a mechanic says it; unit: of the numbers.
        low, usual, high: the range it is expected in [`unit`]; shape: how values lie in it.
        because: common practice, a standard or a guess.
    """

    name: str
    words: str
    unit: Unit
    low: float
    usual: float
    high: float
    shape: Shape = "peaked"
    because: str

    @property
    def span(self) -> tuple[float, float]:
        """Both ends, as fields of a part are declared [`unit`]."""
        return self.low, self.high

    @property
    def factor(self) -> float:
        """The factor either way that holds two thirds, where the range is one that hands or fingers differ in [-].

        >>> from conemodel.parts.unknowns.senses import FELT_AT_RIM, FELT_RIPPLE
        >>> FELT_AT_RIM.factor, FELT_RIPPLE.factor
        (1.4, 1.6)
        """
        return round(self.high / self.usual, 6)

    def usual_in(self, unit: Unit) -> float:
        """Return the usual value in another `unit` of the same kind.

        >>> from conemodel.base.units import KILONEWTON
        >>> from conemodel.parts.unknowns.joint import CLAMP_FORCE
        >>> CLAMP_FORCE.usual_in(KILONEWTON)
        5.0
        """
        return unit.from_si(self.unit.to_si(self.usual))

    def range_in_words(self, unit: Unit | None = None) -> str:
        """Return the range in words, in its own unit or in another.

        >>> from conemodel.parts.unknowns.hands import DRIFT
        >>> from conemodel.parts.unknowns.hub import GROOVE
        >>> DRIFT.range_in_words(), GROOVE.range_in_words()
        ('2 to 5°', '0.54 to 0.6')
        """
        unit = unit or self.unit
        low, high = (f"{unit.from_si(self.unit.to_si(end)):.6g}" for end in self.span)
        return _with_unit(f"{low} to {high}", unit)

    @property
    def usual_in_words(self) -> str:
        """The usual value in words.

        >>> from conemodel.parts.unknowns.hands import DRIFT, FINGER_TORQUE
        >>> DRIFT.usual_in_words, FINGER_TORQUE.usual_in_words
        ('3°', '0.1 N·m')
        """
        return _with_unit(f"{self.usual:.6g}", self.unit)

    def with_range(self, low: float, high: float, *, because: str) -> "Unknown":
        """Return the same quantity in another range [`unit`] for the reason given, its usual value kept inside."""
        usual = min(max(self.usual, low), high)
        return replace(self, low=low, usual=usual, high=high, because=because)


def _with_unit(number: str, unit: Unit) -> str:
    return f"{number}{'' if unit.symbol in ('', '°') else ' '}{unit.symbol}"
