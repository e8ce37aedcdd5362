"""A customer's data deleted: the text is in no file of the record any more, and copies that hold it are named."""

import json
from pathlib import Path

import pytest

from conemodel.base.errors import InputProblems
from conemodel.record.backups import back_up
from conemodel.record.cards import all_cards, answer, begin_card, find_card
from conemodel.record.customers import delete_customer
from conemodel.record.database import Database
from conemodel.tasks.job_card.card import Card, Place, Value

NAME = "Zoë Quill"


@pytest.fixture
def database(tmp_path: Path) -> Database:
    return Database(tmp_path / "shop" / "record.sqlite3")


def card_of(database: Database, *customers: Value, note: str = "Nothing.") -> Card:
    """Keep a card whose customer was answered so, one answer after another."""
    card = begin_card(database)
    for customer in customers:
        answer(card.id, {Place("customer"): customer}, database)
    return answer(card.id, {Place("note"): note}, database)


def files_with(text: str, database: Database) -> list[str]:
    """Return the files of the record in which a text stands, as it is or as JSON writes it."""
    forms = (text.encode(), json.dumps(text)[1:-1].encode())
    files = database.path.parent.glob(f"{database.path.name}*")
    return [path.name for path in files if any(form in path.read_bytes() for form in forms)]


def test_every_card_of_a_customer_goes_with_its_history_and_no_byte_of_it_is_left(database: Database) -> None:
    other = card_of(database, "Bo Reed")
    for _ in range(30):
        card_of(database, "Zoe Qill", NAME, note="Lives at 7 Heron Yard. " * 20)
    card_of(database, "  zoë  QUILL ")
    for text in (NAME, "Zoe Qill", "Heron Yard"):
        assert files_with(text, database)
    with database.reading():  # another program has the record open, so that its log is not put away by itself
        deleted = delete_customer(NAME, database)
        assert (deleted.cards, deleted.former, deleted.mentioned, deleted.erased) == (31, 0, (), True)
        for text in (NAME, "Zoe Qill", "Heron Yard", "QUILL"):
            assert files_with(text, database) == []
    assert all_cards(database) == (other,)


def test_a_name_that_was_corrected_goes_and_the_card_of_the_other_stays(database: Database) -> None:
    card = card_of(database, NAME, "Bo Reed", note="Rattles.")
    taken_back = card_of(database, NAME, None)
    deleted = delete_customer(NAME, database)
    assert (deleted.cards, deleted.former) == (0, 2)
    assert find_card(card.id, database).text("customer") == "Bo Reed"
    assert find_card(taken_back.id, database).text("note") == "Nothing."
    assert files_with(NAME, database) == []
    answer(card.id, {Place("note"): "Quiet."}, database)
    assert [entry.value for entry in find_card(card.id, database).entries] == [
        "Bo Reed",
        "Rattles.",
        "Quiet.",
    ]


def test_cards_of_others_that_mention_the_name_are_said(database: Database) -> None:
    card = card_of(database, "Bo Reed", note="Brought by zoë quill.")
    other = card_of(database, "Bo Reed", note="Brought by Zoë Quillon.")
    assert delete_customer(NAME, database).mentioned == (card.id,)
    assert set(all_cards(database)) == {card, other}


def test_copies_that_still_hold_it_are_named(database: Database, tmp_path: Path) -> None:
    before = back_up(database)
    card_of(database, NAME)
    beside, far, gone = (
        back_up(database, folder) for folder in (None, tmp_path / "stick", tmp_path / "lost")
    )
    gone.unlink()
    unread = beside.with_name("record-kept-aside-2026-01-01-000000.sqlite3")
    unread.write_bytes(b"This is no record." * 400)
    deleted = delete_customer(NAME, database)
    assert set(deleted.copies) == {beside, far}
    assert (deleted.unread, deleted.absent) == ((unread,), (gone,))
    assert before not in deleted.copies
    assert delete_customer(NAME, database).copies == deleted.copies


def test_a_record_in_use_says_that_the_text_is_not_out_of_it_yet(
    database: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    card_of(database, NAME)
    monkeypatch.setattr("conemodel.record.database.PATIENCE", 0.1)
    with database.reading() as connection:
        connection.execute("BEGIN")
        connection.execute("SELECT * FROM card").fetchone()  # holds on to what the log held
        deleted = delete_customer(NAME, database)
        assert (deleted.cards, deleted.erased) == (1, False)
    assert delete_customer(NAME, database).erased
    assert files_with(NAME, database) == []


def test_no_name_deletes_nothing(database: Database) -> None:
    card = card_of(database, None)
    with pytest.raises(InputProblems, match="must be a name"):
        delete_customer("  ", database)
    assert all_cards(database) == (card,)
