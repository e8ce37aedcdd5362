"""Whose hand is measured in this visit: begun here, named by the address, or left under a name and gone on with."""

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.record.database import Database
from conemodel.record.hand_sittings import (
    Sitting,
    begin_sitting,
    find_sitting,
    nameless_sittings,
    sittings,
)
from conemodel.tasks.hand.kinds import KINDS, Kind
from conemodel.ui.url_state import keep
from conemodel.ui.visit import NAME, end_visit, typed_name, visit

PLACE = "sitting"
"""Stands in the address for the number of the sitting under way."""

NOBODY = 0
"""Stands where a sitting's number is wanted and nobody's is under way."""

LONGEST = 12
"""More figures than any sitting's number has."""

PROBLEM = "hand_not_kept"
"""Where the reason stands why something could not be kept, until it is said."""


def under_way(kind: Kind) -> Sitting | None:
    """Return the sitting of this session, of the address, or left by whoever is here, and keep it in the address.

    Raises:
        RecordError: the record could not be read.
    """
    number = st.session_state.get(_key(kind), _whole(st.query_params.get(PLACE, "")))
    found = find_sitting(number, Database())
    if found is None or found.kind != kind:
        found = left_here(kind)
    if found is not None:
        st.session_state[_key(kind)] = found.id
    keep(PLACE, str(found.id) if found else "", "")
    return found


def kept_here(kind: Kind) -> tuple[Sitting, ...]:
    """Return what is kept under the name typed, or by this visit under none, oldest first.

    Raises:
        RecordError: the record could not be read.
    """
    if name := typed_name():
        return sittings(name, kind, Database())
    return nameless_sittings(visit(), kind, Database())


def kept_with(sitting: Sitting) -> tuple[Sitting, ...]:
    """Return what is kept under the same name as a sitting, or under none by the same visit, oldest first.

    Raises:
        RecordError: the record could not be read.
    """
    if sitting.name:
        return sittings(sitting.name, sitting.kind, Database())
    if sitting.visit is None:  # begun before visits were kept
        return (sitting,)
    return nameless_sittings(sitting.visit, sitting.kind, Database())


def left_here(kind: Kind) -> Sitting | None:
    """Return the first sitting that whoever is here has left unfinished, None where none is.

    Raises:
        RecordError: the record could not be read.
    """
    return next((one for one in kept_here(kind) if not one.finished), None)


def begin(kind: Kind) -> None:
    """Begin a sitting under the name as it is typed now."""
    begin_under(kind, st.session_state.get(NAME))


def begin_under(kind: Kind, name: str | None) -> None:
    """Begin a sitting; what keeps it from being kept stands at `PROBLEM`."""
    try:
        st.session_state[_key(kind)] = begin_sitting(kind, Database(), name=name, visit=visit()).id
    except ConemodelError as error:
        st.session_state[PROBLEM] = error


def leave() -> None:
    """Let somebody else begin; what was answered stays where it is."""
    end_visit()
    for kind in KINDS.values():
        st.session_state[_key(kind)] = NOBODY


def _key(kind: Kind) -> str:
    return f"hand_{kind.name}"


def _whole(text: str) -> int:
    return int(text) if text.isascii() and text.isdigit() and len(text) < LONGEST else NOBODY
