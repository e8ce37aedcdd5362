"""The start page: a hub to be rocked, and three doors to the screens."""

from contextlib import suppress
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.plain_text import one_line
from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.pictures import parts_svg
from conemodel.show.instrument.rock_json import rock_json
from conemodel.show.practice.plan_words import today_words
from conemodel.tasks.setting.middle import set_in_middle
from conemodel.tasks.setting.predict import predict
from conemodel.ui.choose_hub import ready_hubs
from conemodel.ui.frame import end_page, style
from conemodel.ui.own_hub import FIRST_HUB
from conemodel.ui.picture import draw_by_width
from conemodel.ui.practice.plan import done_so_far, read_today
from conemodel.ui.widgets.doors_mount import show_doors
from conemodel.ui.widgets.rock_me_mount import rock_me

MENU, DOOR = 60, 100
"""Heights of what stands above the hub, and of the doors below it [px]."""

NEXT = "Set your first hub"
"""What is offered to who has rocked, clamped and twirled it."""

SIGNS = ("load", "lens", "vice")
"""Groups of the drawing that are no part of the hub or its wheel."""

STYLE = """
<style>
[data-testid=stMainBlockContainer]:has(.st-key-cm-doors) {padding-inline: max(1rem, min(1.25rem, 2vw))}
.st-key-cm-doors {margin-top: -0.5rem}
</style>
"""


@dataclass(frozen=True)
class Door:
    """A group of links: its name, whom it is for, and its pages."""

    name: str
    lead: str
    pages: tuple[str, ...]


DOORS = (
    Door(
        "Learn it",
        "Ninety seconds on a first hub, then the bench.",
        ("first-hub", "practise", "my-hand", "progress", "set-the-cone"),
    ),
    Door(
        "Show it",
        "Two hubs on the wall: the class commits, then sees.",
        ("demonstrate", "many-hubs", "method"),
    ),
    Door(
        "Sort out a hub",
        "Say what you feel or measure, and read what to do.",
        ("check-a-hub", "measure-a-hub", "job-cards", "real-hub"),
    ),
)


def page() -> None:
    """Draw the page."""
    st.html(style(dark=st.context.theme.type == "dark") + STYLE)
    name = one_line(shown_hub().name).partition(",")[0]
    words = f"{name}, an invented hub."
    if rock_me(key="rock_me", data=hub_data(), name=words, next_act=NEXT, above=MENU, below=DOOR):
        st.switch_page(st.session_state.pages["first-hub"])
    if address := show_doors([door_json(door) for door in DOORS], key="cm-doors"):
        st.switch_page(st.session_state.pages[address])
    name_parts()
    end_page()


def door_json(door: Door) -> dict[str, Any]:
    """Return what a door says and where it leads; on the one to the bench stands what is due, if anything is."""
    due = due_today() if "practise" in door.pages else ""
    pages = [{"title": st.session_state.pages[name].title, "address": name} for name in door.pages]
    return {"name": door.name, "lead": due or door.lead, "due": bool(due), "pages": pages}


@st.fragment
def name_parts() -> None:
    """Draw what the parts are called, folded away; not sent before it is unfolded, so that the hub comes sooner."""
    folded = st.expander("What the parts are called", key="parts_named", on_change="rerun")
    if folded.open:
        with folded:
            alt = f"A hub in section with the names of its parts: {', '.join(part_names())}"
            draw_by_width("parts", named_parts, alt=alt)


def due_today() -> str:
    """Return what whoever practises has to do today, in a line as long as it replaces; empty if that is nothing.

    Whoever has done nothing yet has nothing due. A record that cannot be read keeps nobody from the hub.
    """
    with suppress(ConemodelError):
        if done_so_far() and (today := read_today()).left:
            return f"{today_words(today)}."
    return ""


@lru_cache(maxsize=1)
def shown_hub() -> Scenario:
    """Return the hub: loose while its clamp is open, right once it is shut."""
    return set_in_middle(ready_hubs()[FIRST_HUB])


@lru_cache(maxsize=1)
def hub_data() -> dict[str, Any]:
    """Return what the browser needs of it."""
    return rock_json(predict(shown_hub()))


@lru_cache(maxsize=4)
def named_parts(*, dark: bool, compact: bool) -> str:
    """Return it with the names of its parts, as SVG."""
    return parts_svg(shown_hub(), dark, compact=compact)


def part_names() -> list[str]:
    """Return what the parts of its drawing are called, each once."""
    groups = hub_data()["sheets"]["whole"]["groups"]
    titles = (
        part.get("title", "") for group in groups if group["name"] not in SIGNS for part in group["parts"]
    )
    return list(dict.fromkeys(filter(None, titles)))
