"""Every field of Check a hub as it is declared: its unit, what it is if left alone, and what may stand in it."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite
from typing import Any, Literal, get_args, get_origin

from conemodel.base.units import DEG, ONE, Unit
from conemodel.parts.felt_play import word_now
from conemodel.parts.readings import Readings, Round
from conemodel.parts.schema import Part, unit_of

NEXT = "next"
"""Stands for the round that is being entered."""

LARGEST = 1e9
"""Largest number taken from elsewhere; far beyond the limit of any field, which is said where it is broken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Declared:
    """One field.

    Attributes:
        unit, usual: its everyday unit, and what it is in that unit if left alone.
        kind: float, int or str; words: those that may stand in it, none where any text or number may.
    """

    unit: Unit
    usual: Any
    kind: type[float] | type[int] | type[str]
    words: tuple[str, ...] = ()

    @property
    def wanted(self) -> str:
        """What may stand in it, as a limit."""
        if self.words:
            return f"must be one of {', '.join(self.words)}"
        return {float: "must be a number", int: "must be a whole number", str: "must be text"}[self.kind]

    def parse(self, text: str) -> Any:
        """Return what a text says of this field, or None where it says nothing that can stand in it."""
        if self.words:
            word = word_now(text)
            return word if word in self.words else None
        if self.kind is str:
            return text
        number = int if self.kind is int else float
        try:
            value = number(text)
            return value if isfinite(value) and abs(value) <= LARGEST else None
        except (ValueError, OverflowError):
            return None


def in_everyday_unit(value: Any, unit: Unit) -> Any:
    """Return a value [SI] as it is entered; what is no length, angle or weight stays as it is."""
    return float(f"{unit.from_si(value):.12g}") if isinstance(value, float) else value


def _fields(part: Part, prefix: str) -> Iterator[tuple[str, Declared]]:
    for name, field in type(part).model_fields.items():
        value = getattr(part, name)
        if isinstance(value, Part):
            yield from _fields(value, f"{prefix}{name}.")
            continue
        unit, kinds = unit_of(field), (field.annotation, *get_args(field.annotation))
        literals = [kind for kind in kinds if get_origin(kind) is Literal]
        yield (
            prefix + name,
            Declared(
                unit=unit,
                usual=in_everyday_unit(value, unit),
                kind=float if float in kinds else int if int in kinds else str,
                words=tuple(word for literal in literals for word in get_args(literal)),
            ),
        )


DECLARED = {
    **{
        field: declared
        for part, prefix in ((Readings(), ""), (Round(), f"{NEXT}."))
        for field, declared in _fields(part, prefix)
        if not field.startswith(("found.turned_", "found.ridden", f"{NEXT}.turned_"))
    },
    f"{NEXT}.turned": Declared(unit=DEG, usual=None, kind=int),
    f"{NEXT}.way": Declared(unit=ONE, usual=None, kind=str, words=("in", "out")),
}
"""Every field of `Readings` by its name in full, ``found.rim_open.play``, and those of the round that is entered.

A turn of the cone is entered by its size and its way; as found, nothing was turned or ridden yet.
"""
