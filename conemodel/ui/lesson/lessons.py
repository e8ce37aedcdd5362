"""The stories at hand: the ready ones, and one brought as a file; and where the telling of one stands."""

from functools import lru_cache

import streamlit as st

from conemodel.base.plain_text import one_line
from conemodel.parts.foreign_file import read_bytes
from conemodel.parts.lesson import STORIES, Staged, Story, load_story, read_story, stories
from conemodel.parts.toml_files import write_part
from conemodel.tasks.lesson.lesson import Played, play_story
from conemodel.tasks.lesson.position import Position, positions, start
from conemodel.ui.choose_hub import is_hub_in_address, is_hub_whole, travelling_hub
from conemodel.ui.files import YOURS, ask_file, say_problems
from conemodel.ui.own_file import OwnFile
from conemodel.ui.url_state import choice

FIRST_STORY = "quick-release-or-nuts"
"""The story offered to who comes for the first time."""

OWN = "own"
"""Stands in the address for a story brought as a file."""

ON_YOUR_HUB = "on-your-hub"
"""The story that is told of the hub chosen on any page, ready or somebody's own."""

OWN_STORY: OwnFile[Staged] = OwnFile(
    what="story",
    place="own_story",
    read=lambda text, name: read_story(text.encode(), name=name),
    write=lambda staged: write_part(staged.story),
)


@lru_cache(maxsize=1)
def ready_stories() -> dict[str, Staged]:
    """Return the ready stories by the name of their file, the first story first."""
    found = {path.stem: load_story(path) for path in stories()}
    return {FIRST_STORY: found.pop(FIRST_STORY), **found, ON_YOUR_HUB: _on_your_hub()}


def _on_your_hub() -> Staged:
    """Return the story of one hub set two ways, told of a ready hub."""
    path = STORIES / "own" / "two-back-offs.toml"
    return read_story(read_bytes(path), name=path.name)


def known_stories() -> dict[str, Staged]:
    """Return the ready stories, one of them told of the hub that was chosen, and the one this person brought."""
    brought, found = OWN_STORY.brought(), dict(ready_stories())
    if is_hub_whole():
        found[ON_YOUR_HUB] = found[ON_YOUR_HUB].told_of(travelling_hub())
    else:
        del found[ON_YOUR_HUB]
    return {**found, **({OWN: brought} if brought else {})}


@st.cache_resource(
    max_entries=64,
    show_spinner=False,
    hash_funcs={Staged: lambda s: [write_part(part) for part in (s.story, s.left, s.right)]},
)
def cached_story(staged: Staged) -> Played:
    """Return a story with both its predictions; they are frozen, so one serves everybody."""
    return play_story(staged)


def choose_story() -> Staged:
    """Draw the chooser and return the story; a file that cannot be used is explained and changes nothing."""
    known = known_stories()
    titles = {name: one_line(staged.story.title) for name, staged in known.items()}
    if OWN in titles:
        titles[OWN] = f"Your own: {titles[OWN]}"
    _note_lost_story()
    chosen = choice(st.selectbox, "Story", titles, key="story", default=FIRST_STORY)
    OWN_STORY.keep(chosen=chosen == OWN)
    with st.popover("Bring your own story", width="stretch"):
        st.markdown(
            "A story is a file that names two hubs by the names of the ready ones, what is changed in each, and what "
            "to say at each step. Take a ready story as it is and change it."
        )
        ask_file("Story file", _take, key="story_file", refused="Not taken; the story is as it was.")
    return known[chosen]


def _take(sent: bytes) -> None:
    """Keep the story in a file just brought, and choose it."""
    OWN_STORY.take(read_story(sent, name=YOURS))
    st.session_state.story = OWN


def _note_lost_story() -> None:
    """Say that the address asks for a story that is not here, until another is chosen."""
    asked = st.query_params.get("story", FIRST_STORY)
    if asked not in known_stories():
        OWN_STORY.lose("It names a story that is not here and does not hold it.")
    if OWN_STORY.lost and st.session_state.get("story") in (None, FIRST_STORY):
        words = "The story of this address could not be read; another is taken instead. Bring its file again."
        say_problems(words, OWN_STORY.lost)


def story_from_address() -> tuple[str, Staged] | None:
    """Return the story the address names, with its name; None where the address names no step of one."""
    name = st.query_params.get("story", FIRST_STORY)
    known = known_stories()
    return (name, known[name]) if "step" in st.query_params and name in known else None


def is_on_your_hub() -> bool:
    """Return whether the story that is chosen is told of a hub that is chosen beside it."""
    return bool(st.session_state.get("story") == ON_YOUR_HUB)


def is_in_address() -> bool:
    """Return whether the address holds the whole story it names, and the hub it is told of."""
    if st.query_params.get("story") == ON_YOUR_HUB:
        return is_hub_in_address()
    return st.query_params.get("story") != OWN or OWN_STORY.place in st.query_params


def position_from_address(story: Story) -> Position:
    """Return the position in the address, the first where that is not valid."""
    shown = story.steps.shown
    name = st.query_params.get("step")
    if name not in shown:
        return start(story)
    revealed = st.query_params.get("shown") == "yes"
    swapped = st.query_params.get("swapped") == "yes"
    place = Position(step=shown.index(name), revealed=revealed)
    if place not in positions(story):  # a step that asks nothing is never hidden
        place = Position(step=place.step, revealed=True)
    return Position(step=place.step, revealed=place.revealed, swapped=swapped)


def go_to(story: Story, position: Position, *, moving: bool) -> None:
    """Put a position into the address; `moving`: what it adds may be seen to move."""
    st.session_state.wall_moves = moving
    st.query_params["step"] = story.steps.shown[position.step]
    for name, value in (("shown", position.revealed), ("swapped", position.swapped)):
        if value:
            st.query_params[name] = "yes"
        else:
            st.query_params.pop(name, None)


def leave() -> None:
    """Remove the story's step from the address."""
    for name in ("step", "shown", "swapped"):
        st.query_params.pop(name, None)


def next_story(name: str) -> str | None:
    """Return the name of the ready story after that of this name; None after the last, and for any other story."""
    names = [ready for ready in ready_stories() if ready != ON_YOUR_HUB]
    if name not in names[:-1]:
        return None
    return names[names.index(name) + 1]


def tell(name: str) -> None:
    """Put the first step of the ready story of this name into the address."""
    st.session_state.story = st.query_params["story"] = name
    story = ready_stories()[name].story
    go_to(story, start(story), moving=False)
