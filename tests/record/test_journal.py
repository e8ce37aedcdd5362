"""The journal of a bench: kept means kept, once and in order, and deleted with what it belongs to.

Nothing here comes from a book: the laws are that what was kept is found again whole, that of two writers one is told
that it came second, and that nothing of a person stays who had it deleted.
"""

import os
import signal
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from conemodel.record.attempts import attempts, delete_attempt, delete_name, delete_nameless, save
from conemodel.record.database import Database
from conemodel.record.hand_sittings import begin_sitting, nameless_sittings
from conemodel.record.journal import (
    Deleted,
    KeptAct,
    Opening,
    Overtaken,
    begin_bench,
    bench_of_link,
    count_starts,
    find_bench,
    keep_acts,
    kept_acts,
    leave_bench,
    name_bench,
    save_once,
    unfinished,
)
from conemodel.tasks.hand.kinds import KINDS
from tests.record.test_record import ONE

KIM = Opening(
    visit="v" * 16,
    name="Kim",
    link="04-locknut.self.7",
    exercise="04-locknut",
    played="name = 'x'",
    own=None,
    proof="abc",
)
ACTS = (
    KeptAct('{"act": "Rock"}', "It moves.", None, 0),
    KeptAct('{"act": "Take", "hub": 1}', "Hub 2 is on the bench.", "taken", 1),
)


@pytest.fixture
def file(tmp_path: Path) -> Database:
    return Database(tmp_path / "record.sqlite3")


def rows(file: Database) -> tuple[int, int]:
    """How many benches and acts are in the file."""
    with file.reading() as connection:
        benches = connection.execute("SELECT count(*) FROM bench").fetchone()[0]
        return benches, connection.execute("SELECT count(*) FROM bench_act").fetchone()[0]


def test_what_was_kept_is_found_again_in_order(file: Database) -> None:
    bench = begin_bench(KIM, file)
    for number, one in enumerate(ACTS):
        keep_acts(bench, number, [one], file)
    assert kept_acts(bench, Database(file.path)) == ACTS
    found = find_bench(bench, file)
    assert found == bench_of_link(KIM.visit, KIM.link, file)
    assert found is not None
    assert (found.opening, found.hub, found.acts, found.attempt) == (KIM, 1, 2, None)


def test_of_two_windows_the_second_is_told_and_nothing_is_written_over(file: Database) -> None:
    bench = begin_bench(KIM, file)
    keep_acts(bench, 0, ACTS[:1], file)
    with pytest.raises(Overtaken) as told:
        keep_acts(bench, 0, ACTS[1:], file)
    assert told.value.bench == bench
    assert kept_acts(bench, file) == ACTS[:1]
    with pytest.raises(Overtaken) as told:
        begin_bench(replace(KIM, name=None), file)
    assert told.value.bench == bench
    begin_bench(replace(KIM, visit="w" * 16), file)
    assert rows(file) == (2, 1)


def test_a_bench_of_a_name_is_offered_to_the_name_and_one_of_none_to_its_visit(file: Database) -> None:
    begin_bench(KIM, file)
    nameless = begin_bench(replace(KIM, name=None, link="a.self.1"), file)

    def offered(visit: str, name: str | None) -> list[str | None]:
        return [one.opening.name for one in unfinished(visit, name, file)]

    assert offered("elsewhere", "Kim") == ["Kim"]
    assert offered(KIM.visit, None) == [None]
    assert offered(KIM.visit, "Lee") == [None]
    assert offered("elsewhere", None) == []
    leave_bench(nameless, file)
    assert offered(KIM.visit, None) == []


def test_starting_over_counts_as_a_start_and_finishing_once_as_one(file: Database) -> None:
    first = begin_bench(KIM, file)
    leave_bench(first, file)
    second = begin_bench(replace(KIM, link="04-locknut.self.8"), file)
    assert count_starts("any", "Kim", "04-locknut", file) == (2, 0)
    number = save_once(second, ONE, file)
    assert save_once(second, ONE, file) == number
    assert len(attempts(file)) == 1
    assert count_starts("any", "Kim", "04-locknut", file) == (2, 1)
    assert count_starts(KIM.visit, None, "04-locknut", file) == (0, 0)
    assert [one.id for one in unfinished(KIM.visit, "Kim", file)] == []


def test_deleting_a_name_deletes_its_journals_and_no_others(file: Database) -> None:
    mine, finished = begin_bench(KIM, file), begin_bench(replace(KIM, name=None, link="b.self.1"), file)
    other = begin_bench(replace(KIM, name="Lee", link="c.self.1"), file)
    for bench in (mine, finished, other):
        keep_acts(bench, 0, ACTS, file)
    save_once(finished, replace(ONE, name="Kim"), file)  # begun without a name, ended under this one
    delete_name("Kim", file)
    assert rows(file) == (1, 2)
    assert kept_acts(other, file) == ACTS
    with pytest.raises(Deleted):
        keep_acts(mine, 2, ACTS, file)
    assert begin_bench(KIM, file) > other  # a number is never given twice, so nobody writes into another's


def test_deleting_an_attempt_deletes_the_journal_it_came_from(file: Database) -> None:
    bench, other = begin_bench(KIM, file), begin_bench(replace(KIM, link="c.self.1"), file)
    keep_acts(bench, 0, ACTS, file)
    save(ONE, file)
    delete_attempt(save_once(bench, ONE, file), file)
    assert find_bench(bench, file) is None
    assert find_bench(other, file) is not None
    assert rows(file) == (1, 0)


def test_what_has_no_name_is_read_and_deleted_by_its_visit_and_takes_nothing_else(file: Database) -> None:
    nameless = replace(ONE, name=None)
    mine = begin_bench(replace(KIM, name=None), file)
    other = begin_bench(replace(KIM, name=None, visit="w" * 16), file)
    named = begin_bench(replace(KIM, link="c.self.1"), file)
    for bench, attempt in ((mine, nameless), (other, nameless), (named, ONE)):
        keep_acts(bench, 0, ACTS, file)
        save_once(bench, attempt, file)
    begin_sitting(KINDS["play"], file, name=None, visit=KIM.visit)
    (found,) = attempts(file, nameless_of=KIM.visit)
    assert replace(found, id=None) == nameless
    assert delete_nameless(KIM.visit, file) == 1
    assert attempts(file, nameless_of=KIM.visit) == ()
    assert nameless_sittings(KIM.visit, KINDS["play"], file) == ()
    assert len(attempts(file)) == 2
    assert rows(file) == (2, 4)


def test_a_name_taken_away_leaves_nothing_under_it(file: Database) -> None:
    bench = begin_bench(KIM, file)
    name_bench(bench, None, file)
    assert unfinished("elsewhere", "Kim", file) == ()
    assert [one.id for one in unfinished(KIM.visit, None, file)] == [bench]


WRITER = """
import sys
from pathlib import Path
from conemodel.record.database import Database
from conemodel.record.journal import KeptAct, begin_bench, keep_acts
from tests.record.test_journal import KIM
file = Database(Path(sys.argv[1]))
bench = begin_bench(KIM, file)
for number in range(10_000):
    keep_acts(bench, number, [KeptAct(str(number), "", None, 0)], file)
    print(number, flush=True)
"""


def test_a_program_killed_at_work_loses_no_act_it_said_was_kept(file: Database, root: Path) -> None:
    env = {**os.environ, "PYTHONPATH": str(root)}
    command = [sys.executable, "-c", WRITER, str(file.path)]
    with subprocess.Popen(command, cwd=root, env=env, stdout=subprocess.PIPE, text=True) as writer:
        assert writer.stdout is not None
        told = [int(writer.stdout.readline()) for _ in range(20)]
        writer.send_signal(signal.SIGKILL)
        told += [int(line) for line in writer.stdout]
        writer.wait()
    found = bench_of_link(KIM.visit, KIM.link, file)
    assert found is not None
    acts = [int(one.act) for one in kept_acts(found.id, file)]
    assert acts[: len(told)] == told == list(range(len(told)))
    assert len(acts) - len(told) in (0, 1)  # one may be on the disk and not yet told of
