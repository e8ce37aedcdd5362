"""Job cards as the text of one JSON file, every answer on a line of its own; `card_reader` reads it back."""

import json
from collections.abc import Iterable
from hashlib import sha256

from conemodel.base.errors import ConemodelError
from conemodel.tasks.job_card.card import Card, Entry, Value

FORMAT, VERSION = "conemodel job cards", 1
"""What such a file calls itself, and the newest version of it that is read."""

LARGEST = 32 * 1024 * 1024
"""Largest file [bytes]: some four thousand cards."""

FILE_NOTE = (
    "The file holds the names of customers and mechanics and every answer, corrected ones too. "
    "It is not encrypted."
)
"""What whoever takes such a file should know."""

FILE_KEYS, CARD_KEYS = ("format", "version", "cards"), ("id", "begun_at", "entries")
ENTRY_KEYS = ("at", "by", "step", "where", "value")
"""What stands in the file, on a card and in an entry."""

SUM_KEY = "sum"
"""The sum of what stands on a card; who writes one by hand leaves it out."""


class TooManyCards(ConemodelError):
    """The cards together are larger than the largest file that is read back."""


def write_cards(cards: Iterable[Card], *, most: int = LARGEST) -> str:
    """Return cards as JSON, in ASCII, that `read_cards` reads back to equal ones.

    Raises:
        TooManyCards: the text is over `most` bytes.
    """
    head = f'{{\n"format": {json.dumps(FORMAT)},\n"version": {VERSION},\n"cards": [\n'
    text = head + ",\n".join(map(_write, cards)) + "\n]\n}\n"
    if len(text) > most:
        limit = f"a file of more than {most // 1024} KB would not be read back"
        raise TooManyCards(
            f"These are too many job cards: {limit}. Make a backup instead, or take them singly."
        )
    return text


def _write(card: Card) -> str:
    head = json.dumps({"id": card.id, "begun_at": card.begun_at, SUM_KEY: card_sum(card)})
    lines = ",\n".join(json.dumps(dict(zip(ENTRY_KEYS, _row(entry), strict=True))) for entry in card.entries)
    return f'{head[:-1]}, "entries": [\n{lines}\n]}}'


def _row(entry: Entry) -> tuple[Value, ...]:
    return (entry.at, entry.by, *entry.place, entry.value)


def card_sum(card: Card) -> str:
    """Return a word that is another one where anything on a card is."""
    everything = json.dumps([card.id, card.begun_at, *map(_row, card.entries)])
    return sha256(everything.encode()).hexdigest()[:16]
