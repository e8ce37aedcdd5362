"""Hands that were measured: each answer kept as it is given, so that a sitting goes on where it was left."""

import secrets
import sqlite3
from dataclasses import dataclass, replace
from datetime import datetime

from conemodel.record.database import Database
from conemodel.record.moments import stamp
from conemodel.record.names import clean_name
from conemodel.tasks.hand.estimate import Estimate, estimate
from conemodel.tasks.hand.kinds import KINDS, Kind, KindName
from conemodel.tasks.hand.procedure import PAIRS, Answer

NUMBERS = 10**9
"""Numbers of sittings lie below this: no two people come upon one another's by counting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sitting:
    """One hand measured once, or as far as it has come.

    Attributes:
        id: its number, from which its pairs follow too; begun_at: when, UTC, ISO 8601.
        name: as typed, None where none was; visit: word of the visit it was begun in; kind: what was asked.
        answers: so far, in order.
    """

    id: int
    begun_at: str
    name: str | None
    kind: Kind
    visit: str | None = None
    answers: tuple[Answer, ...] = ()

    @property
    def finished(self) -> bool:
        """Whether every pair was answered."""
        return len(self.answers) >= PAIRS

    @property
    def estimate(self) -> Estimate:
        """What the answers so far say."""
        return estimate(self.answers, usual=self.kind.usual)


def begin_sitting(
    kind: Kind, database: Database, *, name: str | None, visit: str | None = None, now: datetime | None = None
) -> Sitting:
    """Keep a new sitting under a name cleaned of outer blanks, and return it.

    Raises:
        InputProblems: the name is too long or does not print.
        RecordError: the record could not be read or written.
    """
    begun = stamp(now)
    number, name = 1 + secrets.randbelow(NUMBERS - 1), clean_name(name)
    sitting = Sitting(id=number, begun_at=begun, name=name, visit=visit, kind=kind)
    with database.writing() as connection:
        sql = "INSERT INTO hand_sitting (id, begun_at, name, kind, visit) VALUES (?, ?, ?, ?, ?)"
        connection.execute(sql, (number, begun, name, kind.name, visit))
    return sitting


def keep_answer(sitting: Sitting, answer: Answer, database: Database) -> Sitting:
    """Keep the answer to the next pair and return the sitting with it; it is on the disk then.

    A pair that was answered meanwhile, in another window, keeps its first answer.

    Raises:
        RecordError: the record could not be read or written.
    """
    values = (sitting.id, len(sitting.answers), answer.difference, int(answer.second))
    with database.writing() as connection:
        connection.execute("INSERT OR IGNORE INTO hand_answer VALUES (?, ?, ?, ?)", values)
        return replace(sitting, answers=_answers(sitting.id, connection))


def find_sitting(number: int, database: Database) -> Sitting | None:
    """Return the sitting of a number, None where there is none.

    Raises:
        RecordError: the record could not be read or written.
    """
    found = _sittings("id = ?", (number,), database)
    return found[0] if found else None


def sittings(name: str, kind: Kind, database: Database) -> tuple[Sitting, ...]:
    """Return all sittings of one kind under a name, finished or not, oldest first.

    Raises:
        RecordError: the record could not be read or written.
    """
    return _sittings("name = ? AND kind = ?", (name, kind.name), database)


def nameless_sittings(visit: str, kind: Kind, database: Database) -> tuple[Sitting, ...]:
    """Return all sittings of one kind that a visit has under no name, finished or not, oldest first.

    Raises:
        RecordError: the record could not be read or written.
    """
    return _sittings("name IS NULL AND visit = ? AND kind = ?", (visit, kind.name), database)


def latest_thresholds(name: str, database: Database) -> dict[KindName, float]:
    """Return the threshold of the latest finished sitting of each kind under a name, in the measure of its answers.

    Raises:
        RecordError: the record could not be read or written.
    """
    done = _sittings("name = ?", (name,), database)
    latest = {one.kind.name: one for one in done if one.finished}
    return {kind: one.estimate.threshold.value for kind, one in latest.items()}


def _sittings(where: str, values: tuple[str | int, ...], database: Database) -> tuple[Sitting, ...]:
    sql = f"SELECT * FROM hand_sitting WHERE {where} ORDER BY begun_at, id"
    with database.reading() as connection:
        return tuple(
            Sitting(
                id=row["id"],
                begun_at=row["begun_at"],
                name=row["name"],
                kind=KINDS[row["kind"]],
                visit=row["visit"],
                answers=_answers(row["id"], connection),
            )
            for row in connection.execute(sql, values).fetchall()
        )


def _answers(number: int, connection: sqlite3.Connection) -> tuple[Answer, ...]:
    sql = "SELECT difference, second FROM hand_answer WHERE sitting = ? ORDER BY number"
    rows = connection.execute(sql, (number,)).fetchall()
    return tuple(Answer(difference=row["difference"], second=bool(row["second"])) for row in rows)


def delete_sittings(name: str, database: Database) -> int:
    """Delete every sitting under a name and return how many they were.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.writing() as connection:
        return delete_hands(name, connection)


def delete_hands(name: str, connection: sqlite3.Connection) -> int:
    """Delete every sitting under a name within an operation that deletes more, and return how many they were."""
    return _delete("name = ?", name, connection)


def delete_nameless(visit: str, database: Database) -> int:
    """Delete every sitting that a visit has under no name and return how many they were.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.writing() as connection:
        return delete_nameless_hands(visit, connection)


def delete_nameless_hands(visit: str, connection: sqlite3.Connection) -> int:
    """Delete the same within an operation that deletes more, and return how many they were."""
    return _delete("name IS NULL AND visit = ?", visit, connection)


def _delete(where: str, value: str, connection: sqlite3.Connection) -> int:
    mine = f"SELECT id FROM hand_sitting WHERE {where}"
    connection.execute(f"DELETE FROM hand_answer WHERE sitting IN ({mine})", (value,))
    return connection.execute(f"DELETE FROM hand_sitting WHERE {where}", (value,)).rowcount
