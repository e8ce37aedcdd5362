"""Counts of a real hub that contradict each other, in words: what cannot be, and what to do."""

from conemodel.base.units import MINUTE
from conemodel.show.formatting import number
from conemodel.tasks.real_hub.contradictions import Contradiction


def minutes_words(turn: float) -> str:
    """Return the size of a turn of the cone [rad] in minutes of a clock face.

    >>> from math import pi
    >>> minutes_words(pi / 2), minutes_words(-pi / 30)
    ('15 minutes', '1 minute')
    """
    size = number(abs(MINUTE.from_si(turn)), 1).removesuffix(".0")
    return f"{size} minute" if size == "1" else f"{size} minutes"


def contradiction_words(found: Contradiction) -> str:
    """Return what cannot be, and what to do about it."""
    turn = minutes_words(found.apart)
    if found.kind == "repeated":
        return f"Your two counts differ by {turn}: count again"
    if found.kind == "drag past play":
        return f"Drag {turn} further out than play cannot be: count both again"
    if found.kind == "beyond":
        return "No hand assumed here would give such counts: find finger contact again, and count again"
    return _of_stage(found, turn)


def _of_stage(found: Contradiction, turn: str) -> str:
    """Return what locking or clamping cannot have done."""
    clamping = found.kind == "clamping"
    doing, done = ("Clamping", "clamp not closed") if clamping else ("Locking", "locknut not tight")
    if MINUTE.from_si(found.apart) <= -0.5:
        return f"{doing} cannot add play: rows swapped, or the {done}?"
    if MINUTE.from_si(found.apart) < 0.5:
        return f"{doing} took no play: was the {'clamp closed' if clamping else 'locknut tight'}?"
    return f"{doing} took {turn}, which this hub cannot: count again, or is it another hub?"
