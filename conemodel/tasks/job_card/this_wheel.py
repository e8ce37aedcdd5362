"""The wheel in hand on earlier cards: which is its last, what came back, and what stands beside what now."""

from collections.abc import Iterable, Iterator
from datetime import date
from typing import NamedTuple

from conemodel.parts.hub import SIDES
from conemodel.tasks.job_card.card import Card, Place
from conemodel.tasks.job_card.same_wheel import is_same_wheel, may_be_same_wheel
from conemodel.tasks.job_card.sections.as_found import NOT_TRIED
from conemodel.tasks.job_card.steps import STEPS, rounds_of

FELT = ("slight", "clear")
"""Words for play that is there."""

SIDE_BY_SIDE = (
    "found_play_closed", "found_turning", "ball_count", "ball_size", "cone", "cup", "fixed_protrusion", "width",
    "contact", "turn", "outcome", "play_closed", "turning",
)  # fmt: skip
"""Steps whose answers stand beside those of the last card."""


class Beside(NamedTuple):
    """One answer, then and now, in words; empty where there was none."""

    asked: str
    then: str
    now: str


def last_of_wheel(card: Card, cards: Iterable[Card]) -> Card | None:
    """Return the last card of the same wheel that was begun before this one, None for none.

    Where there is none, the last one that may be of it.
    """
    earlier = [
        each
        for each in cards
        if each.id != card.id and each.begun_at <= card.begun_at and may_be_same_wheel(card, each)
    ]
    return max(earlier, key=lambda each: (is_same_wheel(card, each), each.begun_at, each.id), default=None)


def came_back(card: Card, before: Card) -> tuple[str, ...]:
    """Return what was put right on the last card and is found again, in sentences, an if before what is not sure."""
    days = (date.fromisoformat(card.begun_at[:10]) - date.fromisoformat(before.begun_at[:10])).days
    since = (
        f"{days} day{'' if days == 1 else 's'} after the last card" if days else "on the day of the last card"
    )
    found = _came_back(card, before)
    if not is_same_wheel(card, before):
        found = (f"If it is the same wheel: {words[:1].lower()}{words[1:]}" for words in found)
    return tuple(f"{words}, {since}." for words in found)


def _came_back(card: Card, before: Card) -> Iterator[str]:
    if card.answer("found_play_closed") in FELT and before.answer("play_closed") == "none":
        yield f"Seen on {before.begun_at[:10]}, left without play: play is back"
    rough = card.answer("found_turning")
    if rough not in (None, "free", NOT_TRIED) and before.answer("turning") == "free":
        yield f"It left turning free and now turns {rough}"
    if card.answer("found_far_locked") == "no" and before.answer("far_locked") == "yes":
        yield "The far side has come unlocked"


def side_by_side(card: Card, before: Card) -> tuple[Beside, ...]:
    """Return what the last card had answered beside what stands now, in the order of the bench."""
    rows = (Beside(_asked(place), _words(place, before), _words(place, card)) for place in _places(before))
    return tuple(row for row in rows if row.then)


def _places(before: Card) -> Iterator[Place]:
    for name in SIDE_BY_SIDE:
        yield from STEPS[name].places(rounds_of(before))


def _asked(place: Place) -> str:
    words = STEPS[place.step].words
    if place.where in SIDES:
        return f"{words}, {place.where}"
    return f"{words}, round {place.where}" if place.where else words


def _words(place: Place, card: Card) -> str:
    return STEPS[place.step].said(card.answer(*place))
