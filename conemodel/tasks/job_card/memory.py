"""What the cards together remember: which of them speak of something, and which wheels are to be looked at again."""

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.same_wheel import plain, wheel_names


class Recheck(NamedTuple):
    """A card whose wheel is to be looked at again, and how long that is overdue [days], below 0 where it is to come."""

    card: Card
    overdue: int


def find_cards(cards: Iterable[Card], words: str) -> tuple[Card, ...]:
    """Return the cards that hold each of some words in any answer that stands, or in a mechanic's name."""
    wanted = plain(words).split()
    return tuple(card for card in cards if all(word in _said(card) for word in wanted))


def list_rechecks(cards: Iterable[Card], today: date) -> tuple[Recheck, ...]:
    """Return the wheels that have a day to be looked at again, the longest overdue first.

    A wheel that came back has its day from its last card; one that only may be the same keeps its own.
    """
    found: list[Recheck] = []
    seen: set[tuple[str, ...]] = set()
    for card in sorted(cards, key=lambda card: (card.begun_at, card.id), reverse=True):
        names, day = wheel_names(card), card.text("recheck_on")
        if day and not names & seen:
            found.append(Recheck(card, (today - date.fromisoformat(day)).days))
        seen |= names
    return tuple(sorted(found, key=lambda recheck: (-recheck.overdue, recheck.card.id)))


def _said(card: Card) -> str:
    answers = (str(value) for value in card.answers.values())
    return plain("\n".join((*answers, *(entry.by or "" for entry in card.entries))))
