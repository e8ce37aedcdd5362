"""Practice attempts: saved, listed, deleted; by a name the trainee types, or none."""

import sqlite3
from dataclasses import dataclass, fields, replace
from datetime import datetime

from conemodel.record.attempt_hubs import delete_hubs, hubs_of, keep_hubs
from conemodel.record.database import Database
from conemodel.record.hand_sittings import delete_hands, delete_nameless_hands
from conemodel.record.moments import stamp
from conemodel.record.names import clean_name
from conemodel.record.real_hubs import delete_real_hubs_of
from conemodel.tasks.practice.catalogue import Link
from conemodel.tasks.practice.marking import ExerciseMark
from conemodel.tasks.practice.plan.hub_result import HubResult


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """One exercise, done and marked.

    Attributes:
        made_at: when, UTC, ISO 8601; name: as typed, None where none was; id: its number, None before it is saved.
        exercise: name of its file; salt, seed: of its link.
        passed, stage, unchecked, false_right, false_wrong, locks, moves, hint: as marked.
        worded: what hands feel was told in words, as was asked for; training: it was the coached round.
        seconds: how long it took at the bench [s], None where that is not known; hubs: what came of each, in order,
            none for an attempt of before they were kept.
        critical: the critical reasons as one text, empty if none.
        off_by: worst distance outside the good range [m]; off_turn: the same as a turn of the cone [rad].
    """

    made_at: str
    name: str | None
    exercise: str
    salt: str
    seed: int
    passed: bool
    stage: str
    unchecked: bool
    critical: str
    false_right: int
    false_wrong: int
    off_by: float
    off_turn: float
    locks: int
    moves: int
    hint: str
    worded: bool = False
    training: bool = False
    seconds: float | None = None
    hubs: tuple[HubResult, ...] = ()
    id: int | None = None


SET_BY_HAND = {"range", "touch"}
"""Criteria of a hub whose cone had to be set by hand; where some had, the others do not say how far off it ended."""

COLUMNS = tuple(field.name for field in fields(Attempt) if field.name not in ("hubs", "id"))
"""Columns of the table, in order."""


def attempt_of(
    mark: ExerciseMark,
    link: Link,
    *,
    name: str | None,
    now: datetime | None = None,
    seconds: float | None = None,
    hubs: tuple[HubResult, ...] = (),
) -> Attempt:
    """Return the attempt a mark becomes, under a name cleaned of outer blanks; the rest as in `Attempt`.

    Raises:
        InputProblems: the name is too long or does not print.
    """
    asked = [hub for hub in mark.hubs if not SET_BY_HAND.isdisjoint(check.name for check in hub.checks)]
    worst = max(asked or mark.hubs, key=lambda hub: abs(hub.off_by))
    return Attempt(
        made_at=stamp(now),
        name=clean_name(name),
        exercise=link.exercise,
        salt=link.salt,
        seed=link.seed,
        passed=mark.passed,
        stage=mark.stage,
        unchecked=mark.unchecked,
        critical="; ".join(mark.critical),
        false_right=mark.false_right,
        false_wrong=mark.false_wrong,
        off_by=worst.off_by,
        off_turn=worst.off_turn,
        locks=mark.locks,
        moves=mark.moves,
        hint=mark.hint,
        worded=mark.worded,
        training=link.training,
        seconds=seconds,
        hubs=hubs,
    )


def save(attempt: Attempt, database: Database) -> Attempt:
    """Save an attempt and return it with its number; it is on the disk then.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.writing() as connection:
        return replace(attempt, id=insert_attempt(attempt, connection))


def insert_attempt(attempt: Attempt, connection: sqlite3.Connection) -> int:
    """Save an attempt within an operation that does more, and return its number."""
    places = ", ".join("?" for _ in COLUMNS)
    values = [getattr(attempt, column) for column in COLUMNS]
    sql = f"INSERT INTO attempt ({', '.join(COLUMNS)}) VALUES ({places})"
    number = int(connection.execute(sql, values).lastrowid or 0)
    keep_hubs(number, attempt.hubs, connection)
    return number


_NAMELESS = "name IS NULL AND id IN (SELECT attempt FROM bench WHERE visit = ?)"
"""What picks the attempts that a visit has under no name."""


def attempts(
    database: Database,
    *,
    name: str | None = None,
    exercise: str | None = None,
    salt: str | None = None,
    nameless_of: str | None = None,
) -> tuple[Attempt, ...]:
    """Return attempts, oldest first, of one name, exercise or class, or of a visit under no name, if given.

    Raises:
        RecordError: the record could not be read or written.
    """
    wanted = {"name = ?": name, "exercise = ?": exercise, "salt = ?": salt, _NAMELESS: nameless_of}
    given = {condition: value for condition, value in wanted.items() if value is not None}
    where = " AND ".join(given)
    where = f"WHERE {where}" if where else ""
    values = tuple(given.values())
    with database.reading() as connection:
        rows = connection.execute(f"SELECT * FROM attempt {where} ORDER BY made_at, id", values).fetchall()
        hubs = hubs_of(where, values, connection)
        return tuple(_attempt(row, hubs.get(row["id"], ())) for row in rows)


def names(database: Database) -> tuple[str, ...]:
    """Return the names attempts were saved under.

    Raises:
        RecordError: the record could not be read or written.
    """
    sql = "SELECT DISTINCT name FROM attempt WHERE name IS NOT NULL ORDER BY name"
    with database.reading() as connection:
        return tuple(row["name"] for row in connection.execute(sql))


def delete_attempt(number: int, database: Database) -> bool:
    """Delete one attempt and the journal of its bench; whether there was one.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.writing() as connection:
        _delete_benches("attempt = ?", (number,), connection)
        delete_hubs("WHERE id = ?", (number,), connection)
        return connection.execute("DELETE FROM attempt WHERE id = ?", (number,)).rowcount > 0


def delete_name(name: str, database: Database) -> int:
    """Delete everything saved under a name, hands, journals and real hubs too, and return how many attempts that were.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.writing() as connection:
        delete_hands(name, connection)
        mine = "name = ? OR attempt IN (SELECT id FROM attempt WHERE name = ?)"
        _delete_benches(mine, (name, name), connection)
        delete_hubs("WHERE name = ?", (name,), connection)
        delete_real_hubs_of(name, connection)
        return connection.execute("DELETE FROM attempt WHERE name = ?", (name,)).rowcount


def delete_nameless(visit: str, database: Database) -> int:
    """Delete everything that a visit has under no name, measured hands and journals too; how many attempts it was.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.writing() as connection:
        delete_nameless_hands(visit, connection)
        delete_hubs(f"WHERE {_NAMELESS}", (visit,), connection)
        number = connection.execute(f"DELETE FROM attempt WHERE {_NAMELESS}", (visit,)).rowcount
        _delete_benches("name IS NULL AND visit = ?", (visit,), connection)
        return number


def _delete_benches(where: str, values: tuple[str | int, ...], connection: sqlite3.Connection) -> None:
    """Delete the benches that attempts were made at, and those under way, with every act."""
    found = f"SELECT id FROM bench WHERE {where}"
    connection.execute(f"DELETE FROM bench_act WHERE bench IN ({found})", values)
    connection.execute(f"DELETE FROM bench WHERE {where}", values)


def _attempt(row: sqlite3.Row, hubs: tuple[HubResult, ...]) -> Attempt:
    values = {key: row[key] for key in row.keys()}  # noqa: SIM118 - a row is not a mapping
    flags = {name: bool(row[name]) for name in ("passed", "unchecked", "worded", "training")}
    return Attempt(**{**values, **flags, "hubs": hubs})
