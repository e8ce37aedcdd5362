"""All that was entered in Check a hub, kept in the address: a reload, a dropped tab or a new server loses nothing.

An entry stands there by the name of its field and in its everyday unit, ``found.rim_open.play=0.35``, whether or not
it can be; a quick answer by its short name. What is as usual is left out. ``sum`` stands first and is made of all the
rest, so that an address that was cut short or changed on its way is known for one.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import parse_qsl, urlencode
from zlib import crc32

import streamlit as st

from conemodel.base.errors import InputProblems, Problem
from conemodel.parts.foreign_file import FILE_SIZE_LIMIT
from conemodel.parts.readings import ROUNDS, Round
from conemodel.parts.toml_reader import first_problems
from conemodel.show.diagnosis.field_names import label_of
from conemodel.ui.diagnosis.declared import DECLARED, NEXT
from conemodel.ui.diagnosis.entries import (
    NOT_LOOKED,
    QUICK,
    Entries,
    advised_for,
    entries,
    flatten,
    leave,
    round_of,
    rounds,
    value_of,
)
from conemodel.ui.packed_text import LONGEST_ADDRESS, pack, unpack

SUM = "sum"
"""The name under which the check of the rest stands."""

PACKED = "packed"
"""The name under which all entries stand as one packed text, where they would be too long to read."""

TEXTS = ("story", "name")
"""What is left out of an address that would be too long even so. Numbers and words never fill it."""

FOLLOWING = (f"{NEXT}.turned", f"{NEXT}.way")
"""Fields that stand as advised until a person enters something else; an empty one is then written as empty."""

_FIELDS = {QUICK.get(field, field): field for field in DECLARED}
"""Every field by its name in the address."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What an address holds.

    Attributes:
        entries: by field; rounds: after the first look; emptied: fields that a person emptied.
        problems: everything that could not be read and is in none of these.
    """

    entries: Entries
    rounds: tuple[Round, ...]
    emptied: tuple[str, ...]
    problems: tuple[Problem, ...]


def keep_in_address() -> tuple[str, ...]:
    """Put all that is entered into the address; return the fields that it has no room for."""
    now = st.query_params.to_dict()
    others = {name: text for name, text in now.items() if not _is_ours(name)}
    quick = {name: now[name] for name in QUICK.values() if name in now}
    texts = texts_of(_entered(), rounds())
    room = LONGEST_ADDRESS - len(urlencode({SUM: "0" * 8, **others, **quick, "": ""}))
    standing, left_out = fit_in(texts, room)
    check = {SUM: _sum_of({**quick, **texts})} if texts else {}
    wanted = {**check, **others, **quick, **standing}
    if wanted != now:
        st.query_params.from_dict(wanted)
    return left_out


def fit_in(texts: Mapping[str, str], room: int) -> tuple[dict[str, str], tuple[str, ...]]:
    """Return how entries stand in an address that has room for so many characters, and which have none."""
    if len(urlencode(texts)) <= room:
        return dict(texts), ()
    for left_out in ((), TEXTS[:1], TEXTS):
        kept = {field: text for field, text in texts.items() if field not in left_out}
        standing = {PACKED: pack(urlencode(kept))}
        if len(urlencode(standing)) <= room:
            break
    return standing, tuple(field for field in left_out if field in texts)


def take_address() -> None:
    """Take what the address holds into a new visit, and keep what is wrong with it to be said."""
    if "check_entries" in st.session_state:
        return
    held = read_address(st.query_params.to_dict())
    entries().update(held.entries)
    st.session_state.check_rounds = held.rounds
    st.session_state.check_address_problems = held.problems
    for field in held.emptied:
        leave(field, "emptied")


def texts_of(entered: Mapping[str, Any], later: Iterable[Round]) -> dict[str, str]:
    """Return what is entered and the rounds after the first look as texts, by field, without what is as usual."""
    given = dict(entered)
    for name, look in zip(ROUNDS[1:], later, strict=False):
        given |= flatten(look, f"{name}.")
    return {
        field: f"{given[field]:.12g}" if isinstance(given[field], float) else str(given[field])
        for field, declared in DECLARED.items()
        if field not in QUICK and field in given and given[field] != declared.usual
    }


def read_address(address: Mapping[str, str]) -> Held:
    """Return what an address holds; what cannot be read is in its problems, and nowhere else."""
    ours = {name: text for name, text in address.items() if _is_ours(name)}
    check, packed = ours.pop(SUM, None), ours.pop(PACKED, None)
    problems: list[Problem] = []
    if packed is not None:
        ours |= _unpacked(packed, problems)
    if check not in (None, _sum_of(ours)):
        problems.append(_CHANGED)
    given: Entries = {}
    damaged = set()
    for name, text in ours.items():
        declared = DECLARED.get(_FIELDS.get(name, ""))
        if declared is None:
            problems.append(Problem(where=name[:60], value=text[:60], limit="is not a known name"))
        elif len(text) <= FILE_SIZE_LIMIT and (value := declared.parse(text)) is not None:
            given[_FIELDS[name]] = value
        elif text or name not in FOLLOWING:
            where = label_of(_FIELDS[name].removeprefix(f"{NEXT}."))
            problems.append(Problem(where=where, value=text[:60], limit=declared.wanted))
            damaged.add(name.split(".")[0])
    later = _rounds_in(given, damaged, problems)
    return Held(
        entries={
            field: value for field, value in given.items() if field not in QUICK and not _is_later(field)
        },
        rounds=later,
        emptied=tuple(field for field in FOLLOWING if ours.get(field) == ""),
        problems=tuple(first_problems(problems, "The address")),
    )


def _unpacked(packed: str, problems: list[Problem]) -> dict[str, str]:
    try:
        text = unpack(packed, name="The part of the address that is packed")
        return dict(parse_qsl(text, keep_blank_values=True, max_num_fields=2 * len(DECLARED)))
    except InputProblems as error:
        problems += error.problems
    except ValueError:
        problems.append(_CHANGED)
    return {}


_CHANGED = Problem(
    where="The address",
    value="",
    limit="was cut short or changed on its way",
    remedy="what is entered below may not be all: compare it with your notes",
)


def _rounds_in(given: Entries, damaged: set[str], problems: list[Problem]) -> tuple[Round, ...]:
    """Return the rounds up to the first that is damaged: what was felt later hangs on what was turned before."""
    looks: list[Round] = []
    for name in ROUNDS[1:]:
        if name in damaged or not any(field.startswith(f"{name}.") for field in given):
            break
        try:
            looks.append(round_of(given, name))
        except InputProblems as error:
            problems += error.problems
            break
    left = {field: value for field, value in given.items() if field.split(".")[0] in ROUNDS[len(looks) + 1 :]}
    if left:
        held = "; ".join(f"{label_of(field)}: {value}" for field, value in left.items())
        limit = "not taken, because part of the rounds could not be read"
        problems.append(Problem(where="Rounds", value="", limit=limit, remedy=f"to be entered again: {held}"))
    return tuple(looks)


def _entered() -> Entries:
    """Return what is entered now by field, also in fields not drawn in this run; quick answers and rounds are not."""
    found = {}
    for field in DECLARED:
        value = value_of(field)
        if field in FOLLOWING and value == advised_for(field):
            continue
        if value is None and field in FOLLOWING:
            value = ""
        if value not in (None, NOT_LOOKED):
            found[field] = value
    return found


def _is_ours(name: str) -> bool:
    """Return whether a name in the address is this page's; every field further down has a full stop in its name."""
    return name in _FIELDS or name in (SUM, PACKED) or "." in name


def _is_later(field: str) -> bool:
    return field.split(".")[0] in ROUNDS[1:]


def _sum_of(texts: Mapping[str, str]) -> str:
    """Return what tells these texts from any others."""
    return f"{crc32(urlencode(sorted(texts.items())).encode()):08x}"
