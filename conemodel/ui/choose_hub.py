"""The hub shared by all screens of a visit: one of the ready ones, one that was entered, or one from a file."""

from functools import lru_cache
from textwrap import shorten

import streamlit as st

from conemodel.base.plain_text import one_line, visible
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.library import SCENARIOS
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario, read_scenario
from conemodel.show.known_hub import known_html
from conemodel.ui.files import YOURS, ask_file
from conemodel.ui.my_hub.form import offer_my_hub
from conemodel.ui.own_hub import FIRST_HUB, OWN, OWN_HUB, take_own_hub
from conemodel.ui.url_state import choice, keep

MOST_LETTERS = 52
"""Of a hub's name in the chooser: as many as a phone has room for; a longer one loses whole words."""


@lru_cache(maxsize=1)
def ready_hubs() -> dict[str, Scenario]:
    """Return the ready hubs by the name of their file, the first hub first."""
    hubs = {path.stem: load_scenario(path) for path in sorted(SCENARIOS.glob("*.toml"))}
    return {FIRST_HUB: hubs.pop(FIRST_HUB), **hubs}


def choose_hub() -> Scenario:
    """Draw the chooser and return the hub; a file that cannot be used is explained and changes nothing."""
    brought = OWN_HUB.brought()
    asked = {place: words for place, words in st.query_params.items() if place in ("hub", OWN)}
    titles = {name: one_line(hub.name) for name, hub in ready_hubs().items()}
    if brought:
        titles[OWN] = shorten(f"Your own: {one_line(brought.name)}", MOST_LETTERS, placeholder=" …")
    chosen = choice(
        st.selectbox,
        "Hub",
        titles,
        key="hub",
        default=FIRST_HUB,
        label_visibility="collapsed",
    )
    OWN_HUB.keep(chosen=chosen == OWN)
    if brought is None and asked.get("hub") == OWN and chosen == FIRST_HUB:
        st.query_params.update(asked)  # a damaged link stays as it came, to be compared with the whole one
    hub = brought if chosen == OWN and brought else ready_hubs()[chosen]
    with st.popover("About this hub, or a file", width="content"):
        st.text(visible(hub.story.strip()))
        say_known(hub)
        st.caption("All these hubs are invented. You can bring your own as a scenario file.")
        ask_file("Scenario file", _take, key="hub_file", refused="Not taken. The hub is as it was.")
    offer_my_hub(hub)
    return hub


def say_known(hub: Scenario) -> None:
    """Say what is known and what is assumed of a hub that was entered; of any other, nothing."""
    if isinstance(hub, KnownScenario):
        st.html(known_html(hub))


def travelling_hub() -> Scenario:
    """Return the hub chosen on the other screens, and keep it for them."""
    hubs = dict(ready_hubs())
    if brought := OWN_HUB.brought():
        hubs[OWN] = brought
    name = st.session_state.get("hub", st.query_params.get("hub"))
    st.session_state.hub = name if name in hubs else FIRST_HUB
    return hubs[st.session_state.hub]


def is_hub_whole() -> bool:
    """Return whether the hub of this visit, or of the address, is here; one of somebody's own may be damaged."""
    return st.session_state.get("hub", st.query_params.get("hub")) != OWN or OWN_HUB.brought() is not None


def is_hub_in_address() -> bool:
    """Return whether the address holds the hub it names."""
    return st.query_params.get("hub") != OWN or OWN_HUB.place in st.query_params


def keep_travelling_hub(*, chosen: bool) -> None:
    """Put the hub of the other screens into this page's address if it is `chosen`, or take it out."""
    name = st.session_state.hub
    keep("hub", name if chosen else FIRST_HUB, FIRST_HUB)
    OWN_HUB.keep(chosen=chosen and name == OWN)


def _take(sent: bytes) -> None:
    """Keep the hub in a file just brought, and choose it."""
    take_own_hub(read_scenario(sent, name=YOURS))
