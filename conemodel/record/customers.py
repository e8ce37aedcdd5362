"""A customer's data deleted on request, history too, and out of the file itself; copies that hold it are named."""

import json
import re
import sqlite3
from collections.abc import Iterable
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path

from conemodel.base.errors import InputProblems, Problem
from conemodel.record.backups import known_copies, opened
from conemodel.record.cards import cards_in, delete_card, keep_card
from conemodel.record.database import Database, RecordError, transaction
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.same_wheel import plain

CUSTOMER = "customer"
"""The step at which a card names its customer."""

NOT_KNOWN = (
    "Exported files, printed cards and copies made by anything else cannot be known here: see to them too."
)
"""What whoever deletes a customer should know."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Deleted:
    """What was deleted of a customer, and what was not.

    Attributes:
        cards: how many cards, with all of their answers; former: how many answers by which another customer's card once
            bore the name.
        mentioned: ids of cards of others that hold the name in some text, which were left.
        erased: whether the text is out of the record's own files as well; otherwise another program held them.
        copies: of the record that still hold the name; unread: that may, and could not be read; absent: that are not
            where they were written.
    """

    cards: int
    former: int
    mentioned: tuple[str, ...]
    erased: bool
    copies: tuple[Path, ...]
    unread: tuple[Path, ...]
    absent: tuple[Path, ...]

    @property
    def lines(self) -> tuple[str, ...]:
        """What was deleted and what was not, in words."""
        lines = [f"cards deleted: {self.cards}; answers deleted from cards of others: {self.former}"]
        lines += [f"{each}: left, a card of another that mentions the name" for each in self.mentioned]
        lines += [f"{each}: a copy of the record that still holds the name" for each in self.copies]
        lines += [f"{each}: cannot be read, and may hold the name" for each in self.unread]
        lines += [
            f"{each}: a copy that is not where it was written, and may hold the name" for each in self.absent
        ]
        if not self.erased:
            held = (
                "Another program held the record: its file may still hold the text. Close it, delete again."
            )
            lines.append(held)
        return (*lines, NOT_KNOWN)


def count_customer(name: str, database: Database) -> tuple[int, int]:
    """Return how many cards are a customer's, and how many of others once bore the name.

    Raises:
        RecordError: the record could not be read.
    """
    wanted = plain(name)
    if not wanted:
        return 0, 0
    with database.reading() as connection:
        theirs, others = _split(cards_in(connection), wanted)
    return len(theirs), sum(_without(wanted, card) != card for card in others)


def delete_customer(name: str, database: Database) -> Deleted:
    """Delete every card of a customer, and the name from the history of others' cards; capitals make no difference.

    Raises:
        InputProblems: no name.
        RecordError: the record could not be read or written.
    """
    wanted = plain(name)
    if not wanted:
        raise InputProblems([Problem(where=CUSTOMER, value="", limit="must be a name")])
    with database.reading() as connection:
        connection.execute("PRAGMA secure_delete = ON")
        with transaction(connection):
            theirs, others = _split(cards_in(connection), wanted)
            for card in theirs:
                delete_card(card.id, connection)
            left = [_without(wanted, card) for card in others]
            for before, after in zip(others, left, strict=True):
                if before != after:
                    keep_card(after, connection)
    copies, unread, absent = _copies_with(wanted, database)
    return Deleted(
        cards=len(theirs),
        former=sum(
            len(before.entries) - len(after.entries) for before, after in zip(others, left, strict=True)
        ),
        mentioned=tuple(
            card.id for card in left if any(_mentions(wanted, each.value) for each in card.entries)
        ),
        erased=_erase(database),
        copies=copies,
        unread=unread,
        absent=absent,
    )


def _split(cards: Iterable[Card], wanted: str) -> tuple[list[Card], list[Card]]:
    """Return the cards of a customer, and those of others."""
    sorted_out: tuple[list[Card], list[Card]] = ([], [])
    for card in cards:
        sorted_out[plain(card.text(CUSTOMER)) != wanted].append(card)
    return sorted_out


def _without(wanted: str, card: Card) -> Card:
    """Return a card without the answers that named a customer."""
    kept = (each for each in card.entries if each.place.step != CUSTOMER or plain(str(each.value)) != wanted)
    return replace(card, entries=tuple(kept))


def _mentions(wanted: str, value: object) -> bool:
    """Return whether an answer holds a name as words of its own."""
    return isinstance(value, str) and bool(re.search(rf"(?<!\w){re.escape(wanted)}(?!\w)", plain(value)))


def _erase(database: Database) -> bool:
    """Write the record anew without what was deleted, its log too, and return whether nothing of it is left."""
    try:
        with database.reading() as connection:
            connection.execute("VACUUM")
            busy = connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
    except RecordError:
        return False
    return not busy


def _copies_with(
    wanted: str, database: Database
) -> tuple[tuple[Path, ...], tuple[Path, ...], tuple[Path, ...]]:
    """Return the copies of the record that hold a name, those that cannot be read, and those that are not there."""
    hold: list[Path] = []
    unread: list[Path] = []
    absent: list[Path] = []
    for path in known_copies(database):
        try:
            if not path.is_file():
                absent.append(path)
            elif _holds(wanted, path):
                hold.append(path)
        except (sqlite3.Error, OSError, ValueError):
            unread.append(path)
    return tuple(hold), tuple(unread), tuple(absent)


def _holds(wanted: str, path: Path) -> bool:
    """Return whether an answer in a copy of the record mentions a name."""
    with closing(opened(path)) as connection:
        if not connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'card_entry'").fetchone():
            return False
        values = (json.loads(row[0]) for row in connection.execute("SELECT value FROM card_entry"))
        return any(_mentions(wanted, value) for value in values)
