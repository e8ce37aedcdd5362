"""Copies of the whole record: taken while others write, put back with what stood there kept aside.

A copy is one SQLite file, made by SQLite's own backup, so that it is of one moment. Where each was written is kept in
the record, so that it can be said which of them still hold what was deleted. No copy is ever overwritten or deleted.
"""

import os
import re
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from itertools import count
from pathlib import Path

from conemodel.base.errors import InputProblems, Problem
from conemodel.record.database import MIGRATIONS, Database, RecordError, transaction

BACKUP, KEPT_ASIDE, RESTORING = "backup", "kept-aside", "restoring"
"""What the kinds of copy are called, between the name of the record and the date."""


def back_up(database: Database, folder: Path | None = None, *, now: datetime | None = None) -> Path:
    """Write a copy of the record, named with the date, into a folder (beside it by default) and return where it is.

    Raises:
        RecordError: the record could not be read, or the copy not written.
    """
    into = (folder or database.path.parent).resolve()
    try:
        into.mkdir(parents=True, exist_ok=True)
        with database.writing():
            pass  # made and brought up to date
        path = _copy_file(database.path, into, f"{database.path.stem}-{BACKUP}", now)
        with database.writing() as connection:
            connection.execute("INSERT OR IGNORE INTO backup VALUES (?)", (str(path),))
    except (sqlite3.Error, OSError) as error:
        raise RecordError(f"{into}: a backup could not be written: {error}") from error
    return path


def restore(path: Path, database: Database, *, now: datetime | None = None) -> Path | None:
    """Put a backup in the place of the record; return where what stood there was kept aside, None where nothing did.

    Other programs may go on using the record: they see what it was, or what it is now.

    Raises:
        InputProblems: the file is no sound record of this program, or of a newer version; nothing was changed.
        RecordError: the record could not be read or written, or the copy not made.
    """
    check_backup(path)
    try:
        database.path.parent.mkdir(parents=True, exist_ok=True)
        fresh = Database(_copy_file(path, database.path.parent, f"{database.path.stem}-{RESTORING}", now))
        try:
            with fresh.reading():
                pass  # brought up to date
            return (
                _replace_file(fresh, database, now) if _is_lost(database) else _refill(fresh, database, now)
            )
        finally:
            for each in _files(fresh.path):
                each.unlink()
    except (sqlite3.Error, OSError) as error:
        raise RecordError(f"{path}: the backup could not be put back: {error}") from error


def _is_lost(database: Database) -> bool:
    """Return whether there is no record, or none that can be used."""
    try:
        return bool(_wrong_with(database.path))
    except sqlite3.OperationalError:  # busy, or no right to it: that is not damage
        raise
    except sqlite3.DatabaseError:
        return True


def _refill(fresh: Database, database: Database, now: datetime | None) -> Path:
    """Keep the record aside and fill it from another, in one operation that no other write comes between."""
    with database.reading() as connection:
        connection.execute("ATTACH ? AS fresh", (str(fresh.path),))
        with transaction(connection):
            aside = _copy_file(database.path, database.path.parent, f"{database.path.stem}-{KEPT_ASIDE}", now)
            written = connection.execute("SELECT path FROM main.backup").fetchall()
            tables = {name for name, _ in _tables(connection)}
            # what follows from the other tables comes last
            for table in sorted(tables, key="sqlite_sequence".__eq__):
                connection.execute(f'DELETE FROM main."{table}"')
                connection.execute(f'INSERT INTO main."{table}" SELECT * FROM fresh."{table}"')
            connection.executemany("INSERT OR IGNORE INTO main.backup VALUES (?)", map(tuple, written))
    return aside


def _replace_file(fresh: Database, database: Database, now: datetime | None) -> Path | None:
    """Move what there is of a record that cannot be used aside, its log too, and another in its place."""
    aside = _free(database.path.parent, f"{database.path.stem}-{KEPT_ASIDE}", now)
    there = _files(database.path)
    for each in there:
        each.rename(aside.with_name(each.name.replace(database.path.name, aside.name, 1)))
    fresh.path.rename(database.path)
    return aside if there else None


def _files(path: Path) -> list[Path]:
    """Return the files of a record that are there: itself, and its log."""
    return [each for end in ("", "-wal", "-shm") if (each := path.with_name(path.name + end)).exists()]


def check_backup(path: Path) -> None:
    """Look whether a file is a sound record of this program.

    Raises:
        InputProblems: it is not.
    """
    try:
        limit = _wrong_with(path)
    except (sqlite3.Error, OSError) as error:
        limit = f"is no record of this program: {error}"
    if limit:
        raise InputProblems(
            [Problem(where=str(path), value="", limit=limit, remedy="the record was not changed")]
        )


def known_copies(database: Database) -> tuple[Path, ...]:
    """Return every copy of the record that lies beside it or was written by `back_up`, there or not.

    Raises:
        RecordError: the record could not be read.
    """
    with database.reading() as connection:
        written = {Path(row["path"]) for row in connection.execute("SELECT path FROM backup")}
    kinds = "|".join((BACKUP, KEPT_ASIDE, RESTORING))
    copy = re.compile(rf"{re.escape(database.path.stem)}-({kinds})-.*\.(sqlite3|part)")
    beside = (path for path in database.path.parent.resolve().iterdir() if copy.fullmatch(path.name))
    return tuple(sorted(written.union(beside)))


def _wrong_with(path: Path) -> str:
    """Return what is wrong with a file that is to be a record, empty where nothing is."""
    if not path.is_file():
        return "is no file"
    with closing(opened(path)) as connection:
        version = connection.execute("PRAGMA user_version").fetchone()[0]
        if version > len(MIGRATIONS):
            return "was written by a newer version of this program"
        if version < 1 or _tables(connection) != _tables_of(version):
            return "is no record of this program"
        found = connection.execute("PRAGMA integrity_check").fetchone()[0]
        if found != "ok":
            return f"is damaged: {found}"
        loose = connection.execute("PRAGMA foreign_key_check").fetchone()
        return "" if loose is None else f"is damaged: an entry of {loose[0]} belongs to nothing"


def _tables(connection: sqlite3.Connection) -> set[tuple[str, ...]]:
    """Return every table of a file with its columns."""
    rows = connection.execute(
        "SELECT m.name, p.name FROM sqlite_master m JOIN pragma_table_info(m.name) p WHERE m.type = 'table'"
    )
    return set(map(tuple, rows))


def _tables_of(version: int) -> set[tuple[str, ...]]:
    """Return every table of a record of a version, with its columns."""
    with closing(sqlite3.connect(":memory:")) as connection:
        connection.executescript("".join(MIGRATIONS[:version]))
        return _tables(connection)


def opened(path: Path) -> sqlite3.Connection:
    """Return a connection that reads a file and never makes one."""
    return sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)


def _copy_file(source: Path, folder: Path, stem: str, now: datetime | None) -> Path:
    """Copy a record as it is at one moment, whole or not at all, into one file without a log, and return where it is.

    Raises:
        RecordError: what was copied is damaged.
    """
    target = _free(folder, stem, now)
    part = target.with_suffix(".part")
    try:
        part.open("xb").close()
        with closing(opened(source)) as read, closing(sqlite3.connect(part)) as written:
            read.backup(written)
            written.execute("PRAGMA journal_mode = DELETE")
        if limit := _wrong_with(part):
            raise RecordError(f"{source}: no copy was kept, for what was copied {limit}")
        with part.open("rb+") as stream:
            os.fsync(stream.fileno())
        part.rename(target)
    finally:
        part.unlink(missing_ok=True)
    return target


def _free(folder: Path, stem: str, now: datetime | None) -> Path:
    """Return a name for a file that is not there yet, nor being written: with the date and the time of day, UTC."""
    moment = (now or datetime.now(UTC)).astimezone(UTC)
    name = f"{stem}-{moment:%Y-%m-%d-%H%M%S}"
    paths = (folder / f"{name}{f'-{more}' if more > 1 else ''}.sqlite3" for more in count(1))
    return next(path for path in paths if not (path.exists() or path.with_suffix(".part").exists()))
