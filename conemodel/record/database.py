"""The file that keeps records: opened for each operation, written whole or not at all.

Every process, thread and user has its own connection for the length of one operation. A write takes the lock at
once and is on the disk when it returns. The file must not lie on a network share: its log does not work there.
"""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from platformdirs import user_data_path

from conemodel.base.errors import ConemodelError

FILE_OPTION = "CONEMODEL_RECORD"
"""Environment variable that names the file, for a class on one server or for a test."""

PATIENCE = 10.0
"""How long a write waits for another to end [s]."""

MIGRATIONS: tuple[str, ...] = (
    """
    CREATE TABLE attempt (
        id INTEGER PRIMARY KEY,
        made_at TEXT NOT NULL,
        name TEXT,
        exercise TEXT NOT NULL,
        salt TEXT NOT NULL,
        seed INTEGER NOT NULL,
        passed INTEGER NOT NULL CHECK (passed IN (0, 1)),
        stage TEXT NOT NULL,
        unchecked INTEGER NOT NULL CHECK (unchecked IN (0, 1)),
        critical TEXT NOT NULL,
        false_right INTEGER NOT NULL,
        false_wrong INTEGER NOT NULL,
        off_by REAL NOT NULL,
        off_turn REAL NOT NULL,
        locks INTEGER NOT NULL,
        moves INTEGER NOT NULL,
        hint TEXT NOT NULL
    ) STRICT;
    CREATE INDEX attempt_by_name ON attempt (name, made_at);
    CREATE INDEX attempt_by_class ON attempt (salt, exercise);
    """,
    """
    CREATE TABLE hand_sitting (
        id INTEGER PRIMARY KEY,
        begun_at TEXT NOT NULL,
        name TEXT,
        kind TEXT NOT NULL
    ) STRICT;
    CREATE TABLE hand_answer (
        sitting INTEGER NOT NULL REFERENCES hand_sitting (id),
        number INTEGER NOT NULL,
        difference REAL NOT NULL,
        second INTEGER NOT NULL CHECK (second IN (0, 1)),
        PRIMARY KEY (sitting, number)
    ) STRICT;
    CREATE INDEX hand_by_name ON hand_sitting (name, kind, begun_at);
    """,
    """
    ALTER TABLE attempt ADD COLUMN worded INTEGER NOT NULL DEFAULT 0 CHECK (worded IN (0, 1));
    """,
    """
    ALTER TABLE attempt ADD COLUMN training INTEGER NOT NULL DEFAULT 0 CHECK (training IN (0, 1));
    """,
    """
    CREATE TABLE bench (
        id INTEGER PRIMARY KEY AUTOINCREMENT,
        begun_at TEXT NOT NULL,
        visit TEXT NOT NULL,
        name TEXT,
        link TEXT NOT NULL,
        exercise TEXT NOT NULL,
        played TEXT NOT NULL,
        own TEXT,
        proof TEXT NOT NULL,
        left_at TEXT,
        attempt INTEGER REFERENCES attempt (id),
        UNIQUE (visit, link)
    ) STRICT;
    CREATE TABLE bench_act (
        bench INTEGER NOT NULL REFERENCES bench (id),
        number INTEGER NOT NULL,
        act TEXT NOT NULL,
        told TEXT NOT NULL,
        own_words TEXT,
        hub INTEGER NOT NULL,
        PRIMARY KEY (bench, number)
    ) STRICT;
    CREATE INDEX bench_by_name ON bench (name, exercise);
    """,
    """
    ALTER TABLE attempt ADD COLUMN seconds REAL;
    CREATE TABLE attempt_hub (
        attempt INTEGER NOT NULL REFERENCES attempt (id),
        number INTEGER NOT NULL,
        passed INTEGER NOT NULL CHECK (passed IN (0, 1)),
        checked INTEGER NOT NULL CHECK (checked IN (0, 1)),
        question TEXT,
        said TEXT,
        truth TEXT,
        PRIMARY KEY (attempt, number)
    ) STRICT;
    """,
    """
    ALTER TABLE hand_sitting ADD COLUMN visit TEXT;
    CREATE INDEX hand_by_visit ON hand_sitting (visit, kind);
    """,
    """
    CREATE TABLE real_hub (
        id INTEGER PRIMARY KEY,
        made_at TEXT NOT NULL,
        name TEXT,
        hub TEXT NOT NULL,
        readings TEXT NOT NULL
    ) STRICT;
    CREATE INDEX real_hub_by_name ON real_hub (name, made_at);
    """,
    """
    CREATE TABLE card (
        id TEXT PRIMARY KEY,
        begun_at TEXT NOT NULL
    ) STRICT;
    CREATE TABLE card_entry (
        card TEXT NOT NULL REFERENCES card (id),
        number INTEGER NOT NULL,
        at TEXT NOT NULL,
        by TEXT,
        step TEXT NOT NULL,
        place TEXT NOT NULL,
        value TEXT NOT NULL,
        PRIMARY KEY (card, number)
    ) STRICT;
    """,
    """
    CREATE TABLE backup (path TEXT PRIMARY KEY) STRICT;
    """,
    """
    ALTER TABLE attempt_hub ADD COLUMN worded INTEGER NOT NULL DEFAULT 0 CHECK (worded IN (0, 1));
    """,
)
"""One script for each version of the file, in order; a new kind of record adds one at the end."""


class RecordError(ConemodelError):
    """The record could not be read or written; the message says why and where the file is."""


def record_file() -> Path:
    """Return where records are kept: as the environment says, or in the user's data folder."""
    named = os.environ.get(FILE_OPTION)
    return Path(named) if named else user_data_path("conemodel") / "record.sqlite3"


class Database:
    """The record file at `path`, made on first use. Safe to share between threads: it holds no connection."""

    def __init__(self, path: Path | None = None) -> None:
        """Keep where the file is; by default where `record_file` says."""
        self.path = path or record_file()

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Yield a connection that holds the write lock; what was done is kept on leaving, or none of it.

        Raises:
            RecordError: the record could not be read or written.
        """
        with self._connected() as connection, transaction(connection):
            yield connection

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """Yield a connection to read by.

        Raises:
            RecordError: the record could not be read or written.
        """
        with self._connected() as connection:
            yield connection

    @contextmanager
    def _connected(self) -> Iterator[sqlite3.Connection]:
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            with closing(sqlite3.connect(self.path, timeout=PATIENCE, isolation_level=None)) as connection:
                connection.row_factory = sqlite3.Row
                # saved means saved: the log is flushed to the disk at every commit, power loss included
                connection.execute("PRAGMA synchronous = FULL")
                _bring_up_to_date(connection)
                yield connection
        except (sqlite3.Error, OSError) as error:
            raise RecordError(f"{self.path}: the record could not be used: {error}") from error


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[None]:
    """Hold the write lock; what was done is kept on leaving, or none of it."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")


def _bring_up_to_date(connection: sqlite3.Connection) -> None:
    """Run the migrations the file has not seen yet; two processes may come here at once."""
    if _version(connection) == len(MIGRATIONS):
        return
    connection.execute("PRAGMA journal_mode = WAL")
    with transaction(connection):
        version = _version(connection)
        if version > len(MIGRATIONS):
            raise sqlite3.DatabaseError("it was written by a newer version of this program")
        for script in MIGRATIONS[version:]:
            for statement in filter(str.strip, script.split(";")):
                connection.execute(statement)
        connection.execute(f"PRAGMA user_version = {len(MIGRATIONS)}")


def _version(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])
