"""Measured hands in their file: every answer is kept as it is given, whatever happens to the program afterwards.

Nothing here comes from a book: the laws are that what was kept is found again, once, in order, and goes on from there.
"""

import os
import signal
import subprocess
import sys
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from conemodel.base.errors import InputProblems
from conemodel.record.attempts import delete_name
from conemodel.record.database import Database
from conemodel.record.hand_sittings import (
    begin_sitting,
    delete_sittings,
    find_sitting,
    keep_answer,
    latest_thresholds,
    sittings,
)
from conemodel.tasks.hand.kinds import KINDS
from conemodel.tasks.hand.pairs import next_pair
from conemodel.tasks.hand.procedure import PAIRS, Answer
from tests.patience import PATIENCE

PLAY, TIGHTNESS = KINDS["play"], KINDS["tightness"]
MORE, LESS = Answer(difference=0.2e-3, second=True), Answer(difference=-0.1e-3, second=False)


@pytest.fixture
def file(tmp_path: Path) -> Database:
    return Database(tmp_path / "folder" / "record.sqlite3")


def test_a_sitting_goes_on_where_it_was(file):
    sitting = begin_sitting(PLAY, file, name=" Ada  L. ", now=datetime(2026, 1, 2, 3, 4, 5, tzinfo=UTC))
    for answer in (MORE, LESS, MORE):
        sitting = keep_answer(sitting, answer, file)
    found = find_sitting(sitting.id, Database(file.path))
    assert found == sitting
    assert (found.name, found.begun_at, found.kind) == ("Ada L.", "2026-01-02T03:04:05+00:00", PLAY)
    assert found.answers == (MORE, LESS, MORE)
    assert next_pair(PLAY, found.answers, seed=found.id) == next_pair(PLAY, sitting.answers, seed=sitting.id)
    assert find_sitting(sitting.id + 1, file) is None


def test_a_pair_answered_in_two_windows_keeps_its_first_answer(file):
    here = there = begin_sitting(PLAY, file, name=None)
    keep_answer(here, MORE, file)
    assert keep_answer(there, LESS, file).answers == (MORE,)


def test_the_last_answer_finishes_it(file):
    sitting = begin_sitting(TIGHTNESS, file, name=None)
    for number in range(PAIRS):
        assert not sitting.finished
        sitting = keep_answer(sitting, Answer(difference=0.3 * (-1) ** number, second=not number % 2), file)
    assert sitting.finished
    assert sitting.estimate.pairs == PAIRS
    assert sitting.estimate.threshold.value < TIGHTNESS.just_told  # every one of them was right


def test_sittings_stand_by_name_and_kind_oldest_first(file):
    days = [datetime(2026, 1, day, tzinfo=UTC) for day in (3, 1, 2)]
    made = [begin_sitting(PLAY, file, name="Ada", now=day) for day in days]
    begin_sitting(TIGHTNESS, file, name="Ada")
    begin_sitting(PLAY, file, name="Bob")
    begin_sitting(PLAY, file, name=None)
    assert sittings("Ada", PLAY, file) == (made[1], made[2], made[0])
    assert len({sitting.id for sitting in made}) == 3


def test_what_serves_in_practice_is_the_latest_finished_sitting(file):
    def sit(day: int, size: float, pairs: int) -> float:
        sitting = begin_sitting(PLAY, file, name="Ada", now=datetime(2026, 1, day, tzinfo=UTC))
        for number in range(pairs):
            answer = Answer(difference=size * (-1) ** number, second=(number % 2 == 0) == (number % 7 != 0))
            sitting = keep_answer(sitting, answer, file)
        return sitting.estimate.threshold.value

    assert latest_thresholds("Ada", file) == {}
    sit(1, 0.4e-3, PAIRS)
    second = sit(2, 0.1e-3, PAIRS)
    sit(3, 0.8e-3, PAIRS - 1)
    assert latest_thresholds("Ada", file) == {"play": second}
    assert latest_thresholds("Bob", file) == {}


def test_a_name_is_held_to_its_limits(file):
    with pytest.raises(InputProblems, match="at most 60"):
        begin_sitting(PLAY, file, name="x" * 61)
    assert begin_sitting(PLAY, file, name="   ").name is None


@pytest.mark.parametrize("everything", [False, True])
def test_what_is_kept_under_a_name_can_be_deleted(file, everything):
    mine, other = (keep_answer(begin_sitting(PLAY, file, name=name), MORE, file) for name in ("Ada", "Bob"))
    assert (delete_name if everything else delete_sittings)("Ada", file) == (0 if everything else 1)
    assert find_sitting(mine.id, file) is None
    assert find_sitting(other.id, file) == other
    with file.reading() as connection:
        assert connection.execute("SELECT count(*) FROM hand_answer").fetchone()[0] == 1


def test_an_answer_outlasts_a_killed_program(file):
    sitting = begin_sitting(PLAY, file, name="Ada")
    code = (
        "import sys, time; from pathlib import Path; from conemodel.record.database import Database;"
        "from conemodel.record.hand_sittings import *; from conemodel.tasks.hand.procedure import Answer;"
        "file = Database(Path(sys.argv[1])); sitting = find_sitting(int(sys.argv[2]), file);"
        "keep_answer(sitting, Answer(difference=2e-4, second=True), file); print('kept', flush=True); time.sleep(600)"
    )
    command = [sys.executable, "-c", code, str(file.path), str(sitting.id)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as program:
        assert program.stdout is not None
        assert program.stdout.readline() == "kept\n"
        os.kill(program.pid, signal.SIGKILL)
        program.wait(PATIENCE)
    assert find_sitting(sitting.id, file) == replace(sitting, answers=(MORE,))
