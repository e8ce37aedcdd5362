"""The journal of a bench: each act kept as it is made, so that an exercise goes on where it was left.

A bench belongs to a visit, a random word that stands in the address, and to the name typed, if one was. Of a visit
there is one bench for a link.
"""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass, fields
from datetime import datetime
from typing import NamedTuple

from conemodel.base.errors import ConemodelError
from conemodel.record.attempts import Attempt, insert_attempt
from conemodel.record.database import Database
from conemodel.record.moments import stamp


class Overtaken(ConemodelError):
    """Something was done at this bench from another window meanwhile; `bench` is its number."""

    def __init__(self, bench: int) -> None:
        """Say so."""
        super().__init__("Something was done at this bench from another window.")
        self.bench = bench


class Deleted(ConemodelError):
    """The bench was deleted from the record meanwhile."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """What a bench is begun from: all it takes to draw its hubs again, but for the server's own key.

    Attributes:
        visit: word of the visit; name: as typed, None where none was.
        link: its code; exercise: name of the exercise's file.
        played: the exercise as it is played, as the text of a file.
        own: the file it was brought as, None on the ladder.
        proof: word by which its start is known again.
    """

    visit: str
    name: str | None
    link: str
    exercise: str
    played: str
    own: str | None
    proof: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptBench:
    """A bench in the record.

    Attributes:
        id: its number; opening: what it was begun from; begun_at: when, UTC, ISO 8601.
        hub: number of the hub that was on it last; acts: how many are kept.
        attempt: number of the attempt it became, None where it is not finished.
    """

    id: int
    opening: Opening
    begun_at: str
    hub: int
    acts: int
    attempt: int | None


class KeptAct(NamedTuple):
    """One act: its text, what it was answered by, the hand's own words for it, the hub on the bench after it."""

    act: str
    told: str
    own_words: str | None
    hub: int


class Starts(NamedTuple):
    """How often an exercise was started, and how often it was brought to its end."""

    started: int
    finished: int


_OPENING = tuple(field.name for field in fields(Opening))

_BENCH = """
    SELECT bench.*,
        (SELECT count(*) FROM bench_act WHERE bench = bench.id) AS acts,
        (SELECT hub FROM bench_act WHERE bench = bench.id ORDER BY number DESC LIMIT 1) AS hub
    FROM bench WHERE
"""


def begin_bench(opening: Opening, database: Database, *, now: datetime | None = None) -> int:
    """Keep a new bench and return its number.

    Raises:
        Overtaken: another window of the visit has begun on the link.
        RecordError: the record could not be read or written.
    """
    begun = stamp(now)
    values = (begun, *(getattr(opening, name) for name in _OPENING))
    places = ", ".join("?" for _ in values)
    with database.writing() as connection:
        if found := _benches("visit = ? AND link = ?", (opening.visit, opening.link), connection):
            raise Overtaken(found[0].id)
        sql = f"INSERT INTO bench (begun_at, {', '.join(_OPENING)}) VALUES ({places})"
        return int(connection.execute(sql, values).lastrowid or 0)


def keep_acts(bench: int, number: int, acts: Sequence[KeptAct], database: Database) -> None:
    """Keep the next acts at a bench that has `number` of them; they are on the disk then, all or none.

    Raises:
        Overtaken: it has more than that; Deleted: it is no longer in the record.
        RecordError: the record could not be read or written.
    """
    with database.writing() as connection:
        found = _benches("id = ?", (bench,), connection)
        if not found:
            raise Deleted("This bench was deleted from the record.")
        if found[0].acts != number:
            raise Overtaken(bench)
        rows = [(bench, number + i, *one) for i, one in enumerate(acts)]
        connection.executemany("INSERT INTO bench_act VALUES (?, ?, ?, ?, ?, ?)", rows)


def kept_acts(bench: int, database: Database) -> tuple[KeptAct, ...]:
    """Return the acts of a bench, in order.

    Raises:
        RecordError: the record could not be read or written.
    """
    sql = "SELECT act, told, own_words, hub FROM bench_act WHERE bench = ? ORDER BY number"
    with database.reading() as connection:
        return tuple(KeptAct(*row) for row in connection.execute(sql, (bench,)))


def find_bench(number: int, database: Database) -> KeptBench | None:
    """Return the bench of a number, None where there is none.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.reading() as connection:
        return next(iter(_benches("id = ?", (number,), connection)), None)


def bench_of_link(visit: str, link: str, database: Database) -> KeptBench | None:
    """Return the bench that a visit has for a link, None where it has none.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.reading() as connection:
        return next(iter(_benches("visit = ? AND link = ?", (visit, link), connection)), None)


def unfinished(visit: str, name: str | None, database: Database) -> tuple[KeptBench, ...]:
    """Return what is not finished and not left for another start, the latest first.

    That is what is kept under the name, and what the visit has under none.

    Raises:
        RecordError: the record could not be read or written.
    """
    where = "attempt IS NULL AND left_at IS NULL AND (name = ? OR name IS NULL AND visit = ?)"
    with database.reading() as connection:
        return _benches(where, (name, visit), connection)


def count_starts(visit: str, name: str | None, exercise: str, database: Database) -> Starts:
    """Return how often an exercise was started and finished under a name, or by the visit under none.

    Raises:
        RecordError: the record could not be read or written.
    """
    sql = """SELECT count(*), count(attempt) FROM bench
        WHERE exercise = ? AND CASE WHEN ? IS NULL THEN name IS NULL AND visit = ? ELSE name = ? END"""
    with database.reading() as connection:
        return Starts(*connection.execute(sql, (exercise, name, visit, name)).fetchone())


def leave_bench(bench: int, database: Database) -> None:
    """Keep that a bench was left for another start; its acts stay.

    Raises:
        RecordError: the record could not be read or written.
    """
    left = stamp()
    with database.writing() as connection:
        connection.execute("UPDATE bench SET left_at = ? WHERE id = ?", (left, bench))


def name_bench(bench: int, name: str | None, database: Database) -> None:
    """Keep a bench under another name, or under none.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.writing() as connection:
        connection.execute("UPDATE bench SET name = ? WHERE id = ?", (name, bench))


def save_once(bench: int, attempt: Attempt, database: Database) -> int:
    """Save the attempt that a bench became and return its number: the first one, where it was saved before.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.writing() as connection:
        found = _benches("id = ?", (bench,), connection)
        if found and found[0].attempt is not None:
            return found[0].attempt
        number = insert_attempt(attempt, connection)
        connection.execute("UPDATE bench SET attempt = ? WHERE id = ?", (number, bench))
        return number


def _benches(where: str, values: tuple[object, ...], connection: sqlite3.Connection) -> tuple[KeptBench, ...]:
    rows = connection.execute(f"{_BENCH} {where} ORDER BY id DESC", values).fetchall()
    return tuple(
        KeptBench(
            id=row["id"],
            opening=Opening(**{name: row[name] for name in _OPENING}),
            begun_at=row["begun_at"],
            hub=row["hub"] or 0,
            acts=row["acts"],
            attempt=row["attempt"],
        )
        for row in rows
    )
