"""Job cards: every answer kept as it is given, so that no tap is lost; what corrects it is added."""

import json
import sqlite3
from collections.abc import Mapping
from datetime import datetime
from uuid import uuid4

from conemodel.base.errors import ConemodelError
from conemodel.record.database import Database, RecordError
from conemodel.record.moments import stamp
from conemodel.record.names import clean_name
from conemodel.tasks.job_card.card import Card, Entry, Place, Value
from conemodel.tasks.job_card.steps import STEPS, check_answers


class NoCard(ConemodelError):
    """There is no card of that id in the record, or no longer."""


def begin_card(database: Database, *, now: datetime | None = None) -> Card:
    """Keep a new card and return it.

    Raises:
        RecordError: the record could not be read or written.
    """
    card = Card(id=uuid4().hex, begun_at=stamp(now))
    with database.writing() as connection:
        connection.execute("INSERT INTO card VALUES (?, ?)", (card.id, card.begun_at))
    return card


def answer(
    card_id: str,
    answers: Mapping[Place, Value],
    database: Database,
    *,
    by: str | None = None,
    now: datetime | None = None,
) -> Card:
    """Keep answers to a card, all or none, and return it; what stands there already is not kept twice.

    Raises:
        InputProblems: answers beyond the limits of their steps, or a name too long.
        NoCard: it is not in the record.
        RecordError: the record could not be read or written.
    """
    check_answers(answers)
    moment, mechanic = stamp(now), clean_name(by)
    with database.writing() as connection:
        card = _card(card_id, connection)
        for place, value in answers.items():
            if value != card.answer(*place):
                card = card.with_entry(Entry(at=moment, by=mechanic, place=place, value=value))
                _insert(card_id, len(card.entries), card.entries[-1], connection)
    return card


def find_card(card_id: str, database: Database) -> Card:
    """Return a card.

    Raises:
        NoCard: it is not in the record.
        RecordError: the record could not be read or written.
    """
    with database.reading() as connection:
        return _card(card_id, connection)


def all_cards(database: Database) -> tuple[Card, ...]:
    """Return every card, the latest first.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.reading() as connection:
        return cards_in(connection)


def cards_in(connection: sqlite3.Connection) -> tuple[Card, ...]:
    """Return the same within an operation that does more."""
    entries: dict[str, list[Entry]] = {}
    for row in connection.execute("SELECT * FROM card_entry ORDER BY card, number"):
        entries.setdefault(row["card"], []).append(_entry(row))
    rows = connection.execute("SELECT * FROM card ORDER BY begun_at DESC, id").fetchall()
    return tuple(
        Card(id=row["id"], begun_at=row["begun_at"], entries=tuple(entries.get(row["id"], ())))
        for row in rows
    )


def kept_card(card_id: str, connection: sqlite3.Connection) -> Card | None:
    """Return a card within an operation that does more, None where it is not there."""
    row = connection.execute("SELECT * FROM card WHERE id = ?", (card_id,)).fetchone()
    if row is None:
        return None
    rows = connection.execute("SELECT * FROM card_entry WHERE card = ? ORDER BY number", (card_id,))
    return Card(id=card_id, begun_at=row["begun_at"], entries=tuple(map(_entry, rows)))


def keep_card(card: Card, connection: sqlite3.Connection) -> None:
    """Keep a card whole within an operation that does more, in place of the one of its id."""
    connection.execute("INSERT OR IGNORE INTO card VALUES (?, ?)", (card.id, card.begun_at))
    connection.execute("DELETE FROM card_entry WHERE card = ?", (card.id,))
    for number, entry in enumerate(card.entries, start=1):
        _insert(card.id, number, entry, connection)


def delete_card(card_id: str, connection: sqlite3.Connection) -> None:
    """Delete a card and all of its answers within an operation that does more."""
    connection.execute("DELETE FROM card_entry WHERE card = ?", (card_id,))
    connection.execute("DELETE FROM card WHERE id = ?", (card_id,))


def _card(card_id: str, connection: sqlite3.Connection) -> Card:
    card = kept_card(card_id, connection)
    if card is None:
        raise NoCard("This card is not in the record: it was deleted, or the address is cut short.")
    return card


def _insert(card_id: str, number: int, entry: Entry, connection: sqlite3.Connection) -> None:
    values = (card_id, number, entry.at, entry.by, *entry.place, json.dumps(entry.value))
    connection.execute("INSERT INTO card_entry VALUES (?, ?, ?, ?, ?, ?, ?)", values)


def _entry(row: sqlite3.Row) -> Entry:
    """Return an entry of the record.

    Raises:
        RecordError: it is none: the file was damaged, or written by a newer version.
    """
    place = Place(row["step"], row["place"])
    try:
        value = json.loads(row["value"])
        known = place.step in STEPS and (value is None or isinstance(value, str | int | float))
    except (ValueError, RecursionError):
        known = False
    if not known:
        which = f"answer {row['number']} of job card {row['card']}, “{place.step}”"
        raise RecordError(f"the record holds what this version of the program cannot read: {which}")
    return Entry(at=row["at"], by=row["by"], place=place, value=value)
