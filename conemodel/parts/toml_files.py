"""Scenario files: TOML in everyday units to parts, and back.

A key carries its unit at its end (``bore_mm``). Reading is strict: an unknown key is a mistake, and every
mistake of a file is reported at once, with its line.
"""

import difflib
import json
import math
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any, TypeVar

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.units import ONE, Unit
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import Fault, Part, PartProblems, file_key, part_class, unit_of

P = TypeVar("P", bound=Part)

FILE_SIZE_LIMIT = 64 * 1024
"""A scenario is a page of text; anything larger is not one [bytes]."""


def load_scenario(path: str | Path) -> Scenario:
    """Read a scenario file.

    Errors: `InputProblems` naming file, line, field, value and limit of every mistake, also for a file that is
    missing, too large, not text or not TOML.
    """
    path = Path(path)
    try:
        with path.open("rb") as stream:
            raw = stream.read(FILE_SIZE_LIMIT + 1)
    except OSError as error:
        raise InputProblems(
            [
                Problem(
                    where=str(path),
                    value="",
                    limit="cannot be read",
                    remedy=error.strerror or "check the name",
                )
            ]
        ) from None
    return read_scenario(raw, name=path.name)


def read_scenario(raw: bytes | str, *, name: str) -> Scenario:
    """Return the scenario in the text of a file called `name`. Errors: `InputProblems`, as `load_scenario`."""
    return read_part(Scenario, raw, name=name)


def read_part(cls: type[P], raw: bytes | str, *, name: str) -> P:
    """Return a part of class `cls` from the text of a file called `name`. Errors: `InputProblems`."""
    text = _decode(raw, name)
    try:
        table = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        remedy = str(error)[:120] or "too deeply nested"
        raise InputProblems([Problem(where=name, value="", limit="is not TOML", remedy=remedy)]) from None
    part, problems = _Reader(name, _lines(text)).part(cls, table, ())
    if part is None or problems:
        raise InputProblems(problems)
    return part


def write_part(part: Part) -> str:
    """Return a part as the text of a file that `read_part` reads back to the same part."""
    return "\n".join(_write(part, ())).strip() + "\n"


def _decode(raw: bytes | str, name: str) -> str:
    """Return the text of a file, refusing what is too large or not text."""
    data = raw.encode() if isinstance(raw, str) else raw
    if len(data) > FILE_SIZE_LIMIT:
        limit = f"must not be larger than {FILE_SIZE_LIMIT // 1024} KB"
        raise InputProblems([Problem(where=name, value="", limit=limit, remedy="is it the right file?")])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        problem = Problem(where=name, value="", limit="is not UTF-8 text", remedy="is it the right file?")
        raise InputProblems([problem]) from None


class _Reader:
    """Turns nested tables into parts, keeping every mistake."""

    def __init__(self, name: str, lines: Mapping[tuple[str, ...], int]) -> None:
        self.name = name
        self.lines = lines

    def place(self, path: tuple[str, ...]) -> str:
        """Return file, line and field for a message; a missing field has its table's line."""
        line = self.lines.get(path) or self.lines.get(path[:-1])
        return f"{self.name}:{line}: " if line else f"{self.name}: "

    def part(
        self, cls: type[P], table: Mapping[str, Any], path: tuple[str, ...], usual: Any = None
    ) -> tuple[P | None, list[Problem]]:
        """Return the part a table describes, or None, and what is wrong with it; what is not said is as `usual`."""
        keys = {file_key(name, field): name for name, field in cls.model_fields.items()}
        values: dict[str, Any] = dict(usual) if isinstance(usual, cls) else {}
        problems: list[Problem] = []
        broken: set[str] = set()
        for key, given in table.items():
            if key not in keys:
                problems.append(self.unknown(path, key, given, keys))
                broken |= {name for known, name in keys.items() if _same_name(known, key)}
                continue
            name = keys[key]
            field = cls.model_fields[name]
            inner = part_class(field)
            if inner is None:
                values[name] = _to_si(given, unit_of(field))
            elif isinstance(given, Mapping):
                child, faults = self.part(inner, given, (*path, key), field.default)
                problems += faults
                if child is None:
                    broken.add(name)
                else:
                    values[name] = child
            else:
                fault = Fault(field=name, value=given, limit="must be a table")
                problems.append(self.said(cls, fault, path))
                broken.add(name)
        try:
            part = cls(**values)
        except PartProblems as error:
            problems += [self.said(cls, fault, path) for fault in error.faults if fault.field not in broken]
            part = None
        return (None if broken else part), problems

    def said(self, cls: type[Part], fault: Fault, path: tuple[str, ...]) -> Problem:
        """Return a fault as a problem with its place in the file."""
        below, _ = cls.locate(fault.field)
        full = (*path, *below.split("."))
        prefix = ".".join(path) + "." if path else ""
        return cls.say(fault, where=self.place(full) + prefix)

    def unknown(self, path: tuple[str, ...], key: str, given: Any, keys: Mapping[str, str]) -> Problem:
        """Return the problem of a key that means nothing here, with the nearest that does."""
        near = difflib.get_close_matches(key, keys, n=1, cutoff=0.5)
        remedy = f"did you mean {near[0]}?" if near else f"known here: {', '.join(keys)}"
        where = self.place((*path, key)) + ".".join((*path, key))
        return Problem(where=where, value=str(given)[:60], limit="is not a known key", remedy=remedy)


def _same_name(known: str, key: str) -> bool:
    """Return whether an unknown key is most likely a misspelling of a known one."""
    return bool(difflib.get_close_matches(key, [known], n=1, cutoff=0.8))


def _to_si(given: Any, unit: Unit) -> Any:
    """Return a value from a file in SI; lists become tuples, anything that is no number stays as it is."""
    if isinstance(given, list):
        return tuple(_to_si(item, unit) for item in given)
    if unit is ONE or isinstance(given, bool) or not isinstance(given, int | float):
        return given
    try:
        return unit.to_si(float(given))
    except OverflowError:
        return math.inf


_HEADER = re.compile(r"^\s*\[\s*([A-Za-z0-9_.\s-]+?)\s*\]")
_KEY = re.compile(r"^\s*([A-Za-z0-9_.-]+)\s*=")


def _lines(text: str) -> dict[tuple[str, ...], int]:
    """Return the line each table and key stands on, for messages."""
    found: dict[tuple[str, ...], int] = {}
    table: tuple[str, ...] = ()
    for number, line in enumerate(text.splitlines(), start=1):
        if header := _HEADER.match(line):
            table = tuple(part.strip() for part in header[1].split("."))
            found.setdefault(table, number)
        elif key := _KEY.match(line):
            found.setdefault((*table, *key[1].split(".")), number)
    return found


def _write(part: Part, path: tuple[str, ...]) -> list[str]:
    """Return the lines of one table and of the tables below it."""
    own: list[str] = []
    below: list[str] = []
    for name, field in type(part).model_fields.items():
        value = getattr(part, name)
        if isinstance(value, Part):
            below += _write(value, (*path, name))
        elif value is not None:
            own.append(f"{file_key(name, field)} = {_literal(value, unit_of(field))}")
    header = [f"[{'.'.join(path)}]"] if path and own else []
    return [*header, *own, "", *below] if own else below


def _literal(value: Any, unit: Unit) -> str:
    """Return a value as TOML writes it, in the unit of the file."""
    if isinstance(value, tuple):
        return "[" + ", ".join(_literal(item, unit) for item in value) + "]"
    if isinstance(value, str | bool):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, int):
        return str(value)
    return repr(_shortest(value, unit))


def _shortest(value: float, unit: Unit) -> float:
    """Return the shortest number in `unit` that reads back as the same SI value, or the nearest there is."""
    exact = unit.from_si(value)
    for digits in range(6, 18):
        short = float(f"{exact:.{digits}g}")
        if unit.to_si(short) == value:
            return short
    return exact
