"""Every page, by name, for the menu and for links from one page to another."""

from collections.abc import Callable

import streamlit as st
from streamlit.navigation.page import StreamlitPage

from conemodel.ui import start
from conemodel.ui.diagnosis import page as check
from conemodel.ui.hand import page as hand
from conemodel.ui.job_card import page as job_card
from conemodel.ui.lesson import page as demonstrate
from conemodel.ui.population import page as many_hubs
from conemodel.ui.practice import first_hub, progress
from conemodel.ui.practice import page as practise
from conemodel.ui.real_hub import measure
from conemodel.ui.real_hub import page as real_hub
from conemodel.ui.setting import page as set_cone
from conemodel.ui.validation import page as method

PAGES: dict[str, tuple[Callable[[], None], str, str]] = {
    "start": (start.page, "Start", "door_open"),
    "first-hub": (first_hub.page, "First hub", "back_hand"),
    "practise": (practise.page, "Practise", "pan_tool"),
    "my-hand": (hand.page, "My hand", "front_hand"),
    "progress": (progress.page, "Progress", "monitoring"),
    "set-the-cone": (set_cone.page, "Set the cone", "build"),
    "demonstrate": (demonstrate.page, "Demonstrate", "co_present"),
    "many-hubs": (many_hubs.page, "Many hubs", "bar_chart"),
    "check-a-hub": (check.page, "Check a hub", "stethoscope"),
    "measure-a-hub": (measure.page, "Measure a hub", "speed"),
    "real-hub": (real_hub.page, "A real hub", "straighten"),
    "job-cards": (job_card.page, "Job cards", "assignment"),
    "method": (method.page, "Method", "functions"),
}
"""Name in the address, function, title and sign of each page, in the order of the menu."""


def all_pages() -> dict[str, StreamlitPage]:
    """Return the pages in the order of the menu; to be called once a run, before any page is drawn."""
    pages = {
        name: st.Page(draw, title=title, icon=f":material/{sign}:", url_path=name, default=draw is start.page)
        for name, (draw, title, sign) in PAGES.items()
    }
    st.session_state.pages = pages
    return pages
