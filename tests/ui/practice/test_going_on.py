"""An exercise goes on where it was left: from its address, under its name, in two windows; nothing else is lost.

A page opened anew is a new session: it has nothing but the address, as after a reload or another start of the server.
"""

import sqlite3
from pathlib import Path

import pytest

from conemodel.parts.exercise import Exercise
from conemodel.parts.scatter import Scatter
from conemodel.parts.toml_files import read_part, write_part
from conemodel.record.attempts import attempts, delete_name
from conemodel.record.database import Database
from conemodel.record.journal import Opening, begin_bench, count_starts, unfinished
from conemodel.record.server_key import server_key
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.hidden_hub import Given, begin
from conemodel.tasks.practice.playback import proof_of
from conemodel.ui.practice.keeping import DELETED, ELSEWHERE
from tests.ui.practice.trainee import Trainee

JOB = "12-the-whole-job.evening.3"


def anew(trainee: Trainee, **other: str) -> Trainee:
    """Open the page's own address in a new session."""
    address = {
        name: value if isinstance(value, str) else value[0]
        for name, value in trainee.app.query_params.items()
    }
    return Trainee(**{**address, **other})


def in_the_middle(**address: str) -> Trainee:
    """Somebody in the middle of an exercise."""
    trainee = Trainee(**(address or {"link": JOB}))
    return trainee.hold("vice").turn(0.3).rock()


def typed(trainee: Trainee, name: str) -> Trainee:
    trainee.app.text_input(key="practise_name").set_value(name)
    return trainee.run()


def labels(trainee: Trainee) -> list[str]:
    """The labels of its buttons; the joiner that keeps a number from being read as a list is not seen."""
    return [button.label.replace("\u2060", "") for button in trainee.app.button]


def go_on(trainee: Trainee, label: str) -> None:
    trainee.app.button[labels(trainee).index(label)].click()
    trainee.run()


def test_the_same_bench_is_back_in_a_new_session_and_goes_on() -> None:
    one = in_the_middle()
    again = anew(one)
    assert again.sitting.stand.bench == one.sitting.stand.bench
    assert "Cone turned out, 3 minutes" in again.words
    assert "Going on where it was left" in again.words
    again.rock()
    assert "Going on where it was left" not in again.words
    assert len(anew(again).sitting.stand.bench.log) == len(one.sitting.stand.bench.log) + 1


def test_nothing_is_kept_of_a_bench_that_was_only_looked_at(database: Database) -> None:
    trainee = Trainee(link=JOB)
    visit = trainee.app.query_params["visit"]
    visit = visit if isinstance(visit, str) else visit[0]
    assert unfinished(visit, None, database) == ()
    assert anew(trainee).sitting.stand.bench == trainee.sitting.stand.bench


def test_a_finished_exercise_shows_its_mark_again_and_is_saved_once(database: Database) -> None:
    done = in_the_middle().press("Done: it is right")
    assert "Not yet" in done.words
    again = anew(done)
    assert "Not yet" in again.words
    (kept,) = attempts(database)
    assert again.sitting.saved == kept.id


def test_starting_afresh_draws_other_hubs_and_counts(database: Database) -> None:
    left = typed(in_the_middle(exercise="04-locknut"), "Kim")
    again = anew(left).press("Start afresh")
    assert again.sitting.stand.bench.hidden != left.sitting.stand.bench.hidden
    assert again.sitting.stand.bench.log == ()
    assert not any(label.startswith("Go on with") for label in labels(again))
    again.hold("vice")
    assert count_starts("", "Kim", "04-locknut", database) == (2, 0)
    again.run()
    assert any("started twice, finished never" in caption.value for caption in again.app.caption)


def test_what_was_left_for_another_exercise_is_offered_by_exercise_and_hub() -> None:
    left = Trainee(exercise="01-first-touch").hold("vice")
    bench = left.turn(-0.1).press("Done: it is right").sitting.stand.bench
    other = in_the_middle(exercise="04-locknut", visit=left.sitting.keeping.opening.visit)
    (offer,) = [label for label in labels(other) if label.startswith("Go on with")]
    assert offer.startswith("Go on with 1. ")
    assert offer.endswith("second hub")
    go_on(other, offer)
    assert other.sitting.stand.bench == bench


def test_a_name_finds_its_bench_from_anywhere_and_comes_back_with_it() -> None:
    left = typed(in_the_middle(exercise="05-quick-release"), " Kim ")
    assert anew(left).app.session_state["practise_name"] == "Kim"
    elsewhere = Trainee(exercise="04-locknut")
    assert not any(label.startswith("Go on with") for label in labels(elsewhere))
    (offer,) = [label for label in labels(typed(elsewhere, "Kim")) if label.startswith("Go on with 5. ")]
    go_on(elsewhere, offer)
    assert elsewhere.sitting.stand.bench == left.sitting.stand.bench


def test_in_two_windows_the_second_is_told_and_shows_what_the_first_did() -> None:
    one = in_the_middle()
    other = anew(one)
    one.twirl()
    other.rock()
    assert ELSEWHERE in [info.value for info in other.app.info]
    assert other.sitting.stand.bench == one.sitting.stand.bench
    other.rock()  # made on the hub as it stands now, it counts
    assert len(other.sitting.stand.bench.log) == len(one.sitting.stand.bench.log) + 1
    assert ELSEWHERE not in [info.value for info in other.app.info]
    assert anew(one).sitting.stand.bench == other.sitting.stand.bench


def test_two_windows_that_begin_at_once_come_to_one_bench() -> None:
    one = Trainee(link=JOB)
    other = anew(one)
    one.hold("vice")
    other.press("Count the balls")
    assert ELSEWHERE in [info.value for info in other.app.info]
    assert other.sitting.stand.bench == one.sitting.stand.bench


@pytest.mark.parametrize(
    ("harm", "said"),
    [
        ("UPDATE bench_act SET act = 'torn' WHERE number = 1", "act 2"),
        ("UPDATE bench_act SET told = 'It sings.' WHERE number = 2", "program has changed"),
        ("UPDATE bench SET proof = 'other'", "drawn otherwise"),
        ("UPDATE bench SET played = 'name = '", "exercise cannot be read"),
    ],
)
def test_a_journal_that_cannot_be_played_back_says_so_and_loses_nothing(
    database: Database, harm: str, said: str
) -> None:
    left = in_the_middle()
    with sqlite3.connect(database.path) as connection:
        connection.execute(harm)
    connection.close()
    again = anew(left)
    (problem,) = [code.value for code in again.app.code if "cannot be gone on with" in code.value]
    assert said in problem
    assert "stays in the record" in problem
    assert again.sitting.stand.bench.log == ()
    assert unfinished(left.sitting.keeping.opening.visit, None, database)


def test_an_exercise_of_ones_own_comes_back_without_its_file_and_starts_afresh_as_itself(
    database: Database,
) -> None:
    mine = ladder()["05-quick-release"].replace(name="Mine", number=0)
    code, visit = "own-mine.self.7", "v" * 16
    start = begin(mine, Given(salt="self", seed=7, key=server_key()))
    opening = Opening(
        visit=visit,
        name=None,
        link=code,
        exercise="own-mine",
        played=write_part(mine),
        own=write_part(mine),
        proof=proof_of(start),
    )
    begin_bench(opening, database)
    again = Trainee(visit=visit, link=code)
    assert again.sitting.own == mine
    assert again.sitting.stand.bench == start
    again.press("Start afresh")
    assert (again.sitting.own, again.sitting.link.exercise) == (mine, "own-mine")
    assert again.sitting.link.code != code


def test_an_exercise_kept_as_text_is_the_same_to_the_last_digit() -> None:
    measured = Scatter(play=1 + 1 / 3, drag=2**0.1, ripple=1.7320508075688772)
    for exercise in ladder().values():
        played = exercise.replace(assessed=False, scatter=measured)
        assert read_part(Exercise, write_part(played), name="kept") == played


def test_what_was_deleted_stays_deleted(database: Database) -> None:
    trainee = typed(in_the_middle(), "Kim")
    delete_name("Kim", database)
    trainee.twirl()
    assert DELETED in [warning.value for warning in trainee.app.warning]
    assert trainee.told
    assert unfinished(trainee.sitting.keeping.opening.visit, "Kim", database) == ()


def test_a_record_that_cannot_be_used_stops_nobody_and_what_was_done_is_kept_later(
    database: Database,
) -> None:
    trainee = in_the_middle()
    moved = database.path.with_name("moved")
    for end in ("", "-wal", "-shm"):
        if (part := Path(f"{database.path}{end}")).exists():
            part.rename(f"{moved}{end}")
    database.path.mkdir()
    trainee.twirl()
    assert any("Not kept just now" in warning.value for warning in trainee.app.warning)
    database.path.rmdir()
    for end in ("", "-wal", "-shm"):
        if (part := Path(f"{moved}{end}")).exists():
            part.rename(f"{database.path}{end}")
    trainee.rock()
    assert not trainee.app.warning
    assert anew(trainee).sitting.stand.bench == trainee.sitting.stand.bench
