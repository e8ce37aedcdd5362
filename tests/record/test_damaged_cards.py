"""Damaged files of job cards: each is refused with its line, and the record holds what it held, to the byte."""

import json
import random
import re
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from conemodel.base.errors import InputProblems
from conemodel.record.card_exchange import export_cards, import_cards
from conemodel.record.cards import answer, begin_card
from conemodel.record.database import Database
from conemodel.tasks.job_card.card import Place, Value

ANSWERS: dict[Place, Value] = {
    Place("tag"): "A 7",
    Place("wheel"): "rear",
    Place("ball_count", "left"): 9,
    Place("ball_size", "left"): "1/4 in",
    Place("width"): 135.5,
    Place("customer"): "Zoë 明",
    Place("recheck_on"): "2026-03-31",
    Place("note"): 'It said "tick", \\ then\nnothing.',
}
"""One answer of each kind; on a card each stands on a line of its own, the first on line 6."""


@pytest.fixture
def database(tmp_path: Path) -> Database:
    """A record of two cards, a correction among their answers."""
    database = Database(tmp_path / "record.sqlite3")
    for tag in ("1", "2"):
        card = begin_card(database)
        answer(card.id, ANSWERS, database, by="Ada")
        answer(card.id, {Place("tag"): tag, Place("note"): None}, database)
    return database


def held(database: Database) -> list[str]:
    with closing(sqlite3.connect(database.path)) as connection:
        return list(connection.iterdump())


def refusal(raw: bytes | str, database: Database) -> str:
    """Return why a file is refused; what the record holds must be as it was."""
    before = held(database)
    with pytest.raises(InputProblems) as raised:
        import_cards(raw, database, name="cards.json")
    assert held(database) == before
    return str(raised.value)


def flip(raw: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(raw))
    return raw[:at] + bytes([raw[at] ^ 1 << dice.randrange(8)]) + raw[at + 1 :]


def swap_words(raw: bytes, dice: random.Random) -> bytes:
    """Change the places of two words, numbers or signs."""
    words = re.split(rb'("[^"]*"|[\w.]+)', raw)
    one, other = dice.sample(range(1, len(words), 2), 2)
    words[one], words[other] = words[other], words[one]
    return b"".join(words)


def double_line(raw: bytes, dice: random.Random) -> bytes:
    lines = raw.splitlines(keepends=True)
    return b"".join((*lines[: (at := dice.randrange(1, len(lines)))], lines[at - 1], *lines[at:]))


def lose_line(raw: bytes, dice: random.Random) -> bytes:
    lines = raw.splitlines(keepends=True)
    del lines[dice.randrange(len(lines))]
    return b"".join(lines)


def put_noise(raw: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(raw))
    return raw[:at] + dice.randbytes(dice.randrange(1, 9)) + raw[at:]


def put_value(raw: bytes, dice: random.Random) -> bytes:
    """Put what does not belong there in the place of a value."""
    odd = (
        b"NaN",
        b"-Infinity",
        b"1e999",
        b"9" * 5000,
        b"[" * 50_000,
        b'{"a": 1, "a": 2}',
        b"true",
        b'"\\ud800"',
        b"{}",
    )
    values = list(re.finditer(rb': ("(?:[^"\\]|\\.)*"|[\d.]+)', raw))
    found = dice.choice(values)
    return raw[: found.start(1)] + dice.choice(odd) + raw[found.end(1) :]


DAMAGE: tuple[Callable[[bytes, random.Random], bytes], ...] = (
    lambda raw, dice: raw[: dice.randrange(len(raw) - 3)],
    flip,
    swap_words,
    double_line,
    lose_line,
    put_noise,
    put_value,
)


def says_the_same(damaged: bytes, raw: bytes) -> bool:
    """Return whether another reader of JSON finds the same in both: a blank more or less is no damage."""
    try:
        return bool(json.loads(damaged) == json.loads(raw))
    except (ValueError, RecursionError):
        return False


def test_two_hundred_damaged_files_are_refused_with_their_line_and_change_nothing(database: Database) -> None:
    raw = export_cards(database).encode()
    dice, count = random.Random(20260331), 0
    while count < 200:
        damaged = DAMAGE[count % len(DAMAGE)](raw, dice)
        if says_the_same(damaged, raw):
            continue
        for mistake in refusal(damaged, database).splitlines():
            line = re.match(r"cards\.json:(\d+)", mistake)
            assert line is not None or "more mistakes" in mistake, mistake
            assert line is None or 1 <= int(line[1]) <= damaged.count(b"\n") + 1
        count += 1


def changed(database: Database, number: int, key: str, value: Any) -> str:
    """Return the file with a value on a line in the place of another, and without sums, as if written by hand."""
    lines = re.sub(r' "sum": "\w+",', "", export_cards(database)).splitlines()
    entry = json.loads(lines[number - 1].rstrip(","))
    lines[number - 1] = json.dumps(entry | {key: value}) + ","
    return "\n".join(lines)


@pytest.mark.parametrize(
    ("line", "key", "value", "said"),
    [
        (6, "value", "", "tag: must be text of 1 to 20 characters"),
        (7, "value", "middle", "wheel = middle: must be one of front, rear"),
        (8, "value", 9.5, "ball_count = 9.5: must be a whole number of 0 to 40"),
        (8, "value", True, "ball_count = True: must be a whole number"),
        (8, "where", "top", "ball_count.where = top: must be left or right"),
        (8, "value", [9], "value: must be text, a number or null"),
        (10, "value", 1e6, "width = 1000000.0: must be a number of 60 to 250 mm"),
        (11, "by", " Ada", 'by = " Ada": must be a name without blanks around it, or null'),
        (11, "by", "\x1b[2J", "by = .*printable"),
        (12, "value", "2026-02-30", "recheck_on = 2026-02-30: must be a day as 2026-03-31"),
        (13, "at", "2026-03-31", 'at = "2026-03-31": must be a time as 2026-03-31T14:05:00\\+00:00'),
        (13, "at", "2026-03-31T14:05:00+01:00", "at = .*must be a time"),
        (13, "at", "2026-13-31T14:05:00+00:00", "at = .*must be a time"),
        (13, "step", "no_such", "step = no_such: is no step of a job card"),
        (13, "extra", 1, "entry = extra: must be one of at, by, step, where, value"),
    ],
)
def test_a_mistake_is_named_with_line_field_value_and_limit(
    database: Database, line: int, key: str, value: Any, said: str
) -> None:
    assert re.match(rf"cards\.json:{line}: {said}", refusal(changed(database, line, key, value), database))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"version": 1', '"version": 2', "cards.json:3: version = 2: must be 1 (a newer version of this program"),
        ('"version": 1', '"version": true', "cards.json:3: version = true: must be 1"),
        ('"version": 1,\n', "", "cards.json:1: the file.version: is missing"),
        ("conemodel job cards", "other", "cards.json:2: format = \"other\": must be “conemodel job cards”"),
        ("A 7", "A 8", "cards.json:5: sum = "),
        ('{"id": "', '{"id": "x', 'cards.json:5: id = "x'),
        ('"where": "",', '"where": "", "where": "",', "cards.json:6: where: stands twice, first on line 6"),
        ("]\n}\n", "]\n", "cards.json:30 = the end: must be , or }"),
        ('"A 7"', "[" * 100_000, "cards.json:6 = [[[[[[[[["),
        ('"A 7"', "9" * 100, "must not have more than 40 characters"),
        ('"A 7"', "NaN", "cards.json:6 = NaN}"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_the_file_itself_is_said(
    database: Database, old: str, new: str, said: str
) -> None:
    assert said in refusal(export_cards(database).replace(old, new, 1), database)


def test_all_mistakes_come_at_once_but_no_more_than_can_be_read(database: Database) -> None:
    text = re.sub(r' "sum": "\w+",', "", export_cards(database))
    said = refusal(text.replace('"rear"', '"middle"').replace("135.5", "-1"), database)
    assert [line.split(" ")[0] for line in said.splitlines()] == [
        f"cards.json:{line}:" for line in (7, 10, 19, 22)
    ]
    many = refusal(text.replace('"at": "', '"at": "x').replace('"by": "', '"by": " '), database).splitlines()
    assert len(many) == 21
    assert many[-1] == "cards.json: has 16 more mistakes"


def test_one_card_twice_in_a_file_is_refused(database: Database) -> None:
    text = export_cards(database)
    first, second = re.findall(r'"id": "(\w+)"', text)
    assert f"cards.json:17: card {first}: stands twice, first on line 5" in refusal(
        re.sub(r' "sum": "\w+",', "", text).replace(second, first), database
    )


@pytest.mark.parametrize("encoding", ["latin-1", "utf-16", "utf-32", "cp1252"])
def test_another_encoding_is_refused_with_the_line_where_it_shows(database: Database, encoding: str) -> None:
    text = export_cards(database).replace("\\u00eb", "ë").replace("\\u660e", "")
    line = 11 if encoding in ("latin-1", "cp1252") else 1
    assert refusal(text.encode(encoding), database).startswith(f"cards.json:{line}: is not UTF-8 text")


def test_a_mark_of_byte_order_and_another_layout_are_no_damage(database: Database) -> None:
    before = held(database)
    for text in (
        export_cards(database),
        json.dumps(json.loads(export_cards(database)), indent=4, ensure_ascii=False),
    ):
        assert import_cards(b"\xef\xbb\xbf" + text.encode(), database).unchanged == 2
    assert held(database) == before


def test_too_large_a_file_is_refused_before_it_is_read(
    database: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("conemodel.record.card_reader.LARGEST", 2048)
    assert refusal(export_cards(database), database).endswith("must not be larger than 2 KB")


@pytest.mark.parametrize("raw", [b"", b"name = 1", b"\x89PNG\r\n", b"%PDF-1.7"])
def test_another_kind_of_file_is_said_to_be_one(database: Database, raw: bytes) -> None:
    assert refusal(raw, database) == "cards.json: is not a JSON file of job cards"
