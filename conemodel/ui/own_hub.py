"""A hub brought as a file, carried in the address: a reload, another screen or another person has it too."""

import streamlit as st

from conemodel.base.errors import InputProblems
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import read_scenario, write_part
from conemodel.ui.files import say_problems
from conemodel.ui.packed_text import pack, unpack

FIRST_HUB = "touring-rear"
"""The hub shown to who comes for the first time."""

OWN = "own"
"""Stands in the address for a hub brought as a file, and is the name under which that hub stands there."""

LONGEST = 4000
"""Most characters of a packed hub: that leaves an address room for all else."""

NAME = "the hub in the address"


def own_hub() -> Scenario | None:
    """Return the hub brought as a file in this visit, or with the address; what is wrong with it is kept to be said."""
    packed = st.query_params.get(OWN)
    if "own_hub" not in st.session_state and packed is not None:
        try:
            st.session_state.own_hub = read_scenario(unpack(packed, name=NAME), name=NAME)
        except InputProblems as error:
            st.session_state.own_hub_lost = str(error)
    brought: Scenario | None = st.session_state.get("own_hub")
    return brought


def keep_own_hub(*, chosen: bool) -> None:
    """Put the hub brought as a file into the address if it is the one `chosen`, or take it out; say what was lost."""
    brought = own_hub()
    packed = pack(write_part(brought)) if chosen and brought else None
    if packed is None:
        st.query_params.pop(OWN, None)
    elif len(packed) > LONGEST:
        st.query_params.pop(OWN, None)
        st.warning(
            "Your own hub is too long for the address: a reload loses it. Keep its file; its story may be shorter."
        )
    elif st.query_params.get(OWN) != packed:
        st.query_params[OWN] = packed


def say_lost_hub() -> None:
    """Say that the address asks for a hub brought as a file and does not hold it whole, until another is chosen."""
    if st.query_params.get("hub") == OWN and own_hub() is None:
        st.session_state.setdefault("own_hub_lost", "It names a hub from a file and does not hold it.")
    lost = st.session_state.get("own_hub_lost")
    if lost and st.session_state.get("hub") in (None, FIRST_HUB):
        words = "The hub of this address could not be read; another is taken instead. Bring its file again."
        say_problems(words, lost)
