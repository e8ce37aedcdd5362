"""A hub of somebody's own, entered or brought as a file, carried in the address."""

import streamlit as st

from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import read_scenario, write_part
from conemodel.ui.files import say_problems
from conemodel.ui.own_file import OwnFile

FIRST_HUB = "touring-rear"
"""The hub shown to who comes for the first time."""

OWN = "own"
"""Stands in the address for such a hub, and is the name under which that hub stands there."""

OWN_HUB: OwnFile[Scenario] = OwnFile(
    what="hub", place=OWN, read=lambda text, name: read_scenario(text, name=name), write=write_part
)


def take_own_hub(hub: Scenario) -> None:
    """Make a hub the own one, and the one of every screen."""
    OWN_HUB.take(hub)
    st.session_state.hub = OWN


def say_lost_hub() -> None:
    """Say that the address asks for a hub brought as a file and does not hold it whole, until another is chosen."""
    if st.query_params.get("hub") == OWN and OWN_HUB.brought() is None:
        OWN_HUB.lose("It names a hub from a file and does not hold it.")
    if OWN_HUB.lost and st.session_state.get("hub") in (None, FIRST_HUB):
        words = "The hub in this address could not be read. Here is another; ask for the link again, or bring its file."
        say_problems(words, OWN_HUB.lost)
