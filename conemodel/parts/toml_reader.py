"""Tables of a TOML file turned into parts; every mistake is kept, with its line."""

import difflib
import math
from collections.abc import Mapping
from typing import Any, TypeVar

from conemodel.base.errors import Problem
from conemodel.base.units import ONE, Unit
from conemodel.parts.schema import FieldError, Part, PartProblems, file_key, part_class, unit_of

P = TypeVar("P", bound=Part)

MOST_MESSAGES = 20
"""Most mistakes reported of one file; the rest are reported once these are corrected."""

LONGEST_SAID = 100
"""Most characters of a key in a message."""


class Reader:
    """Turns nested tables into parts, keeping every mistake."""

    def __init__(self, name: str, lines: dict[tuple[str, ...], int]) -> None:
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
        keys = {file_key(name, field): name for name, field in cls.model_fields.items() if not field.exclude}
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
                child, found = self.part(inner, given, (*path, key), values.get(name, field.default))
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


def lines_of_text(text: str) -> dict[tuple[str, ...], int]:
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


def first_problems(problems: list[Problem], name: str) -> list[Problem]:
    """Return the first mistakes of a file or an address, and how many more there are."""
    more = len(problems) - MOST_MESSAGES
    rest = [Problem(where=name, value="", limit=f"has {more} more mistakes")] if more > 0 else []
    return problems[:MOST_MESSAGES] + rest
