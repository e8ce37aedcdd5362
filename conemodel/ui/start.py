"""The start page: the names of the parts, and links to the screens."""

from dataclasses import dataclass
from functools import partial

import streamlit as st

from conemodel.show.instrument.pictures import parts_svg
from conemodel.ui.choose_hub import ready_hubs
from conemodel.ui.frame import begin_page, end_page
from conemodel.ui.own_hub import FIRST_HUB
from conemodel.ui.picture import draw_by_width


@dataclass(frozen=True)
class Door:
    """A group of links: its name, whom it is for, and its pages."""

    name: str
    lead: str
    pages: tuple[str, ...]


DOORS = (
    Door(
        "Learn it",
        "Ninety seconds on a first hub, then the bench: set hubs by feel. Or see what a setting becomes.",
        ("first-hub", "practise", "progress", "set-the-cone"),
    ),
    Door(
        "Show it",
        "Two hubs side by side on the wall: the class commits, then sees. And what many hubs make of one rule.",
        ("demonstrate", "many-hubs", "method"),
    ),
    Door(
        "Sort out a hub",
        "One that will not come right: say what you feel or measure, and read what it most likely is and what to do.",
        ("check-a-hub",),
    ),
)


def page() -> None:
    """Draw the page."""
    begin_page(
        "Cup and cone",
        "A wheel hub on loose balls is set by feel. Too tight pits the races, too loose hammers them, and the last "
        "step changes it again: closing the clamp squeezes the axle and takes up play. Nobody can see any of this. "
        "Here you can.",
    )
    for column, door in zip(st.columns(len(DOORS)), DOORS, strict=True):
        with column.container(border=True):
            st.header(door.name, anchor=False)
            st.markdown(door.lead)
            for name in door.pages:
                st.page_link(st.session_state.pages[name], width="stretch")
    st.header("What the parts are called", anchor=False)
    draw = partial(parts_svg, ready_hubs()[FIRST_HUB])
    draw_by_width("parts", draw, alt="A hub in section with the names of its parts")
    end_page()
