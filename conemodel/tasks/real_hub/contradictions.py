"""Counts that contradict each other whatever the hub: told from the counts themselves, before anything is fitted.

Two counts of one thing are one number; a hub that turns stiffer than further out has no play there; the locknut and the
clamp take off end play, and never add any. Differences count from `MISFIT` of their standard error. Source: mechanics
of the joint; the errors are the stated ones of a hand, squares added [GUM2008].
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.real_hub import State
from conemodel.tasks.hand.procedure import SPREAD_FACTOR
from conemodel.tasks.real_hub.readings import Felt, Reading
from conemodel.tasks.real_hub.shown import Shown
from conemodel.tasks.real_hub.unknown_hub import UnknownHub

MISFIT = 3.0
"""Standard errors from which a reading does not fit [-]: one in 370 goes as far by chance."""

Kind = Literal["clamping", "locking", "drag past play", "repeated", "beyond"]

AFTER: dict[Literal["locking", "clamping"], tuple[State, State]] = {
    "clamping": ("locked", "clamped"),
    "locking": ("nut loose", "locked"),
}
"""What is done to a hub between two states."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """Readings of which one at least is wrong.

    Attributes:
        kind: stable; readings: their numbers, rising.
        apart: of repeated counts how far they differ, of drag past play how much further out it lies, of locking and
            clamping how much further out its readings lie than those before, negative the wrong way [rad]; of a hand
            beyond all that is assumed, nothing.
    """

    kind: Kind
    readings: tuple[int, ...]
    apart: float = 0.0


Numbered = Mapping[int, Reading]
"""Readings by number."""


def find_contradictions(hub: UnknownHub, readings: Numbered) -> tuple[Contradiction, ...]:
    """Return every contradiction between counts, what is done to the hub first.

    Raises:
        NotConverged: no balance of forces was found.
    """
    felt = {number: each for number, each in readings.items() if isinstance(each, Felt)}
    hand = hub.show_hand(SPREAD_FACTOR)
    errors = {number: each.spread(hub, hand) for number, each in felt.items()}
    return (*_of_stages(hub, felt, errors), *_of_drag(hub, felt), *_repeated(hub, felt, errors))


def _of_stages(
    hub: UnknownHub, felt: Mapping[int, Felt], errors: Mapping[int, float]
) -> Iterator[Contradiction]:
    """Yield where locking or clamping took less end play, or more, than it can."""
    for kind, (before, after) in AFTER.items():
        shifts = [
            _shift(_alike(felt, what, before), _alike(felt, what, after), errors) for what in ("play", "drag")
        ]
        known = [shift for shift in shifts if shift is not None]
        if not known:
            continue
        weights = np.array([error**-2 for _, error in known])
        moved = float(weights @ [turn for turn, _ in known] / weights.sum())
        taken = _taken(hub.assumed, before, after)
        error = float(np.hypot(weights.sum() ** -0.5, taken.std()))
        if abs(moved * hub.lead - taken.mean()) > MISFIT * error:
            compared = (
                number
                for what, shift in zip(("play", "drag"), shifts, strict=True)
                if shift is not None
                for state in (before, after)
                for number in _alike(felt, what, state)
            )
            yield Contradiction(kind=kind, readings=tuple(sorted(compared)), apart=moved)


def _alike(felt: Mapping[int, Felt], what: str, state: State) -> dict[int, Felt]:
    """Return the counts of one thing."""
    return {number: each for number, each in felt.items() if (each.what, each.state) == (what, state)}


def _shift(
    before: Mapping[int, Felt], after: Mapping[int, Felt], errors: Mapping[int, float]
) -> tuple[float, float] | None:
    """Return how much further out the mean of some counts lies than of others [rad], and its standard error [m]."""
    if not before or not after:
        return None
    middles = [np.mean([each.count for each in side.values()]) for side in (before, after)]
    spread = [np.hypot.reduce([errors[number] for number in side]) / len(side) for side in (before, after)]
    return float(middles[1] - middles[0]), float(np.hypot(spread[0], spread[1]))


def _taken(assumed: Shown, before: State, after: State) -> Array:
    """Return what is assumed to be taken off end play between two states (n,) [m]."""
    return np.asarray(assumed.end_play[before] - assumed.end_play[after])


def _of_drag(hub: UnknownHub, felt: Mapping[int, Felt]) -> Iterator[Contradiction]:
    """Yield drag that reaches further out than play of the same state."""
    for play, drag in _pairs(felt):
        first, second = felt[play], felt[drag]
        apart = second.count - first.count
        least = apart + (first.step + second.step) / 2  # each edge lies somewhere between two counts
        if least * hub.lead > MISFIT * float(np.hypot(first.turn_error(hub), second.turn_error(hub))):
            yield Contradiction(
                kind="drag past play", readings=(min(play, drag), max(play, drag)), apart=apart
            )


def _pairs(felt: Mapping[int, Felt]) -> Iterator[tuple[int, int]]:
    """Yield a count of play and one of drag in the same state, every two of them."""
    for play, one in felt.items():
        for drag, other in felt.items():
            if (one.what, other.what) == ("play", "drag") and one.state == other.state:
                yield play, drag


def _repeated(
    hub: UnknownHub, felt: Mapping[int, Felt], errors: Mapping[int, float]
) -> Iterator[Contradiction]:
    """Yield counts of one thing that differ by more than a hand errs."""
    for one, other in combinations(felt, 2):
        first, second = felt[one], felt[other]
        apart = abs(first.count - second.count)
        if (first.what, first.state) != (second.what, second.state):
            continue
        if apart * hub.lead > MISFIT * float(np.hypot(errors[one], errors[other])):
            yield Contradiction(kind="repeated", readings=(one, other), apart=apart)


def numbered(readings: Sequence[Reading]) -> dict[int, Reading]:
    """Return readings by their number."""
    return dict(enumerate(readings))
