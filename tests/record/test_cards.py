"""Job cards in the record: each answer is on the disk at once, a correction is added, nothing is changed."""

from pathlib import Path

import pytest

from conemodel.base.errors import InputProblems
from conemodel.record.cards import NoCard, all_cards, answer, begin_card, find_card
from conemodel.record.database import Database, RecordError
from conemodel.tasks.job_card.card import Place


@pytest.fixture
def database(tmp_path: Path) -> Database:
    return Database(tmp_path / "record.sqlite3")


def test_an_answer_is_kept_and_a_correction_added(database: Database) -> None:
    card = begin_card(database)
    answer(card.id, {Place("tag"): "A 7", Place("ball_count", "left"): 9}, database, by=" Ada ")
    answer(card.id, {Place("tag"): "A 8"}, database)
    answer(card.id, {Place("tag"): "A 8"}, database)
    kept = find_card(card.id, Database(database.path))
    assert kept.answer("tag") == "A 8"
    assert kept.answer("ball_count", "left") == 9
    assert [entry.value for entry in kept.corrected("tag")] == ["A 7", "A 8"]
    assert [entry.by for entry in kept.corrected("tag")] == ["Ada", None]
    assert all_cards(database) == (kept,)


def test_answers_are_kept_all_or_none(database: Database) -> None:
    card = begin_card(database)
    with pytest.raises(InputProblems):
        answer(card.id, {Place("tag"): "A 7", Place("wheel"): "middle"}, database)
    assert find_card(card.id, database).entries == ()


def test_a_card_that_is_not_there_is_said(database: Database) -> None:
    with pytest.raises(NoCard, match="not in the record"):
        find_card("none", database)
    with pytest.raises(NoCard):
        answer("none", {Place("tag"): "1"}, database)


def test_a_record_that_was_deleted_is_said_and_the_next_card_is_kept(database: Database) -> None:
    card = begin_card(database)
    database.path.unlink()
    with pytest.raises(NoCard, match="not in the record"):
        answer(card.id, {Place("tag"): "1"}, database)
    assert all_cards(database) == ()
    assert (begin_card(database),) == all_cards(database)


@pytest.mark.parametrize(
    ("column", "value"), [("value", "{"), ("value", "[1]"), ("value", "[" * 100_000), ("step", "no_such")]
)
def test_an_answer_that_was_damaged_is_said(database: Database, column: str, value: str) -> None:
    card = answer(begin_card(database).id, {Place("tag"): "A 7"}, database)
    with database.writing() as connection:
        connection.execute(f"UPDATE card_entry SET {column} = ?", (value,))
    for read in (lambda: find_card(card.id, database), lambda: all_cards(database)):
        with pytest.raises(RecordError, match=f"cannot read: answer 1 of job card {card.id}"):
            read()
