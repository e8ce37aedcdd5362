"""What is known only as a spread of values: its shape, its ends, and why it is taken so."""

from collections.abc import Iterator, Mapping
from math import sqrt
from typing import Any, Self

import numpy as np
from scipy.special import ndtr, ndtri

from conemodel.base.units import DEG, NEWTON, NEWTON_METRE, ONE, UM, Array, Unit
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.unknowns.unknown import Shape, Unknown

BELL_REACH = 2.0
"""Where a bell is cut off at both ends, in standard deviations of the whole bell."""


def standard_error(unknown: Unknown, unit: Unit) -> float:
    """Return the standard deviation of an unknown's spread in `unit`; of a bell, that of the whole bell.

    Limits alone are taken even (4.3.7), a middle that is likelier as a triangle (4.3.9).

    Source: [GUM2008]

    >>> from conemodel.parts.unknowns.hands import MARK_ERROR
    >>> standard_error(MARK_ERROR, DEG)
    2.0
    """
    low, usual, high = (
        unit.from_si(unknown.unit.to_si(end)) for end in (unknown.low, unknown.usual, unknown.high)
    )
    half = (high - low) / 2
    if unknown.shape == "bell":
        return half / BELL_REACH
    if unknown.shape == "even":
        return half / sqrt(3)
    return sqrt(((high - low) ** 2 + (usual - low) * (usual - high)) / 18)


class Uncertain(Part):
    """A number that is not known for a given hub. Subclasses declare `low`, `likely` and `high` in their unit.

    Even: all values alike. Peaked: a triangle with its top at `likely`. Bell: a normal spread about the middle,
    cut off at both ends. Where `low` and `high` are the same, the number is known.
    """

    given_whole = True  # the shape of one spread with the ends of another would be neither

    shape: Shape = quantity(ONE, "how the values lie between the ends", default="even")
    low: float = quantity(ONE, "least")
    likely: float | None = quantity(ONE, "likeliest", default=None)
    high: float = quantity(ONE, "largest")
    because: str = quantity(ONE, "why it is taken so: common practice, a standard, or a guess")

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """The ends must not be upside down, a top must lie between them, and a reason must be given."""
        yield from super().cross_checks(values)
        if not values.get("because", "-").strip():
            yield FieldError(field="because", value='""', limit="must say why the spread is taken so")
        if {"low", "high"} <= values.keys() and values["low"] > values["high"]:
            yield FieldError(
                field="low", value=values["low"], limit="must not be above high, {}", bound=values["high"]
            )
        if values.get("likely") is not None:
            yield from _check_likely(values)

    @classmethod
    def of(cls, unknown: Unknown) -> Self:
        """Return the spread of an unknown as the program assumes it."""
        low, usual, high = map(unknown.unit.to_si, (unknown.low, unknown.usual, unknown.high))
        likely = usual if unknown.shape == "peaked" else None
        return cls(shape=unknown.shape, low=low, likely=likely, high=high, because=unknown.because)

    @property
    def ends(self) -> tuple[float, float]:
        """Least and largest value [SI]."""
        return self.low, self.high

    @property
    def top(self) -> float:
        """Likeliest value, the middle where none was given [SI]."""
        return sum(self.ends) / 2 if self.likely is None else self.likely

    def at(self, share: Array) -> Array:
        """Return the value below which each `share` (...) [-], 0 to 1, of all values lies: (...) [SI].

        >>> UncertainForce(low=3000.0, high=8000.0, because="a guess").at(np.array([0.0, 0.5, 1.0]))
        array([3000., 5500., 8000.])
        """
        low, high = self.ends
        if self.shape == "peaked":
            return _triangle(share, low, self.top, high)
        if self.shape == "bell":
            tail = ndtr(-BELL_REACH)
            return (low + high) / 2 + (high - low) / (2 * BELL_REACH) * ndtri(tail + share * (1 - 2 * tail))
        return low + share * (high - low)


def _check_likely(values: Mapping[str, Any]) -> Iterator[FieldError]:
    """Yield what is wrong with a top that was given."""
    likely = values["likely"]
    if values.get("shape") in ("even", "bell"):
        yield FieldError(field="likely", value=likely, limit="belongs to a peaked spread only")
    if "low" in values and likely < values["low"]:
        yield FieldError(field="likely", value=likely, limit="must not be below low, {}", bound=values["low"])
    if "high" in values and likely > values["high"]:
        yield FieldError(
            field="likely", value=likely, limit="must not be above high, {}", bound=values["high"]
        )


def _triangle(share: Array, low: float, top: float, high: float) -> Array:
    """Return the value below which each `share` of a triangle lies; the reverse of its two parabolas."""
    if high == low:
        return np.full_like(share, low)
    rising = low + np.sqrt(share) * sqrt((high - low) * (top - low))
    falling = high - np.sqrt(1 - share) * sqrt((high - low) * (high - top))
    return np.where(share * (high - low) < top - low, rising, falling)


class UncertainShare(Uncertain):
    """A share from 0 to 1."""

    low: float = quantity(ONE, "least", at_least=0, at_most=1)
    likely: float | None = quantity(ONE, "likeliest", default=None)
    high: float = quantity(ONE, "largest", at_least=0, at_most=1)


class UncertainFriction(Uncertain):
    """A friction coefficient."""

    low: float = quantity(ONE, "least", above=0.02, at_most=0.5)
    likely: float | None = quantity(ONE, "likeliest", default=None)
    high: float = quantity(ONE, "largest", above=0.02, at_most=0.5)


class UncertainGroove(Uncertain):
    """A groove radius over the ball's diameter."""

    low: float = quantity(ONE, "closest", above=0.5, at_most=1)
    likely: float | None = quantity(ONE, "likeliest", default=None)
    high: float = quantity(ONE, "most open", above=0.5, at_most=1)


class UncertainForce(Uncertain):
    """A force."""

    low: float = quantity(NEWTON, "least", at_least=0, at_most=40000)
    likely: float | None = quantity(NEWTON, "likeliest", default=None)
    high: float = quantity(NEWTON, "largest", at_least=0, at_most=40000)


class UncertainTorque(Uncertain):
    """A torque."""

    low: float = quantity(NEWTON_METRE, "least", at_least=0, at_most=80)
    likely: float | None = quantity(NEWTON_METRE, "likeliest", default=None)
    high: float = quantity(NEWTON_METRE, "largest", at_least=0, at_most=80)


class UncertainTurn(Uncertain):
    """A turn of the cone."""

    low: float = quantity(DEG, "least", at_least=-180, at_most=180)
    likely: float | None = quantity(DEG, "likeliest", default=None)
    high: float = quantity(DEG, "largest", at_least=-180, at_most=180)


class UncertainLength(Uncertain):
    """A small length."""

    low: float = quantity(UM, "least", at_least=-1000, at_most=1000)
    likely: float | None = quantity(UM, "likeliest", default=None)
    high: float = quantity(UM, "largest", at_least=-1000, at_most=1000)
