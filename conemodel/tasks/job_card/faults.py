"""Faults found, counted over many cards."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from conemodel.parts.hub import SIDES
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.sections.as_found import NOT_LOOKED, NOT_TRIED
from conemodel.tasks.job_card.sections.strip import PALE, PITTED
from conemodel.tasks.job_card.this_wheel import FELT

ROUGH = ("tight", "gritty", "notchy", "tight in one place")


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultKind:
    """A kind of fault: its words, whether anybody looked for it on a card, and whether it was found there."""

    words: str
    looked: Callable[[Card], bool]
    found: Callable[[Card], bool]


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """How often a fault was found, of how many cards on which anybody looked."""

    words: str
    found: int
    looked: int


def _said(words: str, step: str, *answers: str, sides: bool = False) -> FaultKind:
    """Return a fault that some answers to a step tell, on either side where it is asked of both."""
    wheres = SIDES if sides else ("",)
    return FaultKind(
        words=words,
        looked=lambda card: any(
            card.answer(step, where) not in (None, NOT_LOOKED, NOT_TRIED) for where in wheres
        ),
        found=lambda card: any(card.answer(step, where) in answers for where in wheres),
    )


FAULTS = (
    _said("Play at the rim, clamp closed", "found_play_closed", *FELT),
    _said("Not turning free", "found_turning", *ROUGH),
    _said("Far side unlocked", "found_far_locked", "no"),
    _said("Pitted cone", "cone", PITTED, sides=True),
    _said("Pitted cup", "cup", PITTED, sides=True),
    _said("Pale track on a cone", "cone", PALE, sides=True),
    _said("Pale track in a cup", "cup", PALE, sides=True),
    _said("Seal worn or damaged", "seal", "worn", "damaged", sides=True),
    _said("Washer's tab worn or damaged", "washer", "worn", "damaged", sides=True),
    _said("Axle's thread worn or damaged", "axle_thread", "worn", "damaged", sides=True),
)
"""In the order of the bench."""


def count_faults(cards: Iterable[Card]) -> tuple[Counted, ...]:
    """Return how often each fault was found, the commonest first; those that nobody looked for are left out."""
    listed = tuple(cards)
    counted = (
        Counted(words=kind.words, found=sum(map(kind.found, listed)), looked=sum(map(kind.looked, listed)))
        for kind in FAULTS
    )
    return tuple(sorted((one for one in counted if one.looked), key=lambda one: -one.found))
