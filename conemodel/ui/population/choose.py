"""The population that is asked about: a ready one or one brought as a file, whole or one kind of hub of it."""

from functools import lru_cache

import streamlit as st

from conemodel.base.plain_text import one_line
from conemodel.parts.crowd import Crowd, load_crowd, read_crowd
from conemodel.parts.population import DEFAULT
from conemodel.parts.toml_files import write_part
from conemodel.show.population.tables import list_assumptions
from conemodel.ui.files import YOURS, ask_file, offer_file
from conemodel.ui.frame import table
from conemodel.ui.setting.controls import CONTACTS, TECHNIQUES
from conemodel.ui.url_state import choice

OWN, EVERY = "own", "all"
"""Stand in the address for a population brought as a file, and for all its kinds of hub."""


@lru_cache(maxsize=1)
def ready_crowds() -> dict[str, Crowd]:
    """Return the ready populations by the name of their file, the usual one first."""
    found = {path.stem: load_crowd(path) for path in sorted(DEFAULT.parent.glob("*.toml"))}
    return {DEFAULT.stem: found.pop(DEFAULT.stem), **found}


def choose_crowd() -> Crowd:
    """Draw the choosers and return the population; a file that cannot be used is explained and changes nothing."""
    brought: Crowd | None = st.session_state.get("own_crowd")
    known = {**ready_crowds(), **({OWN: brought} if brought else {})}
    titles = {name: one_line(crowd.population.name) for name, crowd in known.items()}
    if brought:
        titles[OWN] = f"Your own: {titles[OWN]}"
    chosen = choice(
        st.selectbox,
        "Population",
        titles,
        key="population",
        default=DEFAULT.stem,
        help="Whose hubs, hands, threads and clamps. Every one of its assumptions stands at the foot of the page.",
    )
    crowd = known[chosen]
    with st.popover("Bring your own population", width="stretch"):
        st.markdown("Take this one, change what you know better, and bring it back.")
        offer_file("This population (TOML)", "population.toml", lambda: write_part(crowd.population))
        ask_file(
            "Population file", _take, key="crowd_file", refused="Not taken; the population is as it was."
        )
    return _of_kind(crowd)


def _of_kind(crowd: Crowd) -> Crowd:
    """Return the population with all its kinds of hub, or with the one that is chosen."""
    names = {
        file: one_line(kind.name) for file, kind in zip(crowd.population.hubs.files, crowd.kinds, strict=True)
    }
    kind = choice(
        st.selectbox,
        "Kind of hub",
        {EVERY: "All of them together", **names},
        key="kind",
        default=EVERY,
        help="One kind alone shows the best back-off for that hub.",
    )
    return crowd if kind == EVERY else crowd.only(kind)


def _take(sent: bytes) -> None:
    """Keep the population in a file just brought, and choose it."""
    st.session_state.own_crowd = read_crowd(sent, name=YOURS)
    st.session_state.population = OWN


def show_assumptions(crowd: Crowd) -> None:
    """Draw every assumption of a population, each with its reason."""
    st.header("What is assumed, all of it", anchor=False)
    st.text(one_line(crowd.population.story))
    hands = crowd.population.hands
    table(
        list_assumptions(crowd, technique=TECHNIQUES[hands.technique], contact=CONTACTS[hands.contact_found])
    )
