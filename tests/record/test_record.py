"""Attempts in their file: saved means saved, whatever happens to the program afterwards.

Nothing here comes from a book: the laws are that what was reported as saved is found again, once, and whole.
"""

import csv
import io
import os
import signal
import sqlite3
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, datetime
from math import radians
from pathlib import Path

import pytest

from conemodel.base.errors import InputProblems
from conemodel.base.table import csv_text
from conemodel.record import database as module
from conemodel.record.attempts import (
    Attempt,
    attempt_of,
    attempts,
    delete_attempt,
    delete_name,
    names,
    save,
)
from conemodel.record.database import FILE_OPTION, MIGRATIONS, Database, RecordError, record_file
from conemodel.record.progress import class_table, list_attempts, list_class, progress
from conemodel.tasks.practice.catalogue import read_link
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.plan.hub_result import HubResult
from tests.tasks.practice.hubs import open_link
from tests.tasks.practice.players import careful, quarter_turn

ONE = Attempt(
    made_at="2026-01-02T03:04:05+00:00",
    name="Ada",
    exercise="05-quick-release",
    salt="tuesday",
    seed=7,
    passed=False,
    stage="clamp",
    unchecked=False,
    critical="",
    false_right=0,
    false_wrong=0,
    off_by=-12e-6,
    off_turn=radians(-4.3),
    locks=3,
    moves=9,
    hint="The clamp takes up some.",
)


@pytest.fixture
def file(tmp_path: Path) -> Database:
    return Database(tmp_path / "folder" / "record.sqlite3")


def test_what_is_saved_is_found_again_as_it_was(file):
    saved = save(ONE, file)
    assert attempts(Database(file.path)) == (saved,)
    assert replace(saved, id=None) == ONE


def test_an_attempt_comes_from_a_mark_and_its_link(file):
    link = read_link("05-quick-release.tuesday.7")
    result = mark(careful(open_link(link.code)))
    now = datetime(2026, 1, 2, 3, 4, 5, tzinfo=UTC)
    made = save(attempt_of(result, link, name="  Ada \t L. ", now=now), file)
    assert (made.name, made.made_at) == ("Ada L.", "2026-01-02T03:04:05+00:00")
    assert (made.passed, made.stage, made.locks) == (True, "none", result.locks)
    blank = attempt_of(mark(quarter_turn(open_link(link.code))), link, name="   ")
    assert blank.name is None


def test_a_name_that_cannot_be_kept_is_refused():
    result, link = mark(careful(open_link("01-first-touch.a.1"))), read_link("01-first-touch.a.1")
    for name in ("x" * 61, "bell\x07"):
        with pytest.raises(InputProblems, match="name"):
            attempt_of(result, link, name=name)


def test_attempts_are_told_apart_by_name_exercise_and_class(file):
    for name in ("Ada", "Ben", None):
        for salt in ("monday", "tuesday"):
            save(replace(ONE, name=name, salt=salt), file)
    assert names(file) == ("Ada", "Ben")
    assert len(attempts(file, name="Ada")) == 2
    assert len(attempts(file, salt="monday")) == 3
    assert len(attempts(file, name="Ben", salt="monday")) == 1
    assert attempts(file, exercise="04-locknut") == ()


def test_deleting_takes_what_was_named_and_no_more(file):
    first, second = save(ONE, file), save(replace(ONE, name="Ben"), file)
    save(ONE, file)
    assert delete_name("Ada", file) == 2
    assert attempts(file) == (second,)
    assert first.id is not None
    assert second.id is not None
    assert not delete_attempt(first.id, file)
    assert delete_attempt(second.id, file)
    assert attempts(file) == ()


def test_a_name_that_looks_like_sql_is_only_a_name(file):
    evil = save(replace(ONE, name="x'; DROP TABLE attempt; --"), file)
    assert attempts(file, name=evil.name) == (evil,)


def test_a_write_that_fails_leaves_nothing(file):
    save(ONE, file)

    def fail() -> None:
        with file.writing() as connection:
            connection.execute("DELETE FROM attempt")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        fail()
    assert len(attempts(file)) == 1


def test_the_file_is_strict_logged_ahead_and_carries_its_version(file):
    save(ONE, file)
    with file.reading() as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone()[0] == "wal"
        assert connection.execute("PRAGMA user_version").fetchone()[0] == len(MIGRATIONS)
        assert connection.execute("PRAGMA synchronous").fetchone()[0] == 2  # FULL, by SQLite's documentation
        with pytest.raises(sqlite3.IntegrityError, match="cannot store TEXT value in INTEGER"):
            connection.execute("UPDATE attempt SET locks = 'three'")


def test_an_older_file_is_brought_up_to_date_and_keeps_what_it_held(file, monkeypatch):
    save(ONE, file)
    more = (*MIGRATIONS, "CREATE TABLE service (id INTEGER PRIMARY KEY, sheet TEXT NOT NULL) STRICT;")
    monkeypatch.setattr(module, "MIGRATIONS", more)
    with file.writing() as connection:
        connection.execute("INSERT INTO service (sheet) VALUES ('rear wheel')")
    assert len(attempts(file)) == 1


def test_a_file_of_a_newer_program_is_left_alone(file):
    save(ONE, file)
    with sqlite3.connect(file.path) as connection:
        connection.execute(f"PRAGMA user_version = {len(MIGRATIONS) + 1}")
    with pytest.raises(RecordError, match="newer version"):
        save(ONE, file)


def test_a_file_that_is_no_record_is_not_overwritten(tmp_path):
    path = tmp_path / "letter.txt"
    path.write_text("Dear reader, " * 200)
    with pytest.raises(RecordError, match=r"letter\.txt"):
        attempts(Database(path))
    assert path.read_text().startswith("Dear reader")


def test_the_environment_names_the_file(monkeypatch, tmp_path):
    monkeypatch.setenv(FILE_OPTION, str(tmp_path / "class.sqlite3"))
    assert record_file() == Database().path == tmp_path / "class.sqlite3"
    monkeypatch.delenv(FILE_OPTION)
    assert record_file().parent.name == "conemodel"


def test_twenty_threads_on_a_new_file_lose_nothing(file):
    def work(number: int) -> None:
        for seed in range(10):
            save(replace(ONE, name=f"n{number}", seed=seed), file)

    with ThreadPoolExecutor(20) as pool:
        list(pool.map(work, range(20)))
    found = {(attempt.name, attempt.seed) for attempt in attempts(file)}
    assert len(attempts(file)) == len(found) == 200


SAVER = """
import sys
from dataclasses import replace
from pathlib import Path
from conemodel.record.attempts import save
from conemodel.record.database import Database
from tests.record.test_record import ONE
file = Database(Path(sys.argv[1]))
for seed in range(10_000):
    save(replace(ONE, seed=seed), file)
    print(seed, flush=True)
"""


def test_a_program_killed_while_saving_loses_nothing_it_said_was_saved(file, root):
    env = {**os.environ, "PYTHONPATH": str(root)}
    command = [sys.executable, "-c", SAVER, str(file.path)]
    with subprocess.Popen(command, cwd=root, env=env, stdout=subprocess.PIPE, text=True) as saver:
        assert saver.stdout is not None
        told = [int(saver.stdout.readline()) for _ in range(40)]
        saver.send_signal(signal.SIGKILL)
        told += [int(line) for line in saver.stdout]
        saver.wait()
    found = [attempt.seed for attempt in attempts(file)]
    assert found[: len(told)] == told
    assert len(found) - len(told) in (0, 1)  # one may be on the disk and not yet told of
    with file.reading() as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"


def test_progress_counts_passes_on_different_links():
    passed = replace(ONE, passed=True, stage="none")
    (row,) = progress([ONE, passed, passed])
    assert (row.attempts, row.passed, row.seeds_passed, row.learnt) == (3, 2, 1, False)
    (row,) = progress([passed, replace(passed, seed=8)])
    assert row.learnt


def test_a_class_is_counted_by_stage_of_error():
    stages = ("touch", "slack", "slack", "not checked")
    done = [replace(ONE, stage=stage, name=f"n{i}") for i, stage in enumerate(stages)]
    done += [replace(ONE, passed=True, stage="none", name="n0"), replace(ONE, critical="the lever is open")]
    (row,) = class_table(done)
    counts = (row.trainees, row.attempts, row.passed, row.touch, row.slack, row.drift, row.clamp)
    assert counts == (5, 6, 1, 1, 2, 0, 1)
    assert (row.not_checked, row.judged, row.critical) == (1, 0, 1)
    assert csv_text(list_class(done, {})).splitlines()[1].startswith("05-quick-release,5,6,1,1,2,0,1,1,0,1")


def test_progress_and_class_say_what_was_read_in_words(file):
    hubs = (*[HubResult(passed=True, checked=True, worded=True)] * 7, HubResult(passed=True, checked=True))
    save(replace(ONE, passed=True, stage="none", worded=True, hubs=hubs), file)
    save(replace(ONE, passed=True, stage="none", seed=8, hubs=hubs[7:]), file)
    done = attempts(file)
    assert done[0].hubs == hubs
    (mine,), (row,) = progress(done), class_table(done)
    assert (mine.passed, mine.worded) == (2, 1)
    assert (row.passed, row.worded, row.hubs_read) == (2, 1, 7)
    assert [line.rsplit(",", 1)[1] for line in csv_text(list_attempts(done)).splitlines()[1:]] == ["7", "0"]


def test_csv_is_in_everyday_units_and_runs_nothing():
    (row,) = csv.DictReader(io.StringIO(csv_text(list_attempts([replace(ONE, name='=HYPERLINK("x")')]))))
    assert (row["off_by_um"], row["off_turn_deg"], row["seed"]) == ("-12.0", "-4.3", "7")
    assert row["name"].startswith("'=")


def test_attempts_kept_before_rounds_and_words_were_told_are_still_read(file):
    """Written by the first version of the file, column by column as it was then."""
    file.path.parent.mkdir(parents=True, exist_ok=True)
    with sqlite3.connect(file.path) as connection:
        for statement in filter(str.strip, MIGRATIONS[0].split(";")):
            connection.execute(statement)
        row = (
            1,
            "2024-01-01T10:00:00",
            "Kim",
            "04-locknut",
            "self",
            7,
            1,
            "none",
            0,
            "",
            0,
            0,
            0.0,
            0.0,
            2,
            5,
            "x",
        )
        connection.execute(f"INSERT INTO attempt VALUES ({', '.join('?' * len(row))})", row)
        connection.execute("PRAGMA user_version = 1")
    connection.close()
    (kept,) = attempts(file, name="Kim")
    assert (kept.passed, kept.seed, kept.worded, kept.training) == (True, 7, False, False)
