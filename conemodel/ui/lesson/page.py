"""Demonstrate: choose a story, then tell it on the wall."""

from functools import partial

import streamlit as st

from conemodel.base.plain_text import for_page, visible
from conemodel.parts.lesson import Staged
from conemodel.parts.toml_files import write_part
from conemodel.tasks.lesson.position import KEYS, start
from conemodel.ui.choose_hub import choose_hub, keep_travelling_hub
from conemodel.ui.files import offer_file
from conemodel.ui.frame import begin_page, end_page
from conemodel.ui.lesson.lessons import cached_story, choose_story, go_to, is_on_your_hub, story_from_address
from conemodel.ui.lesson.projector import SHORTCUTS, wall
from conemodel.ui.own_hub import say_lost_hub

HANDOUTS = (
    ("Handout to fill in (PDF)", "to-fill-in", False),
    ("Handout with answers (PDF)", "answers", True),
)
"""What each handout is called on its button and in its file's name, and whether it holds answers."""


def page() -> None:
    """Draw the wall where the address asks for a step of a story, else the choice of stories."""
    told = story_from_address()
    if told is not None:
        wall(*told)
        return
    begin_page(
        "Demonstrate",
        "Two hubs or settings side by side, step by step, for a class before a projector. Before each answer the class "
        "commits: in, out, or leave it. Nothing still to be guessed is on the page.",
    )
    say_lost_hub()
    staged = choose_story()
    if is_on_your_hub():
        with st.container(horizontal=True, vertical_alignment="bottom", key="cm-settled"):
            choose_hub()
    else:
        keep_travelling_hub(chosen=False)
    _story(staged)
    end_page()


def _story(staged: Staged) -> None:
    """Draw what a story is about, and how to begin."""
    story = staged.story
    st.button(  # above the words, whose length differs, so that another story leaves it where it is
        "Show it",
        on_click=lambda: go_to(story, start(story), moving=False),
        type="primary",
        help="Fills the window. F11 takes the browser's own bars away.",
    )
    with st.container(border=True):
        st.header(for_page(story.title), anchor=False)
        st.text(visible(story.opening.strip()))
        st.markdown(f"**{for_page(story.left.caption)}** and **{for_page(story.right.caption)}**")
        st.markdown(
            "Four keys tell the whole story: "
            + ", ".join(f"**{SHORTCUTS[key][1]}** {SHORTCUTS[key][2]}" for key in KEYS)
            + ". The buttons below the story do the same."
        )
    with st.expander("For the teacher: what to draw out (holds answers)"):
        st.text(visible(story.note.strip()) or "Nothing is noted.")
    _handouts(staged)


def _handouts(staged: Staged) -> None:
    """Offer the story as sheets and as a file to write one's own from."""
    with st.container(horizontal=True):
        for label, name, answers in HANDOUTS:
            offer_file(label, f"handout-{name}.pdf", partial(_handout, staged, answers=answers))
        offer_file("This story (TOML)", "story.toml", lambda: write_part(staged.story))


def _handout(staged: Staged, *, answers: bool) -> bytes:
    from conemodel.show.lesson.handout import handout_figure  # loads matplotlib, so only when needed
    from conemodel.show.paper.files import to_pdf

    return to_pdf(handout_figure(cached_story(staged), answers=answers))
