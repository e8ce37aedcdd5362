"""Scenario files: TOML in everyday units to parts, and back.

A key carries its unit at its end (``bore_mm``). Reading is strict: an unknown key is a mistake, and every
mistake of a file is reported at once, with its line.
"""

from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from conemodel.base.errors import InputProblems, Problem
from conemodel.parts.file_kinds import FILE_KINDS, FileKind, kind_of
from conemodel.parts.foreign_file import parse, read_bytes
from conemodel.parts.known_files import FAMILY, known_text, read_known
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import MISSING, Part
from conemodel.parts.toml_reader import Reader, first_problems, lines_of_text
from conemodel.parts.toml_writer import text_of

P = TypeVar("P", bound=Part)

NAME_A_FAMILY = 'or put family = "usual rear" at the top, and give only what is known of the hub'
"""Said where a scenario file leaves out what every hub has."""


def load_scenario(path: str | Path) -> Scenario:
    """Read a scenario file: a whole one, or one that names a family and what is known of a hub.

    Raises:
        InputProblems: what cannot be used, naming file, line, field, value and limit of every mistake, also
            for a file that is missing, too large, not text or not TOML.
    """
    path = Path(path)
    return read_scenario(read_bytes(path), name=path.name)


def read_scenario(raw: bytes | str, *, name: str) -> Scenario:
    """Return the scenario in the text of a file called `name`.

    Raises:
        InputProblems: as for `load_scenario`.
    """
    text, table = parse(raw, name=name)
    if FAMILY in table:
        return read_known(text, table, name=name)
    try:
        return read_part(Scenario, text, name=name)
    except InputProblems as error:
        raise InputProblems(_with_a_way_out(error.problems)) from None


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
    part, problems = Reader(name, lines_of_text(text)).part(cls, table, ())
    if part is None or problems:
        raise InputProblems(first_problems(problems, name))
    return part


def _another_kind(kind: FileKind, name: str) -> Problem:
    """Return the one problem of a sound file of another kind than was wanted."""
    limit = f"is {kind.words}, which is not read here"
    return Problem(where=name, value="", limit=limit, remedy=f"it is taken by {kind.taken_by}")


def _with_a_way_out(problems: tuple[Problem, ...]) -> list[Problem]:
    """Return the mistakes of a scenario file; the first size it leaves out says that it need not be known."""
    first = next((problem for problem in problems if problem.limit == MISSING), None)
    return [replace(each, remedy=NAME_A_FAMILY) if each is first else each for each in problems]


def write_part(part: Part) -> str:
    """Return a part as the text of a file that is read back to the same part.

    Of a hub that is only known in part it holds what is known, and what was changed beside it.
    """
    known = known_text(part) if isinstance(part, KnownScenario) else None
    return text_of(part) if known is None else known
