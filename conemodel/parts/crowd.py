"""A population with the scenarios it names, read and held to what a study of many hubs can take."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from conemodel.base.errors import InputProblems, Problem, run_all
from conemodel.parts.foreign_file import read_bytes
from conemodel.parts.library import SCENARIOS, find_scenario, scenario_folders
from conemodel.parts.population import Population
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import read_part


@dataclass(frozen=True, slots=True, kw_only=True)
class Crowd:
    """A population with the scenarios it names, one for each kind of hub; hashable, so it can be a cache's key."""

    population: Population
    kinds: tuple[Scenario, ...]

    @property
    def shares(self) -> tuple[float, ...]:
        """Share of all hubs that is of each kind; together 1."""
        shares = self.population.hubs.shares
        return tuple(share / sum(shares) for share in shares)

    def replace(self, **changes: Any) -> "Crowd":
        """Return the crowd with fields of its population changed."""
        return crowd_of(self.population.replace(**changes), self.kinds)

    def only(self, kind: str) -> "Crowd":
        """Return the crowd with one of its kinds of hub only, by its file's name.

        Raises:
            InputProblems: it has no such kind.
        """
        files = self.population.hubs.files
        if kind not in files:
            limit = "must be a kind of this population"
            problem = Problem(
                where="kind", value=kind[:60], limit=limit, remedy=f"known here: {', '.join(files)}"
            )
            raise InputProblems([problem])
        hubs = self.population.hubs.replace(files=(kind,), shares=(1.0,))
        return Crowd(population=self.population.replace(hubs=hubs), kinds=(self.kinds[files.index(kind)],))


def crowd_of(population: Population, kinds: tuple[Scenario, ...]) -> Crowd:
    """Return a population with its scenarios, each set as the population's hands set it.

    Raises:
        InputProblems: a hub that a study of many hubs cannot take.
    """
    hands = population.hands
    problems = [
        problem
        for number, scenario in enumerate(kinds)
        for problem in _unfit(population.hubs.files[number], scenario)
    ]
    if problems:
        raise InputProblems(problems)
    setting = {
        "technique": hands.technique,
        "contact_found": hands.contact_found,
        "cone_held": True,
        "axle_held": "vice",
        "clamp_seat": "dropouts",
    }
    return Crowd(population=population, kinds=tuple(kind.with_setting(**setting) for kind in kinds))


def _unfit(name: str, scenario: Scenario) -> Iterator[Problem]:
    """Yield why a hub cannot be one of many: its numbers would depend on where its balls stand."""
    for side in ("left", "right"):
        row = getattr(scenario.condition, side)
        if row.cup_tilt != (0.0, 0.0) or row.cone_tilt != (0.0, 0.0) or row.ball_oversize != 0.0:
            yield Problem(
                where=f"hubs.files: {name}",
                value="",
                limit=f"must be a sound hub, but its {side} row is not",
                remedy="a study of many hubs is of adjustment, not of faults",
            )


def load_crowd(path: str | Path, *, kind: str | None = None) -> Crowd:
    """Read a population file and the scenario files it names, which stand beside it or one folder up.

    `kind` leaves one of its kinds of hub only.

    Raises:
        InputProblems: what cannot be used, naming file, field, value and limit of every mistake.
    """
    path = Path(path)
    crowd = read_crowd(read_bytes(path), name=path.name, folders=scenario_folders(path))
    return crowd if kind is None else crowd.only(kind)


def read_crowd(raw: bytes, *, name: str, folders: tuple[Path, ...] = (SCENARIOS,)) -> Crowd:
    """Read a population from the bytes of a file called `name`, and the scenarios it names from `folders`.

    Raises:
        InputProblems: what cannot be used, naming file, field, value and limit of every mistake.
    """
    population = read_part(Population, raw, name=name)
    where = f"{name}: hubs.files"
    kinds = run_all(partial(find_scenario, kind, folders, where=where) for kind in population.hubs.files)
    return crowd_of(population, tuple(kinds))
