"""Files that name other files: a scenario is looked for beside the file that names it, then one folder up."""

import re
from collections.abc import Iterator
from pathlib import Path

from conemodel.base.errors import InputProblems, Problem
from conemodel.parts.foreign_file import read_bytes
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario

SCENARIOS = Path(__file__).resolve().parents[2] / "scenarios"
"""The project's own scenarios, with its populations and stories in folders below."""

NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,99}")
"""How a scenario may be called; a path is refused, so that a file from elsewhere names none outside its folders."""


def scenario_folders(path: Path) -> tuple[Path, ...]:
    """Return the folders in which a file's scenarios are looked for, first one first."""
    folder = path.resolve().parent
    return folder, folder.parent


def find_scenario(name: str, folders: tuple[Path, ...], *, where: str) -> Scenario:
    """Return the scenario called `name`, without its ending; `where` is the field that names it.

    Raises:
        InputProblems: there is none, naming those there are, and every mistake of its file.
    """
    if NAME.fullmatch(name):
        for folder in folders:
            path = folder / f"{name}.toml"
            if _has_a_hub(path):
                return load_scenario(path)
    known = ", ".join(sorted(set(_names(folders))))
    remedy = f"known here: {known}" if known else "put its file beside this one"
    problem = Problem(where=where, value=name[:60], limit="is not the name of a scenario here", remedy=remedy)
    raise InputProblems([problem])


def _names(folders: tuple[Path, ...]) -> Iterator[str]:
    """Yield the names of what looks like a scenario."""
    for folder in folders:
        for path in folder.glob("*.toml"):
            if NAME.fullmatch(path.stem) and _has_a_hub(path):
                yield path.stem


def _has_a_hub(path: Path) -> bool:
    """Return whether a file looks like a scenario; a story or a population of the same name has no hub of its own."""
    try:
        raw = read_bytes(path)
        return b"[hub]" in raw or any(line.startswith(b"family") for line in raw.splitlines())
    except InputProblems:
        return False
