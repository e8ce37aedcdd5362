"""What was measured on a real hub at pen marks of its cone: the file of one hub that is pinned down step by step."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import Field

from conemodel.base.units import MINUTE, MM, NEWTON, ONE
from conemodel.parts.real_hub import LEAST_COUNT, MOST_COUNT, STATES, State
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.toml_files import load_part

ReadBy = Literal["dial along the axle", "dial at the rim", "ruler at the rim"]

USUAL_PUSHES: dict[ReadBy, tuple[float, float]] = {
    "dial along the axle": (10.0, 30.0),
    "dial at the rim": (2.0, 4.0),
    "ruler at the rim": (2.0, 4.0),
}
"""A light push and a harder one each way [N]: a finger that follows the play, and one that means it. Judgement."""

MOST_PLAY = MM.to_si(20.0)
"""Most play that can be written down [m]: more is no play of a hub."""

Play = Annotated[float, Field(ge=0.0, le=MOST_PLAY)]
"""A play as it was read [m]."""

PLACES = ("first", "second", "third", "fourth", "fifth", "sixth")
"""The marked positions of the cone by the names of their tables, in the order they were stood at."""


class Mark(Part):
    """One position of the cone that was marked by a pen, and what was read there: one number or two for each state."""

    count: float | None = quantity(
        MINUTE,
        "how far the cone stands out from finger contact, turned from the mark before",
        default=None,
        at_least=LEAST_COUNT,
        at_most=MOST_COUNT,
    )
    count_checked: bool = quantity(
        ONE, "true where the count was looked at again and is right, though another would fit", default=False
    )
    plays_checked: bool = quantity(
        ONE,
        "true where the plays were looked at again and are right, though they look too small",
        default=False,
    )
    nut_loose: tuple[Play, ...] = quantity(MM, "play, locknut loose: light push, hard push", default=())
    locked: tuple[Play, ...] = quantity(MM, "play, locked on the bench: light push, hard push", default=())
    clamped: tuple[Play, ...] = quantity(MM, "play, locked and clamped: light push, hard push", default=())

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """A state has at most a light and a hard push; what was read needs the place it was read at."""
        yield from super().cross_checks(values)
        for name in STATES:
            plays = values.get(name, ())
            if len(plays) > 2:
                yield FieldError(
                    field=name,
                    value=f"{len(plays)} numbers",
                    limit="must be at most 2: light push, hard push",
                )
        if any(values.get(name) for name in STATES) and values.get("count", 0.0) is None:
            yield FieldError(
                field="count", value=None, limit="is missing: plays need the place they were read at"
            )

    @property
    def plays(self) -> dict[State, tuple[float, ...]]:
        """What was read [m], by state, in the order of the work."""
        return {state: getattr(self, name) for name, state in STATES.items()}

    @property
    def is_read(self) -> bool:
        """Something was read here."""
        return any(self.plays.values())


class MeasuredHub(Part):
    """One hub measured at marks: how it was read, and what was read at each mark."""

    name: str = quantity(ONE, "what to call this hub", default="A measured hub")
    read_by: ReadBy = quantity(ONE, "what the play was read by, and where", default="dial along the axle")
    light_push: float | None = quantity(
        NEWTON,
        "the light push each way; the usual one where nobody knows",
        default=None,
        above=0,
        at_most=100,
    )
    hard_push: float | None = quantity(
        NEWTON, "the hard push each way; the usual one where nobody knows", default=None, above=0, at_most=100
    )
    first: Mark = Mark()
    second: Mark = Mark()
    third: Mark = Mark()
    fourth: Mark = Mark()
    fifth: Mark = Mark()
    sixth: Mark = Mark()

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """The hard push must be the harder; no mark may be left out between two that are used."""
        yield from super().cross_checks(values)
        light, hard = values.get("light_push"), values.get("hard_push")
        if light is not None and hard is not None and light >= hard:
            yield FieldError(field="light_push", value=light, limit="must be below hard_push, {}", bound=hard)
        here = [name for name in PLACES if name in values]
        used = [name for name in here if values[name].count is not None]
        for name in here[: here.index(used[-1])] if used else ():
            if name not in used:
                yield FieldError(field=name, value="", limit=f"has no count, but {used[-1]} after it has one")

    @property
    def marks(self) -> tuple[Mark, ...]:
        """The marks that have a place, in the order they were stood at."""
        every = (getattr(self, name) for name in PLACES)
        return tuple(mark for mark in every if mark.count is not None)

    @property
    def pushes(self) -> tuple[float, float]:
        """The light and the hard push each way [N]."""
        light, hard = USUAL_PUSHES[self.read_by]
        given = self.light_push, self.hard_push
        if given[0] is None and given[1] is not None:
            return given[1] * light / hard, given[1]
        return given[0] or light, given[1] or (given[0] * hard / light if given[0] else hard)

    def with_mark(self, number: int, **changed: Any) -> "MeasuredHub":
        """Return the same with what `changed` at the mark of a number, from 0."""
        marks = list(self.marks)
        marks[number] = marks[number].replace(**changed)
        return self.at_marks(tuple(marks))

    def at_marks(self, marks: tuple[Mark, ...]) -> "MeasuredHub":
        """Return the same with other marks."""
        empty = (Mark(),) * (len(PLACES) - len(marks))
        return self.replace(**dict(zip(PLACES, (*marks, *empty), strict=True)))


def load_measured_hub(path: str | Path) -> MeasuredHub:
    """Read a file of what was measured on a real hub at marks.

    Raises:
        InputProblems: what cannot be used, naming file, line, field, value and limit of every mistake.
    """
    return load_part(MeasuredHub, Path(path))
