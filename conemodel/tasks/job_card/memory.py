"""What the cards together remember: which of them speak of something, and which wheels are to be looked at again."""

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from conemodel.tasks.job_card.card import Card


class Recheck(NamedTuple):
    """A card whose wheel is to be looked at again, and how long that is overdue [days], below 0 where it is to come."""

    card: Card
    overdue: int


def find_cards(cards: Iterable[Card], words: str) -> tuple[Card, ...]:
    """Return the cards that hold each of some words in any answer that stands, or in a mechanic's name."""
    wanted = words.casefold().split()
    return tuple(card for card in cards if all(word in _said(card) for word in wanted))


def list_rechecks(cards: Iterable[Card], today: date) -> tuple[Recheck, ...]:
    """Return the wheels that have a day to be looked at again, the longest overdue first.

    A wheel that came back has its day from its last card: cards of one tag and of front or rear alike are of one wheel.
    """
    last: dict[tuple[str, str], Card] = {}
    for card in sorted(cards, key=lambda card: card.begun_at):
        tag = card.text("tag").casefold() or card.id
        last[tag, card.text("wheel")] = card
    days = [(card, card.text("recheck_on")) for card in last.values()]
    found = [Recheck(card, (today - date.fromisoformat(day)).days) for card, day in days if day]
    return tuple(sorted(found, key=lambda recheck: (-recheck.overdue, recheck.card.id)))


def _said(card: Card) -> str:
    answers = (str(value) for value in card.answers.values())
    return "\n".join((*answers, *(entry.by or "" for entry in card.entries))).casefold()
