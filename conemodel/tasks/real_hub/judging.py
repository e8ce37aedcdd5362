"""Which readings of a real hub are left out, and which contradict each other so that nothing may rest on them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.tasks.real_hub.contradictions import (
    MISFIT,
    Contradiction,
    Numbered,
    find_contradictions,
    numbered,
)
from conemodel.tasks.real_hub.likeliest import Likeliest, deleted_residuals, find_likeliest
from conemodel.tasks.real_hub.readings import Felt, Reading
from conemodel.tasks.real_hub.unknown_hub import UnknownHub

AS_FAR = 0.8
"""Share of the furthest miss from which another is as suspect as it [-]. Judgement."""

OTHERS = 3
"""Least readings that must agree before one of two that contradict each other is known to be the wrong one. Judgement:
two alone never tell, and a third hangs on unknowns of its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What became of every reading, by number.

    Attributes:
        kept: those the fit rests on; left_out: the one that does not fit, if any, with those read with it.
        clash: those of which one is wrong and nobody can tell which; contradictions: why, the plainest first.
        deleted: how far each lies from what all others foretell (r,), in standard errors [-].
        best: the likeliest hub of all of them, None where not all are kept.
    """

    kept: tuple[int, ...]
    left_out: tuple[int, ...]
    clash: tuple[int, ...]
    contradictions: tuple[Contradiction, ...]
    deleted: Array
    best: Likeliest | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Doubt:
    """What is wrong with some readings: contradictions between counts, and those that stand out."""

    contradictions: tuple[Contradiction, ...]
    suspects: tuple[int, ...]
    deleted: Array
    best: Likeliest


def judge(hub: UnknownHub, readings: Sequence[Reading]) -> Judged:
    """Return which readings a fit may rest on.

    One is left out where the others agree without it, and would not agree without any other one.

    Raises:
        NotConverged: no balance of forces, or no likeliest hub, was found.
    """
    every = numbered(readings)
    doubt = _doubt(hub, every)
    left_out, clash = _sort_out(hub, every, doubt)
    return Judged(
        kept=tuple(number for number in every if number not in (*left_out, *clash)),
        left_out=left_out,
        clash=clash,
        contradictions=() if left_out else doubt.contradictions,
        deleted=doubt.deleted,
        best=None if left_out or clash else doubt.best,
    )


def _sort_out(hub: UnknownHub, every: Numbered, doubt: _Doubt) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return the reading that is left out, and those that clash."""
    if not doubt.suspects:
        return (), ()
    if not doubt.contradictions or len(every) > OTHERS:
        curing = [group for group in _groups(every) if not _doubt(hub, _without(every, group)).suspects]
        if len(curing) == 1:
            return curing[0], ()
    clash: tuple[int, ...] = ()
    while doubt.suspects:
        clash = tuple(sorted((*clash, *doubt.suspects)))
        doubt = _doubt(hub, _without(every, clash))
    return (), clash


def _without(readings: Numbered, out: Sequence[int]) -> dict[int, Reading]:
    return {number: each for number, each in readings.items() if number not in out}


def _groups(readings: Numbered) -> list[tuple[int, ...]]:
    """Return the numbers of readings that one slip would spoil together; most stand alone."""
    groups: dict[object, list[int]] = {}
    for number, each in readings.items():
        groups.setdefault(each.read_with or number, []).append(number)
    return [tuple(group) for group in groups.values()]


def _doubt(hub: UnknownHub, readings: Numbered) -> _Doubt:
    """Return what is wrong with some readings."""
    numbers = tuple(readings)
    found = find_likeliest(hub, tuple(readings.values()))
    places = {number: place for place, number in enumerate(numbers)}
    together = [[places[number] for number in group] for group in _groups(readings)]
    deleted = deleted_residuals(found, together, from_one=MISFIT)
    contradictions = find_contradictions(hub, readings)
    if not contradictions:
        contradictions = tuple(_beyond(hub, readings, found.z))
    size = np.abs(deleted)
    suspects: set[int] = {number for each in contradictions for number in each.readings}
    if not suspects and size.size and size.max() >= MISFIT:
        suspects = {numbers[place] for place in np.flatnonzero(size >= AS_FAR * size.max())}
    return _Doubt(
        contradictions=contradictions, suspects=tuple(sorted(suspects)), deleted=deleted, best=found
    )


def _beyond(hub: UnknownHub, readings: Numbered, z: Array) -> Iterator[Contradiction]:
    """Yield counts that only a hand beyond all that is assumed would give."""
    for what in ("play", "drag"):
        if abs(hub.hand_at(what, z)) > MISFIT:
            felt = [
                number for number, each in readings.items() if isinstance(each, Felt) and each.what == what
            ]
            yield Contradiction(kind="beyond", readings=tuple(felt or readings))
