"""Read job cards from a JSON file that came from elsewhere: strictly, every mistake with its line."""

import json
import re
from codecs import BOM_UTF8, BOM_UTF16_BE, BOM_UTF16_LE
from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import NamedTuple

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.located_json import Located, read_json
from conemodel.base.plain_text import visible
from conemodel.parts.toml_reader import first_problems
from conemodel.record.card_file import (
    CARD_KEYS,
    ENTRY_KEYS,
    FILE_KEYS,
    FORMAT,
    LARGEST,
    SUM_KEY,
    VERSION,
    card_sum,
)
from conemodel.record.names import clean_name
from conemodel.tasks.job_card.card import Card, Entry, Place, Value
from conemodel.tasks.job_card.steps import check_answers

BEFORE = BOM_UTF8 + BOM_UTF16_LE + BOM_UTF16_BE + b" \t\r\n\0"
"""Bytes that may stand before the first bracket, in any encoding of it: what is no UTF-8 is said with its line."""

_TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\+00:00", re.ASCII)
_ID = re.compile(r"[0-9a-f]{32}")


class ReadCard(NamedTuple):
    """A card that was read, and the line on which it begins."""

    card: Card
    line: int


def read_cards(raw: bytes | str, *, name: str) -> tuple[ReadCard, ...]:
    """Return the cards in the text of a file called `name`.

    Raises:
        InputProblems: every mistake (the first twenty, and how many more), naming file, line, field, value and limit,
            or the first one where it is no JSON; a version newer than `VERSION`.
    """
    reader = _Reader(name)
    _check_begin(raw, name)
    found = reader.file(read_json(raw, name=name, most=LARGEST))
    if reader.problems:
        raise InputProblems(first_problems(reader.problems, name))
    return found


def _check_begin(raw: bytes | str, name: str) -> None:
    """Refuse what does not begin as JSON can: whatever follows, it is another kind of file."""
    begin = raw[:200].encode("utf-8", "replace") if isinstance(raw, str) else raw[:200]
    if begin.lstrip(BEFORE)[:1] not in (b"{", b"["):
        raise InputProblems([Problem(where=name, value="", limit="is not a JSON file of job cards")])


class _Reader:
    """Makes cards of what stands in a file; `problems` holds what is wrong with it."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.problems: list[Problem] = []

    def file(self, found: Located) -> tuple[ReadCard, ...]:
        """Return the cards of a file."""
        if isinstance(found.value, dict) and self.is_strange(found.value):
            return ()
        table = self.table(found, FILE_KEYS, "the file")
        return () if table is None else self.cards(table["cards"])

    def is_strange(self, table: Mapping[str, Located]) -> bool:
        """Return whether a file is of another format or a newer version: what is in it then says nothing."""
        kind, version = table.get("format"), table.get("version")
        if kind is not None and kind.value != FORMAT:
            self.refuse(kind, "format", f"must be “{FORMAT}”")
        if version is not None and (version.value is True or version.value != VERSION):
            newer = isinstance(version.value, int) and version.value > VERSION
            remedy = "a newer version of this program wrote the file, and reads it" if newer else ""
            self.refuse(version, "version", f"must be {VERSION}", remedy)
        return bool(self.problems)

    def cards(self, found: Located) -> tuple[ReadCard, ...]:
        """Return the cards of a list."""
        cards: dict[str, ReadCard] = {}
        for each in self.rows(found, "cards"):
            card = self.card(each)
            if card is not None and card.id in cards:
                self.refuse(each, f"card {card.id}", f"stands twice, first on line {cards[card.id].line}")
            elif card is not None:
                cards[card.id] = ReadCard(card, each.line)
        return tuple(cards.values())

    def card(self, found: Located) -> Card | None:
        """Return a card, None where it is none."""
        before = len(self.problems)
        table = self.table(found, CARD_KEYS, "card", also=(SUM_KEY,))
        if table is None:
            return None
        name, begun = self.text(table["id"], "id"), self.time(table["begun_at"], "begun_at")
        if name is not None and not _ID.fullmatch(name):
            self.refuse(table["id"], "id", "must be 32 of the digits 0 to 9 and a to f")
        entries = [self.entry(each) for each in self.rows(table["entries"], "entries")]
        whole = tuple(entry for entry in entries if entry is not None)
        card = Card(id=name or "", begun_at=begun or "", entries=whole)
        if SUM_KEY in table and table[SUM_KEY].value != card_sum(card) and len(self.problems) == before:
            self.refuse(
                table[SUM_KEY], SUM_KEY, "must fit what is on the card", "something on it was changed or lost"
            )
        return card

    def entry(self, found: Located) -> Entry | None:
        """Return an entry, None where it is none."""
        table = self.table(found, ENTRY_KEYS, "entry")
        if table is None:
            return None
        at, by = self.time(table["at"], "at"), self.mechanic(table["by"])
        step, where = self.text(table["step"], "step"), self.text(table["where"], "where")
        value = table["value"].value
        if isinstance(value, dict | list):
            self.refuse(table["value"], "value", "must be text, a number or null")
        elif step is not None and where is not None:
            place = Place(step, where)
            self.answer(place, value, table)
            return Entry(at=at or "", by=by, place=place, value=value)
        return None

    def answer(self, place: Place, value: Value, table: Mapping[str, Located]) -> None:
        """Hold an answer against its step."""
        try:
            check_answers({place: value})
        except InputProblems as error:
            for problem in error.problems:
                field = (
                    "step"
                    if problem.where == "step"
                    else "where"
                    if problem.where.endswith(".where")
                    else "value"
                )
                where = f"{self.name}:{table[field].line}: {problem.where}"
                self.problems.append(Problem(where=where, value=problem.value, limit=problem.limit))

    def mechanic(self, found: Located) -> str | None:
        """Return the name of a mechanic, None where there is none."""
        if found.value is None:
            return None
        text = self.text(found, "by")
        try:
            if text is not None and clean_name(text) != text:
                self.refuse(found, "by", "must be a name without blanks around it, or null")
        except InputProblems as error:
            self.refuse(found, "by", error.problems[0].limit)
        return text

    def time(self, found: Located, field: str) -> str | None:
        """Return a time, None where it is none."""
        text = self.text(found, field)
        if text is not None and not _is_time(text):
            self.refuse(found, field, "must be a time as 2026-03-31T14:05:00+00:00")
        return text

    def text(self, found: Located, field: str) -> str | None:
        """Return a text, None where it is none."""
        if isinstance(found.value, str):
            return found.value
        self.refuse(found, field, "must be text")
        return None

    def rows(self, found: Located, field: str) -> Iterator[Located]:
        """Yield what stands in a list."""
        if isinstance(found.value, list):
            yield from found.value
        else:
            self.refuse(found, field, "must be a list")

    def table(
        self, found: Located, names: tuple[str, ...], what: str, *, also: tuple[str, ...] = ()
    ) -> Mapping[str, Located] | None:
        """Return an object that has all its names and no other, but for some that it may have; None where not."""
        if not isinstance(found.value, dict):
            self.refuse(found, what, f"must be an object of {', '.join(names)}")
            return None
        for name in names:
            if name not in found.value:
                self.problems.append(self.problem(found.line, f"{what}.{name}", "", "is missing"))
        for name, value in found.value.items():
            if name not in (*names, *also):
                self.problems.append(
                    self.problem(value.line, what, name, f"must be one of {', '.join(names)}")
                )
        return found.value if all(name in found.value for name in names) else None

    def refuse(self, found: Located, field: str, limit: str, remedy: str = "") -> None:
        """Keep what is wrong with a value."""
        shown = "" if isinstance(found.value, dict | list) else json.dumps(found.value, ensure_ascii=False)
        self.problems.append(self.problem(found.line, field, shown, limit, remedy))

    def problem(self, line: int, field: str, value: str, limit: str, remedy: str = "") -> Problem:
        """Return what is wrong on a line."""
        where = f"{self.name}:{line}: {field}"
        return Problem(where=where, value=visible(value)[:60], limit=limit, remedy=remedy)


def _is_time(text: str) -> bool:
    if not _TIME.fullmatch(text):
        return False
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return False
    return True
