"""Real hubs that were felt: what was counted and measured, with the hub as described; never an estimate.

So a better fit reads old ones too. A threshold is a person's: who typed no name leaves none for Check a hub.
"""

import sqlite3
from dataclasses import dataclass
from datetime import datetime

from conemodel.parts.real_hub import RealHubReadings
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import read_part, write_part
from conemodel.record.database import Database
from conemodel.record.moments import stamp
from conemodel.record.names import clean_name

KEPT = "the record"
"""What a kept text is called where it cannot be read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptHub:
    """One go at a real hub.

    Attributes:
        id: its number; made_at: when it was kept, UTC, ISO 8601.
        name: whose hand, as typed, None where none was.
        hub: as described then; readings: as given.
    """

    id: int
    made_at: str
    name: str | None
    hub: Scenario
    readings: RealHubReadings


def keep_real_hub(
    readings: RealHubReadings,
    hub: Scenario,
    database: Database,
    *,
    name: str | None,
    now: datetime | None = None,
) -> KeptHub:
    """Keep what was found on a real hub under a name cleaned of outer blanks, and return it.

    The same kept again at once, by a second press or another window, is kept once.

    Raises:
        InputProblems: the name is too long or does not print.
        RecordError: the record could not be read or written.
    """
    made = stamp(now)
    values = (made, clean_name(name), write_part(hub), write_part(readings))
    same = "SELECT * FROM real_hub WHERE name IS ? AND hub = ? AND readings = ? ORDER BY id DESC LIMIT 1"
    with database.writing() as connection:
        found = connection.execute(same, values[1:]).fetchone()
        if found is not None and found["made_at"][:10] == made[:10]:
            return _kept(found)
        sql = "INSERT INTO real_hub (made_at, name, hub, readings) VALUES (?, ?, ?, ?)"
        number = connection.execute(sql, values).lastrowid
        return _kept(connection.execute("SELECT * FROM real_hub WHERE id = ?", (number,)).fetchone())


def real_hubs(name: str, database: Database) -> tuple[KeptHub, ...]:
    """Return everything kept under a name, oldest first.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.reading() as connection:
        rows = connection.execute("SELECT * FROM real_hub WHERE name = ? ORDER BY made_at, id", (name,))
        return tuple(map(_kept, rows.fetchall()))


def delete_real_hubs(name: str, database: Database) -> int:
    """Delete everything kept of real hubs under a name and return how many they were.

    Raises:
        RecordError: the record could not be read or written.
    """
    with database.writing() as connection:
        return delete_real_hubs_of(name, connection)


def delete_real_hubs_of(name: str, connection: sqlite3.Connection) -> int:
    """Delete the same within an operation that deletes more, and return how many they were."""
    return connection.execute("DELETE FROM real_hub WHERE name = ?", (name,)).rowcount


def _kept(row: sqlite3.Row) -> KeptHub:
    return KeptHub(
        id=row["id"],
        made_at=row["made_at"],
        name=row["name"],
        hub=read_part(Scenario, row["hub"], name=KEPT),
        readings=read_part(RealHubReadings, row["readings"], name=KEPT),
    )
