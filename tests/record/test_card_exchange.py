"""Job cards out as one file and in again: equal, all or none, and never less than was there."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from conemodel.base.errors import InputProblems
from conemodel.record.card_exchange import Imported, export_cards, import_cards
from conemodel.record.card_file import TooManyCards, write_cards
from conemodel.record.card_reader import read_cards
from conemodel.record.cards import NoCard, all_cards, answer, begin_card, find_card
from conemodel.record.database import Database
from conemodel.tasks.job_card.card import Card, Place
from tests.tasks.job_card.random_cards import cards, entry

ROWS = st.lists(cards(), max_size=4, unique_by=lambda card: card.id)
SLOW = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@pytest.fixture
def database(tmp_path: Path) -> Database:
    return Database(tmp_path / "record.sqlite3")


def delete_all(database: Database) -> None:
    with database.writing() as connection:
        connection.execute("DELETE FROM card_entry")
        connection.execute("DELETE FROM card")


@SLOW
@given(drawn=ROWS)
def test_export_delete_all_and_import_gives_the_same(drawn: list[Card], database: Database) -> None:
    delete_all(database)
    import_cards(write_cards(drawn), database)
    before = all_cards(database)
    assert sorted(before, key=lambda card: card.id) == sorted(drawn, key=lambda card: card.id)
    text = export_cards(database)
    delete_all(database)
    assert all_cards(database) == ()
    assert import_cards(text, database) == Imported(added=len(drawn), continued=0, unchanged=0)
    assert all_cards(database) == before
    assert import_cards(text, database) == Imported(added=0, continued=0, unchanged=len(drawn))
    assert export_cards(database) == text


def test_every_answer_stands_on_a_line_of_its_own(database: Database) -> None:
    card = begin_card(database)
    answer(card.id, {Place("tag"): "Zoë\n\u2028", Place("wheel"): "rear"}, database)
    text = export_cards(database)
    assert text.isascii()
    assert [json.loads(line.rstrip(","))["step"] for line in text.splitlines() if '"at"' in line] == [
        "tag",
        "wheel",
    ]
    assert json.loads(text)["format"] == "conemodel job cards"


def test_one_card_can_be_taken_by_itself(database: Database) -> None:
    one, _ = begin_card(database), begin_card(database)
    assert [read.card for read in read_cards(export_cards(database, one.id), name="f")] == [one]
    with pytest.raises(NoCard):
        export_cards(database, "none")


def test_a_longer_history_stands_and_a_shorter_one_takes_nothing_away(database: Database) -> None:
    card = begin_card(database)
    early = export_cards(database)
    answer(card.id, {Place("tag"): "7"}, database)
    late = export_cards(database)
    assert import_cards(early, database) == Imported(added=0, continued=0, unchanged=1)
    assert find_card(card.id, database).answer("tag") == "7"
    delete_all(database)
    import_cards(early, database)
    assert import_cards(late, database) == Imported(added=0, continued=1, unchanged=0)
    assert export_cards(database) == late


def test_histories_that_went_apart_are_merged_and_go_on(database: Database, tmp_path: Path) -> None:
    card, other = begin_card(database), Database(tmp_path / "tablet.sqlite3")
    import_cards(export_cards(database), other)
    answer(card.id, {Place("tag"): "7"}, database)
    answer(card.id, {Place("wheel"): "rear"}, other)
    import_cards(export_cards(other), database)
    import_cards(export_cards(database), other)
    assert all_cards(other) == all_cards(database)
    answer(card.id, {Place("tag"): "8"}, database)
    kept = find_card(card.id, database)
    assert (kept.answer("wheel"), [each.value for each in kept.corrected("tag")]) == ("rear", ["7", "8"])


def test_another_card_under_the_same_id_is_refused_and_nothing_is_kept(database: Database) -> None:
    card = begin_card(database)
    odd = replace(card, begun_at="2001-01-01T00:00:00+00:00", entries=(entry("tag", "1"),))
    new = Card(id="a" * 32, begun_at=card.begun_at)
    with pytest.raises(InputProblems, match=r"f\.json:8: begun_at = 2001.*as on the card of this id"):
        import_cards(write_cards([new, odd]), database, name="f.json")
    assert all_cards(database) == (card,)


def test_more_cards_than_would_be_read_back_are_not_written() -> None:
    with pytest.raises(TooManyCards, match="backup"):
        write_cards([Card(id="a" * 32, begun_at="2026-01-01T00:00:00+00:00")] * 9, most=300)
