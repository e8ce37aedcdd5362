"""``card``: listed, shown, out and in again, backed up and put back, deleted; the exit codes of the others."""

import json
import re
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conemodel.base.plain_text import for_terminal
from conemodel.cli import main
from conemodel.record.cards import all_cards, answer, begin_card
from conemodel.record.database import FILE_OPTION, Database
from conemodel.tasks.job_card.card import Card, Place, Value
from tests.hostile import HOSTILE


@pytest.fixture
def database(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Database:
    monkeypatch.setenv(FILE_OPTION, str(tmp_path / "record.sqlite3"))
    return Database()


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ("card", *arguments))


def keep(database: Database, day: int = 1, **answers: Value) -> Card:
    """Keep a card begun on a day of March, its answers given one by one."""
    now = datetime(2026, 3, day, 9, 30, tzinfo=UTC)
    card = begin_card(database, now=now)
    for step, value in answers.items():
        card = answer(card.id, {Place(step): value}, database, by="Ada", now=now)
    return card


def test_cards_are_listed_latest_first_and_found_by_any_words(database: Database) -> None:
    assert run("list").output == "No job cards.\n"
    keep(database, 1, tag="7", customer="Zoë Quill", hub='name = "Touring rear"')
    keep(database, 2, tag="8", customer="Bo Reed", note="Rattles.")
    assert [line.split(", ")[1:4] for line in run("list").output.splitlines()] == [
        ["2026-03-02", "tag 8", "Bo Reed"],
        ["2026-03-01", "tag 7", "Zoë Quill"],
    ]
    for words in (("zoë",), ("touring", "QUILL"), ("quill", "ada")):
        assert re.findall(r"tag \d", run("list", *words).output) == ["tag 7"]
    assert run("list", "quill", "rattles").output == "No job cards.\n"
    assert [found["tag"] for found in json.loads(run("list", "--json").output)] == ["8", "7"]


def test_wheels_to_look_at_again_come_longest_overdue_first(database: Database) -> None:
    today = date.today()
    for tag, days in (("soon", 3), ("late", -9), ("today", 0), ("back", -30)):
        keep(database, 1, tag=tag, wheel="rear", recheck_on=str(today + timedelta(days)))
    keep(database, 2, tag="BACK", wheel="rear")  # it came in again, so its day is past
    keep(database, 2, tag="late", wheel="front")  # the other wheel of the same bicycle
    lines = run("list", "--due").output.splitlines()
    assert [re.findall(r"overdue 9 d|today|in 3 d", line)[0] for line in lines] == [
        "overdue 9 d",
        "today",
        "in 3 d",
    ]


def test_a_card_is_shown_in_bench_order_with_what_was_corrected(database: Database) -> None:
    card = keep(database, 1, note="Rattles.", tag="6", wheel="rear")
    answer(card.id, {Place("tag"): "7", Place("ball_count", "left"): 9, Place("width"): 135.5}, database)
    for which in (card.id, card.id[:8], "7"):
        text = run("show", which).output
        parts = (
            card.id,
            "Tag number: 7",
            "before: 6, 2026-03-01T09:30:00+00:00",
            "left: 9",
            "135.5 mm",
            "Rattles.",
        )
        places = [text.index(part) for part in parts]
        assert places == sorted(places)
    assert "Balls counted, right: not answered" in text
    assert re.search(
        r"Open: \d+ of \d+ places.*not that the wheel is safe.*maker's instructions", text, re.DOTALL
    )
    shown = json.loads(run("show", "7", "--json").output)
    assert [entry["value"] for entry in shown["entries"] if entry["step"] == "tag"] == ["6", "7"]
    assert {"step": "ball_count", "where": "right"} in shown["open"]


def test_what_keeps_a_wheel_from_being_ridden_comes_first(database: Database) -> None:
    text = run("show", keep(database, wheel="rear", brake_works="no").id).output
    assert 0 < text.index("the brake is not connected") < text.index("Who\n")
    assert "rear, ⚠ Do not ride: the brake is not connected or does not work, " in run("list").output


def test_which_card_is_said_when_it_is_none_or_several(database: Database) -> None:
    assert (run("show", "7").exit_code, "“7”" in run("show", "7").output) == (1, True)
    while len(ids := [card.id for card in all_cards(database)]) == len({name[0] for name in ids}):
        begin_card(database)
    twice = next(name[0] for name in ids if sum(other[0] == name[0] for other in ids) == 2)
    refused = run("show", twice)
    assert refused.exit_code == 2
    assert f"card = {twice}: is how 2 ids begin" in refused.output


@pytest.mark.parametrize("text", HOSTILE.values(), ids=list(HOSTILE))
def test_foreign_text_moves_no_terminal(database: Database, text: str) -> None:
    card = keep(database, tag="7", customer=text, note=text)
    for output in (run("list").output, run("show", card.id).output, run("show", card.id, "--json").output):
        assert for_terminal(output) == output


def test_out_and_in_again_on_another_machine(database: Database, tmp_path: Path) -> None:
    keep(database, 1, tag="7", customer="Zoë Quill")
    keep(database, 2, tag="8")
    file, other = str(tmp_path / "cards.json"), str(tmp_path / "other.sqlite3")
    written = run("export", file)
    assert written.exit_code == 0
    assert "not encrypted" in written.output
    assert (
        "cards added: 2, continued: 0, with nothing new: 0" in run("--record", other, "import", file).output
    )
    assert all_cards(Database(Path(other))) == all_cards(database)
    again = run("export", file)
    assert (again.exit_code, "cannot be written" in again.output) == (2, True)
    assert run("export", str(tmp_path / "one.json"), "--card", "8").exit_code == 0
    assert (tmp_path / "one.json").read_text().count('"begun_at"') == 1


def test_a_damaged_file_is_answered_by_its_line(database: Database, tmp_path: Path) -> None:
    keep(database, tag="7")
    file = tmp_path / "cards.json"
    run("export", str(file))
    file.write_text(file.read_text().replace('"7"', "7"))
    refused = run("import", str(file))
    assert refused.exit_code == 2
    assert "cards.json:6: tag = 7: must be text of 1 to 20 characters" in refused.output
    assert run("import", str(tmp_path)).exit_code == run("import", "nowhere.json").exit_code == 2


def test_a_backup_is_put_back_and_what_it_replaced_is_named(database: Database, tmp_path: Path) -> None:
    keep(database, tag="7")
    before = all_cards(database)
    path = run("backup", "--to", str(tmp_path / "stick")).output.split(": written")[0]
    keep(database, tag="8")
    done = run("restore", path)
    assert all_cards(database) == before
    aside = re.search(r"^(.*): what stood there before$", done.output, re.MULTILINE)
    assert aside is not None
    assert len(all_cards(Database(Path(aside[1])))) == 2
    refused = run("restore", str(tmp_path / "none.sqlite3"))
    assert (refused.exit_code, "the record was not changed" in refused.output) == (2, True)


def test_a_customer_is_deleted_once_that_was_confirmed(database: Database) -> None:
    keep(database, customer="Zoë Quill")
    copy = run("backup").output.split(": written")[0]
    asked = CliRunner().invoke(main, ("card", "delete-customer", "zoë quill"), input="n\n")
    assert (asked.exit_code, len(all_cards(database))) == (1, 1)
    assert "Delete 1 job card(s) of this customer for good?" in asked.output
    said = run("delete-customer", "zoë quill", "--yes").output
    assert all_cards(database) == ()
    assert "cards deleted: 1;" in said
    assert f"{copy}: a copy of the record that still holds the name" in said
    assert "cannot be known here" in said
    unknown = run("delete-customer", "zoë quill")
    assert (unknown.exit_code, "no such customer" in unknown.output) == (2, True)


def test_a_damaged_record_is_answered_in_words(database: Database) -> None:
    database.path.write_bytes(b"This is no record." * 400)
    for arguments in (("list",), ("show", "7"), ("export", "nowhere.json"), ("backup",)):
        refused = run(*arguments)
        assert refused.exit_code == 1
        assert "record.sqlite3: the record could not be used: file is not a database" in refused.output


def test_a_card_is_written_on_paper_by_its_tag(database: Database, tmp_path: Path) -> None:
    keep(database, 1, tag="7")
    file = tmp_path / "card.pdf"
    assert run("pdf", "7", str(file)).exit_code == 0
    assert file.read_bytes().startswith(b"%PDF")
    nowhere = run("pdf", "7", str(tmp_path / "none" / "card.pdf"))
    assert (nowhere.exit_code, "cannot be written" in nowhere.output) == (2, True)
    assert run("pdf", "8", str(file)).exit_code == 1
