"""Job cards: every answer kept as it is given, so that no tap is lost; what corrects it is added."""

import json
import sqlite3
from collections.abc import Mapping
from datetime import UTC, datetime
from uuid import uuid4

from conemodel.base.errors import ConemodelError
from conemodel.record.database import Database
from conemodel.record.names import clean_name
from conemodel.tasks.job_card.card import Card, Entry, Place, Value
from conemodel.tasks.job_card.steps import check_answers


class NoCard(ConemodelError):
    """There is no card of that id in the record, or no longer."""


def begin_card(database: Database, *, now: datetime | None = None) -> Card:
    """Keep a new card and return it.

    Raises:
        RecordError: the record could not be read or written.
    """
    card = Card(id=uuid4().hex, begun_at=_moment(now))
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
    moment, mechanic = _moment(now), clean_name(by)
    with database.writing() as connection:
        card = _card(card_id, connection)
        for place, value in answers.items():
            if value != card.answer(*place):
                card = card.with_entry(Entry(at=moment, by=mechanic, place=place, value=value))
                _insert(card, connection)
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
        entries: dict[str, list[Entry]] = {}
        for row in connection.execute("SELECT * FROM card_entry ORDER BY card, number"):
            entries.setdefault(row["card"], []).append(_entry(row))
        rows = connection.execute("SELECT * FROM card ORDER BY begun_at DESC, id").fetchall()
    return tuple(
        Card(id=row["id"], begun_at=row["begun_at"], entries=tuple(entries.get(row["id"], ())))
        for row in rows
    )


def _card(card_id: str, connection: sqlite3.Connection) -> Card:
    row = connection.execute("SELECT * FROM card WHERE id = ?", (card_id,)).fetchone()
    if row is None:
        raise NoCard("This job card is not in the record.")
    rows = connection.execute("SELECT * FROM card_entry WHERE card = ? ORDER BY number", (card_id,))
    return Card(id=card_id, begun_at=row["begun_at"], entries=tuple(map(_entry, rows)))


def _insert(card: Card, connection: sqlite3.Connection) -> None:
    """Keep the last entry of a card."""
    entry = card.entries[-1]
    values = (card.id, len(card.entries), entry.at, entry.by, *entry.place, json.dumps(entry.value))
    connection.execute("INSERT INTO card_entry VALUES (?, ?, ?, ?, ?, ?, ?)", values)


def _entry(row: sqlite3.Row) -> Entry:
    place = Place(row["step"], row["place"])
    return Entry(at=row["at"], by=row["by"], place=place, value=json.loads(row["value"]))


def _moment(now: datetime | None) -> str:
    return (now or datetime.now(UTC)).astimezone(UTC).isoformat(timespec="seconds")
