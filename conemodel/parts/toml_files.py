"""Scenario files: TOML in everyday units to parts, and back.

A key carries its unit at its end (``bore_mm``). Reading is strict: an unknown key is a mistake, and every
mistake of a file is reported at once, with its line.
"""

import difflib
import json
import math
from collections.abc import Mapping
from pathlib import Path
from typing import Any, TypeVar

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.units import ONE, Unit
from conemodel.parts.file_kinds import FILE_KINDS, FileKind, kind_of
from conemodel.parts.foreign_file import parse, read_bytes
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import FieldError, Part, PartProblems, file_key, part_class, unit_of

P = TypeVar("P", bound=Part)

MOST_MESSAGES = 20
"""Most mistakes reported of one file; the rest are reported once these are corrected."""

LONGEST_SAID = 100
"""Most characters of a key in a message."""


def load_scenario(path: str | Path) -> Scenario:
    """Read a scenario file.

    Raises:
        InputProblems: what cannot be used, naming file, line, field, value and limit of every mistake, also
            for a file that is missing, too large, not text or not TOML.
    """
    return load_part(Scenario, Path(path))


def read_scenario(raw: bytes | str, *, name: str) -> Scenario:
    """Return the scenario in the text of a file called `name`.

    Raises:
        InputProblems: as for `load_scenario`.
    """
    return read_part(Scenario, raw, name=name)


def load_part(cls: type[P], path: Path) -> P:
    """Return the part of class `cls` in a file.

    Raises:
        InputProblems: what was given cannot be used, with every mistake.
    """
    return read_part(cls, read_bytes(path), name=path.name)


def read_part(cls: type[P], raw: bytes | str, *, name: str) -> P:
    """Return a part of class `cls` from the text of a file called `name`.

    Raises:
        InputProblems: what was given cannot be used, with every mistake.

    Of very many mistakes the first `MOST_MESSAGES` are reported.
    """
    text, table = parse(raw, name=name)
    kind = kind_of(table)
    if kind is not None and cls.__name__ in {each.part for each in FILE_KINDS} - {kind.part}:
        raise InputProblems([_another_kind(kind, name)])
    part, problems = _Reader(name, _lines(text)).part(cls, table, ())
    if part is None or problems:
        raise InputProblems(first_problems(problems, name))
    return part


def _another_kind(kind: FileKind, name: str) -> Problem:
    """Return the one problem of a sound file of another kind than was wanted."""
    limit = f"is {kind.words}, which is not read here"
    return Problem(where=name, value="", limit=limit, remedy=f"it is taken by {kind.taken_by}")


def first_problems(problems: list[Problem], name: str) -> list[Problem]:
    """Return the first mistakes of a file or an address, and how many more there are."""
    more = len(problems) - MOST_MESSAGES
    rest = [Problem(where=name, value="", limit=f"has {more} more mistakes")] if more > 0 else []
    return problems[:MOST_MESSAGES] + rest


def write_part(part: Part) -> str:
    """Return a part as the text of a file that `read_part` reads back to the same part."""
    return "\n".join(_write(part, ())).strip() + "\n"


class _Reader:
    """Turns nested tables into parts, keeping every mistake."""

    def __init__(self, name: str, lines: Mapping[tuple[str, ...], int]) -> None:
        self.name = name
        self.lines = lines
        self.strange = 0

    def place(self, path: tuple[str, ...]) -> str:
        """Return file, line and field for a message; a missing field has its table's line."""
        line = self.lines.get(path) or self.lines.get(path[:-1])
        return f"{self.name}:{line}: " if line else f"{self.name}: "

    def part(
        self, cls: type[P], table: Mapping[str, Any], path: tuple[str, ...], usual: Any = None
    ) -> tuple[P | None, list[Problem]]:
        """Return the part a table describes, or None, and what is wrong with it; what is not said is as `usual`."""
        keys = {file_key(name, field): name for name, field in cls.model_fields.items()}
        values: dict[str, Any] = dict(usual) if isinstance(usual, cls) and not cls.given_whole else {}
        problems: list[Problem] = []
        broken: set[str] = set()
        for key, given in table.items():
            if key not in keys:
                problems.append(self.unknown(path, key, given, keys))
                if self.strange <= MOST_MESSAGES:
                    broken |= {name for known, name in keys.items() if _same_name(known, key)}
                continue
            name = keys[key]
            field = cls.model_fields[name]
            inner = part_class(field)
            if inner is None:
                values[name] = _to_si(given, unit_of(field))
            elif isinstance(given, Mapping):
                child, found = self.part(inner, given, (*path, key), field.default)
                problems += found
                if child is None:
                    broken.add(name)
                else:
                    values[name] = child
            else:
                mistake = FieldError(field=name, value=given, limit="must be a table")
                problems.append(self.problem_of(cls, mistake, path))
                broken.add(name)
        try:
            part = cls(**values)
        except PartProblems as error:
            problems += [
                self.problem_of(cls, mistake, path)
                for mistake in error.mistakes
                if mistake.field not in broken
            ]
            part = None
        return (None if broken else part), problems

    def problem_of(self, cls: type[Part], mistake: FieldError, path: tuple[str, ...]) -> Problem:
        """Return a mistake as a problem with its place in the file."""
        below, _ = cls.locate(mistake.field)
        full = (*path, *below.split("."))
        prefix = ".".join(path) + "." if path else ""
        return cls.say(mistake, where=self.place(full) + prefix)

    def unknown(self, path: tuple[str, ...], key: str, given: Any, keys: Mapping[str, str]) -> Problem:
        """Return the problem of a key that means nothing here, with the nearest that does."""
        self.strange += 1
        remedy = ""
        if self.strange <= MOST_MESSAGES:
            near = difflib.get_close_matches(key, keys, n=1, cutoff=0.5)
            remedy = f"did you mean {near[0]}?" if near else f"known here: {', '.join(keys)}"
        where = self.place((*path, key)) + ".".join((*path, key))[:LONGEST_SAID]
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


def _lines(text: str) -> dict[tuple[str, ...], int]:
    """Return the line each table and key stands on, for messages; each line is looked through once."""
    found: dict[tuple[str, ...], int] = {}
    table: tuple[str, ...] = ()
    for number, line in enumerate(text.splitlines(), start=1):
        before, equals, _ = line.partition("=")
        header, closed, _ = line.strip().removeprefix("[").partition("]")
        if line.lstrip().startswith("[") and closed:
            table = _parts(header)
            found.setdefault(table, number)
        elif equals:
            found.setdefault((*table, *_parts(before)), number)
    return found


def _parts(key: str) -> tuple[str, ...]:
    """Return the parts of a dotted key."""
    return tuple(part.strip() for part in key.split("."))


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
