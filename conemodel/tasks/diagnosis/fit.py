"""What is said of two parts that must go together."""

from dataclasses import dataclass
from typing import Literal

FitState = Literal["good", "look again", "wrong", "not measured"]

SURE = 0.5
"""Chance from which a fault of fit is called wrong; from `DOUBT` on it is looked at again."""

DOUBT = 0.05
"""See `SURE`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """One thing that must go together.

    Attributes:
        key: stable name; label: in words.
        state: good, look again, wrong, or not measured.
        chance: that it is wrong, where that can be said.
        sentence: what was found and what to do.
        words: a few, for the largest type, where it is wrong; those of what it shows where left out.
        unsafe: the wheel can come out.
    """

    key: str
    label: str
    state: FitState
    sentence: str
    chance: float | None = None
    words: str = ""
    unsafe: bool = False


def state_of(chance: float) -> FitState:
    """Return what is said of a fit that is wrong with this chance."""
    return "wrong" if chance > SURE else "look again" if chance > DOUBT else "good"
