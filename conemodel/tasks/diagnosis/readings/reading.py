"""What every reading of a round is: its words, how likely it is, what is strange about it, and what taking it tells."""

from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.readings import Round
from conemodel.tasks.diagnosis.model import HubModel

WHEEL_OUT = "Clamp open means wheel out: in the frame its axle tips in the slots, which feels like play."
"""How play with the clamp open is felt and measured."""

BINS = 24
"""Values a measured size is told apart into."""

Pick = Callable[[Array], Array]
"""Takes values over case, end play and force (c, n, m), or what spreads to it, to those at k places (k,)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberField:
    """A number to ask for, in its everyday unit, and beside it how far it may be off, if that is asked.

    Attributes:
        name, uncertainty: fields of the round; step: of the buttons beside the number; form: as it is written.
        usual: what stands in an empty uncertainty; hint: how it is measured.
    """

    name: str
    uncertainty: str | None = None
    step: float
    form: str = "%.2f"
    usual: str | None = None
    hint: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WordField:
    """One of some words to ask for; `name` is a field of the round, `default` what it is if left alone."""

    name: str
    label: str
    words: tuple[str, ...]
    default: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading(ABC):
    """One reading that a round can have. A kind of reading is a class, and each reading an entry in `READINGS`.

    Attributes:
        key: its field of `Round`, which declares unit and limits; label: in words.
        clamp: as it is when the reading is taken.
        group: the questions it stands among on the page: play, or turning.
        asked: what is asked for there; a reading asked first, as a quick answer, may have nothing more.
        instruction: what to do to take it; why: the reason to; settle: what to do where it contradicts the others.
    """

    key: str
    label: str
    clamp: Literal["open", "closed"]
    group: Literal["play", "turning"]
    asked: tuple[NumberField | WordField, ...] = ()
    instruction: str
    why: str
    settle: str

    def end_play(self, opened: Array, closed: Array) -> Array:
        """Return the end play it meets, of that with the clamp `opened` and `closed` [m]."""
        return closed if self.clamp == "closed" else opened

    def is_in(self, look: Round) -> bool:
        """Return whether somebody took it."""
        return getattr(look, self.key) is not None

    def tells_more(self, look: Round) -> bool:
        """Return whether taking it would tell more than what was read."""
        return not self.is_in(look)

    def pushed(self, look: Round) -> bool:
        """Return whether what was read hangs on the push it was read under."""
        return False

    @abstractmethod
    def describe(self, look: Round) -> str:
        """Return what was read, in words."""

    @abstractmethod
    def likelihood(self, model: HubModel, look: Round, end_play: Array) -> Array:
        """Return how likely what was read is, for each case at `end_play` (c or 1, n, m or 1) [m]."""

    @abstractmethod
    def strangeness(
        self, model: HubModel, look: Round, end_play: Array, chance: Array, likelihood: Array
    ) -> tuple[float, str]:
        """Return the chance of reading something at least as strange, and what is expected instead.

        The hub is so with `chance` (c, n, m), and what was read has its `likelihood` there; what is expected is empty
        for a word.
        """

    def clash_within(self, model: HubModel, look: Round, end_play: Array, chance: Array) -> str:
        """Return in words how what was read clashes within itself, where that is stranger than with all else."""
        return ""

    @abstractmethod
    def outcomes(self, model: HubModel, end_play: Array, pick: Pick) -> Array:
        """Return the chance of each outcome of taking it (k, o), at the k places that are picked."""


def chance_of_word(likelihood: Array, chance: Array) -> float:
    """Return the chance of a word of this `likelihood`, where the hub is so with `chance`, both (c, n, m)."""
    return float((chance * likelihood).sum())


def between(below: Array) -> Array:
    """Return the chance between edges from that below each (k, o), what lies beyond in the end bins."""
    ends = np.concatenate((below[:, :1], np.diff(below, axis=1), 1 - below[:, -1:]), axis=1)
    return np.asarray(np.maximum(ends, 0.0))
