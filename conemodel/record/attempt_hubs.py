"""The hubs of practice attempts: kept, read and deleted with the attempts they belong to."""

import sqlite3
from collections.abc import Sequence
from dataclasses import astuple, fields

from conemodel.tasks.practice.plan.hub_result import HubResult

COLUMNS = tuple(field.name for field in fields(HubResult))
"""Columns of the table that are a hub's own, in order."""


def keep_hubs(attempt: int, hubs: Sequence[HubResult], connection: sqlite3.Connection) -> None:
    """Keep the hubs of an attempt, within the operation that keeps it."""
    places = ", ".join("?" for _ in ("attempt", "number", *COLUMNS))
    sql = f"INSERT INTO attempt_hub (attempt, number, {', '.join(COLUMNS)}) VALUES ({places})"
    connection.executemany(sql, [(attempt, number, *astuple(hub)) for number, hub in enumerate(hubs)])


def hubs_of(
    where: str, values: Sequence[str], connection: sqlite3.Connection
) -> dict[int, tuple[HubResult, ...]]:
    """Return the hubs of the attempts that a condition picks, by the number of the attempt, each in order."""
    sql = f"SELECT * FROM attempt_hub WHERE attempt IN (SELECT id FROM attempt {where}) ORDER BY attempt, number"
    found: dict[int, tuple[HubResult, ...]] = {}
    for row in connection.execute(sql, tuple(values)):
        found[row["attempt"]] = (*found.get(row["attempt"], ()), _hub(row))
    return found


def _hub(row: sqlite3.Row) -> HubResult:
    values = {name: row[name] for name in COLUMNS}
    flags = {name: bool(row[name]) for name in ("passed", "checked", "worded")}
    return HubResult(**{**values, **flags})


def delete_hubs(where: str, values: Sequence[str | int], connection: sqlite3.Connection) -> None:
    """Delete the hubs of the attempts that a condition picks, within the operation that deletes those."""
    picked = f"SELECT id FROM attempt {where}"
    connection.execute(f"DELETE FROM attempt_hub WHERE attempt IN ({picked})", tuple(values))
