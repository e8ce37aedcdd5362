"""Backups of the record: of one moment, checked before they are put back, and nothing is ever lost by one."""

import sqlite3
import threading
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from conemodel.base.errors import InputProblems
from conemodel.record.backups import back_up, known_copies, restore
from conemodel.record.cards import all_cards, answer, begin_card
from conemodel.record.database import MIGRATIONS, Database, RecordError
from conemodel.tasks.job_card.card import Place

NOW = datetime(2026, 3, 31, 14, 5, tzinfo=UTC)


@pytest.fixture
def database(tmp_path: Path) -> Database:
    return Database(tmp_path / "record.sqlite3")


def held(path: Path) -> list[str]:
    """Return everything that a file of SQLite holds, as text, but for the list of its copies."""
    with closing(sqlite3.connect(path)) as connection:
        return [line for line in connection.iterdump() if 'INTO "backup"' not in line]


def test_a_backup_is_one_file_named_with_the_date_and_opens_elsewhere(
    database: Database, tmp_path: Path
) -> None:
    card = begin_card(database)
    path = back_up(database, now=NOW)
    assert path.name == "record-backup-2026-03-31-140500.sqlite3"
    assert back_up(database, now=NOW).name == "record-backup-2026-03-31-140500-2.sqlite3"
    far = back_up(database, tmp_path / "stick" / "copies", now=NOW)
    moved = far.rename(tmp_path / "elsewhere.sqlite3")
    assert list(far.parent.iterdir()) == []
    assert all_cards(Database(moved)) == (card,)
    assert {each.name for each in known_copies(database)} >= {path.name, far.name}


def test_a_backup_taken_while_another_writes_is_of_one_moment(database: Database) -> None:
    card, copies, stop = begin_card(database), [], threading.Event()

    def write() -> None:
        for count in range(1, 41):
            answer(card.id, {Place("ball_count", side): count % 41 for side in ("left", "right")}, database)
        stop.set()

    writer = threading.Thread(target=write)
    writer.start()
    while not stop.is_set():
        copies.append(back_up(database))
    writer.join()
    for path in copies:
        (copied,) = all_cards(Database(path))
        assert copied.answer("ball_count", "left") == copied.answer("ball_count", "right")
        assert copied.entries == all_cards(database)[0].entries[: len(copied.entries)]


def test_a_backup_put_back_is_what_it_was_and_what_stood_there_is_kept_aside(database: Database) -> None:
    card = begin_card(database)
    path = back_up(database)
    before = held(database.path)
    answer(card.id, {Place("tag"): "7"}, database)
    later = back_up(database)
    now = held(database.path)
    aside = restore(path, database)
    assert aside is not None
    assert "kept-aside" in aside.name
    assert (held(database.path), held(aside)) == (before, now)
    assert later in known_copies(database)
    answer(card.id, {Place("tag"): "8"}, database)
    assert restore(aside, database) != aside
    assert held(database.path) == now
    assert not [
        each for each in database.path.parent.iterdir() if each.suffix == ".part" or "restoring" in each.name
    ]


def test_a_backup_of_an_older_version_is_brought_up_to_date(database: Database, tmp_path: Path) -> None:
    old = tmp_path / "old.sqlite3"
    with closing(sqlite3.connect(old)) as connection:
        connection.executescript("".join(MIGRATIONS[:3]) + "PRAGMA user_version = 3")
        connection.execute("INSERT INTO hand_sitting VALUES (1, '2026-01-01T00:00:00+00:00', 'Ada', 'rock')")
        connection.commit()
    before = old.read_bytes()
    begin_card(database)
    restore(old, database)
    assert all_cards(database) == ()
    assert any("Ada" in line for line in held(database.path))
    assert old.read_bytes() == before


def damaged(path: Path) -> None:
    """Overwrite the pages in the middle of a file."""
    raw = bytearray(path.read_bytes())
    raw[4096 : len(raw) - 4096] = b"\x5a" * (len(raw) - 8192)
    path.write_bytes(raw)


@pytest.mark.parametrize("kind", ["missing", "text", "empty", "cut", "damaged", "newer", "another program's"])
def test_what_is_no_sound_record_is_refused_and_nothing_changed(
    database: Database, tmp_path: Path, kind: str
) -> None:
    begin_card(database)
    path = back_up(database, tmp_path / "copies")
    if kind == "missing":
        path.unlink()
    elif kind == "text":
        path.write_text("This is no record." * 400)
    elif kind == "empty":
        path.write_bytes(b"")
    elif kind == "cut":
        path.write_bytes(path.read_bytes()[:-5000])
    elif kind == "damaged":
        damaged(path)
    else:
        with closing(sqlite3.connect(path)) as connection:
            newer = f"PRAGMA user_version = {len(MIGRATIONS) + 1}"
            connection.execute(newer if kind == "newer" else "DROP TABLE attempt")
    before, files = held(database.path), set(tmp_path.iterdir())
    with pytest.raises(InputProblems, match="newer version" if kind == "newer" else "is (no|damaged)"):
        restore(path, database)
    assert held(database.path) == before
    assert set(tmp_path.iterdir()) == files


@pytest.mark.parametrize("kind", ["damaged", "no record", "deleted"])
def test_a_backup_takes_the_place_of_a_lost_record(database: Database, kind: str) -> None:
    card = begin_card(database)
    path = back_up(database)
    if kind == "damaged":
        damaged(database.path)
    elif kind == "no record":
        database.path.write_bytes(b"This is no record." * 400)
    else:
        database.path.unlink()
    raw = database.path.read_bytes() if kind != "deleted" else b""
    if kind != "deleted":
        with pytest.raises(RecordError, match=r"record\.sqlite3"):
            back_up(database)
    aside = restore(path, database)
    assert all_cards(database) == (card,)
    assert aside is None if kind == "deleted" else aside is not None and aside.read_bytes() == raw


def test_a_folder_that_cannot_be_written_is_said(database: Database, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(RecordError, match="a backup could not be written"):
        back_up(database, tmp_path / "file" / "copies")
