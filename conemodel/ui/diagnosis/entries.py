"""Entries of the page Check a hub, kept by field in everyday units, valid or not.

A field has the name it has in a file of readings, ``found.rim_open.play``. What was entered becomes `Readings` only
where all of it is valid; otherwise every mistake is reported at once and nothing entered is lost.
"""

from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

import streamlit as st

from conemodel.base.errors import InputProblems, Problem
from conemodel.parts.readings import ROUNDS, Readings, Round
from conemodel.parts.schema import FieldError, Part, PartProblems, part_class, unit_of
from conemodel.show.diagnosis.field_names import label_of
from conemodel.ui.diagnosis.declared import NEXT, in_everyday_unit

Entries = dict[str, Any]
P = TypeVar("P", bound=Part)

QUICK = {
    "found.rim_open.hand": "play_open",
    "found.rim_closed.hand": "play_closed",
    "found.turns_closed": "turns",
    "clamp": "held_by",
    "checks.freehub_rocks": "freehub",
    "checks.headset_or_pivots_rock": "headset",
    "checks.spokes_loose": "spokes",
    "checks.axle_moves_in_dropouts": "dropouts",
    "checks.far_side_unlocked": "far_side",
}
"""Fields that are asked first, each with its name in the address."""

NOT_LOOKED = "unknown"
"""The answer of who has not looked."""

_WIDGET = "check:"


def entries() -> Entries:
    """Return all that was entered in this visit, but for the quick answers."""
    kept: Entries = st.session_state.setdefault("check_entries", {})
    return kept


def rounds() -> tuple[Round, ...]:
    """Return the rounds after the first look."""
    kept: tuple[Round, ...] = st.session_state.setdefault("check_rounds", ())
    return kept


def widget(field: str, default: Any = None) -> str:
    """Return the key of a field's widget, after giving the widget what was entered before."""
    key = _WIDGET + field
    if key not in st.session_state:
        st.session_state[key] = entries().get(field, default)
    return key


def keep(field: str, value: Any) -> None:
    """Keep what a widget holds; None takes it out."""
    if value is None:
        entries().pop(field, None)
    else:
        entries()[field] = value


def value_of(field: str) -> Any:
    """Return the present value of a field, also where its widget is not drawn in this run."""
    return st.session_state.get(_WIDGET + field, entries().get(field))


def follow(field: str, advised: Any) -> None:
    """Set a field to what is advised, unless a person entered something else there."""
    if value_of(field) == advised_for(field) and value_of(field) != advised:
        keep(field, advised)
        st.session_state[_WIDGET + field] = advised
    leave(field, advised)


def advised_for(field: str) -> Any:
    """Return what was last advised for a field."""
    return st.session_state.get(f"{_WIDGET}{field}:advised")


def leave(field: str, advised: Any) -> None:
    """Take something as advised for a field, and leave the field as it is."""
    st.session_state[f"{_WIDGET}{field}:advised"] = advised


def forget(beginning: str = "") -> None:
    """Delete the entries whose names start with `beginning`, and reset their widgets."""
    for field in [field for field in entries() if field.startswith(beginning)]:
        del entries()[field]
    for key in [key for key in st.session_state if str(key).startswith(_WIDGET + beginning)]:
        del st.session_state[key]


def read(readings: Readings) -> None:
    """Replace all entries by readings from a file."""
    forget()
    flat = dict(flatten(readings))
    for field, name in QUICK.items():
        st.session_state[name] = flat.pop(field, None) or NOT_LOOKED
    st.session_state.check_rounds = readings.rounds[1:]
    entries().update({field: value for field, value in flat.items() if field.split(".")[0] not in ROUNDS[1:]})


def flatten(part: Part, prefix: str = "") -> Iterator[tuple[str, Any]]:
    """Yield every field that is set, with its value in its everyday unit."""
    for name, field in type(part).model_fields.items():
        value = getattr(part, name)
        if isinstance(value, Part):
            yield from flatten(value, f"{prefix}{name}.")
        elif value is not None:
            yield prefix + name, in_everyday_unit(value, unit_of(field))


def readings_of(quick: Mapping[str, str]) -> Readings:
    """Return what was entered, with the `quick` answers by field, as readings.

    A play that was measured stands instead of the word for it.

    Raises:
        InputProblems: every mistake in what was entered.
    """
    given = {**quick, **entries()}
    for place in ("found.rim_open", "found.rim_closed"):
        if f"{place}.play" in given:
            given.pop(f"{place}.hand", None)
    later = dict(zip(ROUNDS[1:], rounds(), strict=False))
    return _build(Readings, given, "", later)


def round_of(given: Mapping[str, Any], name: str = NEXT) -> Round:
    """Return the round entered under a `name`.

    Raises:
        InputProblems: every mistake in what was entered.
    """
    return _build(Round, given, f"{name}.", {})


def _build(cls: type[P], given: Mapping[str, Any], prefix: str, ready: Mapping[str, Part]) -> P:
    problems: list[Problem] = []
    part = _part(cls, given, prefix, ready, problems)
    if part is None or problems:
        raise InputProblems(problems)
    return part


def _part(
    cls: type[P],
    given: Mapping[str, Any],
    prefix: str,
    ready: Mapping[str, Part],
    problems: list[Problem],
    usual: Part | None = None,
) -> P | None:
    """Return the part built from names with a `prefix`, or None, with its problems."""
    values: dict[str, Any] = {**(dict(usual) if usual else {}), **ready}
    broken = False
    for name, field in cls.model_fields.items():
        inner, unit = part_class(field), unit_of(field)
        if name in ready:
            continue
        if inner is not None:
            # a length left out may be off by more than any other: what is usual comes from where it stands
            child = _part(inner, given, f"{prefix}{name}.", {}, problems, field.default)
            broken = broken or child is None
            if child is not None:
                values[name] = child
        elif (value := given.get(prefix + name)) is not None:
            values[name] = unit.to_si(value) if isinstance(value, float) else value
    try:
        part = cls(**values)
    except PartProblems as error:
        problems += [_name_as_on_screen(cls, mistake, prefix) for mistake in error.mistakes]
        return None
    return None if broken else part


def _name_as_on_screen(cls: type[Part], mistake: FieldError, prefix: str) -> Problem:
    """Return a mistake under the name of its field on screen."""
    problem = cls.say(mistake)
    unit = unit_at(cls, mistake.field)
    value = f"{problem.value} {unit}".strip() if problem.value else ""
    return Problem(
        where=label_of(prefix + mistake.field), value=value, limit=problem.limit, remedy=problem.remedy
    )


def unit_at(cls: type[Part], path: str) -> str:
    """Return the symbol of the unit of a field that may lie further down."""
    return cls.locate(path)[1].symbol
