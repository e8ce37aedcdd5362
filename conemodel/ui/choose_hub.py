"""The hub shared by all screens of a visit: one of the ready ones, or one from a file."""

from functools import lru_cache

import streamlit as st

from conemodel.base.errors import InputProblems
from conemodel.base.plain_text import one_line, visible
from conemodel.parts.library import SCENARIOS
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario, read_scenario
from conemodel.ui.url_state import choice

FIRST_HUB = "touring-rear"
"""The hub shown to who comes for the first time."""

OWN = "own"
"""Stands in the address for a hub brought as a file."""


@lru_cache(maxsize=1)
def ready_hubs() -> dict[str, Scenario]:
    """Return the ready hubs by the name of their file, the first hub first."""
    hubs = {path.stem: load_scenario(path) for path in sorted(SCENARIOS.glob("*.toml"))}
    return {FIRST_HUB: hubs.pop(FIRST_HUB), **hubs}


def choose_hub() -> Scenario:
    """Draw the chooser and return the hub; a file that cannot be used is explained and changes nothing."""
    brought: Scenario | None = st.session_state.get("own_hub")
    titles = {name: one_line(hub.name) for name, hub in ready_hubs().items()}
    if brought:
        titles[OWN] = f"Your own: {one_line(brought.name)}"
    chosen = choice(
        st.selectbox,
        "Hub",
        titles,
        key="hub",
        default=FIRST_HUB,
        help="All ready hubs are invented. You can bring your own as a scenario file.",
    )
    hub = brought if chosen == OWN and brought else ready_hubs()[chosen]
    with st.popover("Story, or your own", width="content"):
        st.text(visible(hub.story.strip()))
        _ask_file()
    return hub


def _ask_file() -> None:
    """Ask for a scenario file, and say what is wrong with one that was not taken."""
    st.file_uploader("Scenario file (TOML, up to 64 KB)", type=["toml"], key="hub_file", on_change=_take_file)
    for problem in st.session_state.get("hub_problems", ()):
        st.error("Not taken; the hub is as it was.")
        st.code(problem, language=None, wrap_lines=True)


def _take_file() -> None:
    """Read the file just brought; keep it, or keep what is wrong with it."""
    sent = st.session_state.hub_file
    st.session_state.hub_problems = ()
    if sent is None:
        return
    try:
        st.session_state.own_hub = read_scenario(sent.getvalue(), name="your file")
    except InputProblems as error:
        st.session_state.hub_problems = ("\n".join(str(problem) for problem in error.problems),)
        return
    st.session_state.hub = OWN
