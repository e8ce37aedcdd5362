"""The ladder of exercises, and the links that carry one to a class."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from re import fullmatch

from conemodel.base.errors import InputProblems, Problem
from conemodel.parts.exercise import Exercise
from conemodel.parts.library import SCENARIOS
from conemodel.parts.toml_files import load_part

EXERCISES = SCENARIOS / "practise"
"""Where the exercises stand, one file each."""

_CODE = r"([a-z0-9][a-z0-9-]{0,39})\.([A-Za-z0-9_-]{1,24})\.(\d{1,9})(\.training)?(?:\.mix([0-9]{2,36}))?"


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """What a link carries: the name of an exercise's file, the class's salt, the seed, the round. Nothing hidden.

    A `training` round is coached; its hubs are others than those of the assessed round of the same seed. `mix` says how
    often which kind of hub is dealt, one figure a card (`plan.confusions`); empty where all are as often.
    """

    exercise: str
    salt: str
    seed: int
    training: bool = False
    mix: str = ""

    @property
    def code(self) -> str:
        """The link as one word for an address.

        >>> Link(exercise="05-quick-release", salt="tuesday", seed=7).code
        '05-quick-release.tuesday.7'
        """
        ends = f"{'.training' if self.training else ''}{'.mix' + self.mix if self.mix else ''}"
        return f"{self.exercise}.{self.salt}.{self.seed}{ends}"

    @property
    def drawn_by(self) -> str:
        """The salt that its hubs are drawn by: no salt of a link has a dot."""
        return f"{self.salt}.training" if self.training else self.salt


def read_link(code: str) -> Link:
    """Return what a link's code carries.

    Raises:
        InputProblems: what was given cannot be used, with every mistake.

    >>> read_link("05-quick-release.tuesday.7").seed
    7
    """
    found = fullmatch(_CODE, code)
    if found is None:
        limit = "must be exercise.salt.number, as it was given out"
        raise InputProblems([Problem(where="link", value=code[:60], limit=limit)])
    return Link(
        exercise=found[1], salt=found[2], seed=int(found[3]), training=bool(found[4]), mix=found[5] or ""
    )


@lru_cache(maxsize=4)
def ladder(folder: Path = EXERCISES) -> dict[str, Exercise]:
    """Return the exercises of a folder by the names of their files, in order of their numbers.

    Raises:
        InputProblems: a file has mistakes.
    """
    found = {path.stem: load_part(Exercise, path) for path in sorted(folder.glob("*.toml"))}
    return dict(sorted(found.items(), key=lambda item: (item[1].number == 0, item[1].number)))


def ladder_titles() -> dict[str, str]:
    """Return what the exercises are called, with their numbers, by the names of their files, in order.

    Raises:
        InputProblems: a file has mistakes.
    """
    return titles_of(ladder())


def titles_of(exercises: Mapping[str, Exercise]) -> dict[str, str]:
    """Return what exercises are called, with their numbers, by the names of their files."""
    return {name: f"{one.number}. {one.name}" if one.number else one.name for name, one in exercises.items()}


def class_links(
    exercise: str, *, salt: str, first: int = 1, count: int = 1, training: bool = False
) -> tuple[str, ...]:
    """Return a set of links for a class, one seed each, to the assessed round or to the coached one.

    >>> class_links("04-locknut", salt="evening", count=2)
    ('04-locknut.evening.1', '04-locknut.evening.2')
    """
    seeds: Iterable[int] = range(first, first + count)
    codes = tuple(Link(exercise=exercise, salt=salt, seed=seed, training=training).code for seed in seeds)
    for code in codes:
        read_link(code)
    return codes
