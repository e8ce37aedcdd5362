"""One step of a story on the wall: large, all in the window, told by four keys."""

from functools import partial

import streamlit as st

from conemodel.base.plain_text import for_html, visible
from conemodel.parts.lesson import Staged
from conemodel.show.headline import SIGNS
from conemodel.show.lesson.html import legend, side_html, terms_html
from conemodel.show.lesson.wording import (
    ANSWER_SIGNS,
    SHORT_OPTIONS,
    answer_words,
    below_words,
    certainty_words,
    dented_words,
    shared_words,
    step_words,
)
from conemodel.show.setting.text import CAUTION
from conemodel.tasks.lesson.answers import CANNOT
from conemodel.tasks.lesson.lesson import Played, SideView, View, view_of
from conemodel.tasks.lesson.position import KEYS, Key, press
from conemodel.ui.files import offer_file
from conemodel.ui.lesson.lessons import (
    cached_story,
    go_to,
    is_in_address,
    leave,
    next_story,
    position_from_address,
    tell,
)
from conemodel.ui.lesson.projector_style import style

SHORTCUTS: dict[Key, tuple[str, str, str]] = {
    "back": ("Left", "←", "one step back"),
    "reveal": ("Up", "↑", "shows the answer"),
    "next": ("Right", "→", "goes on"),
    "swap": ("Down", "↓", "swaps the sides"),
}
"""Each key of a story: its shortcut, its sign, and what it does."""

NAMES: dict[Key, str] = {"back": "Back", "reveal": "Reveal", "next": "Next", "swap": "Swap sides"}

MOST_BESIDE_LEGEND = {"cm-say": 180, "cm-ask": 100}
"""Longer words take the legend's room on the wall: what is said by its third line, a question by its second."""

SHORT = {**SHORT_OPTIONS, CANNOT: "can't tell", "in (clockwise)": "in", "out (anticlockwise)": "out"}
"""Options where there is least room; in and out are seen from outside."""


def wall(name: str, staged: Staged) -> None:
    """Draw the step of a story that the address asks for."""
    dark = st.context.theme.type == "dark"
    told = cached_story(staged)
    view = view_of(told, position_from_address(staged.story))
    st.html(style(dark=dark))
    moving = bool(st.session_state.pop("wall_moves", False))
    with st.container(key="cm-wall"):
        st.html(
            f'<div class="cm-head"><h1>{for_html(view.title)}</h1><span>{for_html(step_words(view))}</span></div>'
        )
        for place, column in enumerate(st.columns(2, gap="medium")):
            with column:
                st.html(side_html(told, view, place, dark=dark, moving=moving))
        _below(told, view)
        for side, column in zip(view.sides, st.columns(2, gap="medium"), strict=True):
            with column:
                if view.revealed:
                    _answer(name, view, side)
                elif side.caption in view.about:
                    _hands(name, view, side)
        if view.at_end:
            st.html(f'<p class="cm-caution">{for_html(CAUTION)}</p>')
        _keys(name, staged, told, view)


def _below(told: Played, view: View) -> None:
    """Draw what a race does not stand, then the question, or what there is to say."""
    dented = f'<p class="cm-dented">{for_html(dented_words(view))}</p>' if dented_words(view) else ""
    opening = f"<p>{for_html(view.opening)}</p>" if view.at_start else ""
    kind = "cm-say" if view.revealed else "cm-ask"
    signs = legend(told, view) if len(below_words(view)) <= MOST_BESIDE_LEGEND[kind] else ""
    signs = f"<span>{for_html(signs)}</span>" if signs else ""
    said = f'<p class="{kind}">{for_html(below_words(view))}</p>' if below_words(view) else ""
    both = f"<b>{for_html(shared_words(view))}</b>" if shared_words(view) else ""
    keys = f'<p class="cm-legend">{both}{signs}</p>' if both or signs else ""
    st.html(f'<div class="cm-below" role="status">{keys}{dented}{opening}{said}</div>')


def _hand_key(name: str, view: View, side: SideView, option: str) -> str:
    return f"hands {name} {view.stage} {side.side} {option}"


def _hands(name: str, view: View, side: SideView) -> None:
    """Ask how many hands each option had."""
    with st.container(key=f"cm-hands-{side.side}"):
        st.html(f'<p class="cm-hands">Hands: {for_html(side.caption)}</p>')
        for option, column in zip(view.options, st.columns(len(view.options), gap="small"), strict=True):
            column.number_input(
                SHORT.get(option, option),
                0,
                999,
                step=1,
                key=_hand_key(name, view, side, option),
                persist_state="session",
            )


def _answer(name: str, view: View, side: SideView) -> None:
    """Draw what was right to commit to, how many hands said so, and whether the wheel may be ridden."""
    words = answer_words(side)
    if not words:
        return
    hands = {
        option: int(st.session_state.get(_hand_key(name, view, side, option), 0)) for option in view.options
    }
    right, every = hands.get(side.answer.words, 0) if side.answer else 0, sum(hands.values())
    counted = f"{right} of {every} hands" if every else ""
    sign = SIGNS["safe"] if side.unsafe else ANSWER_SIGNS[side.answer.words] if side.answer else ""
    kind = "cm-answer cm-unsafe" if side.unsafe else "cm-answer"
    why = ". ".join(filter(None, (certainty_words(side), "The wheel can come out." if side.unsafe else "")))
    whose = f'<i class="cm-whose">{for_html(side.caption)}:</i>'
    st.html(
        f'<p class="{kind}">{whose}<b>{sign} {for_html(words)}</b> {for_html(why)} <span>{counted}</span></p>'
    )


def _keys(name: str, staged: Staged, told: Played, view: View) -> None:
    """Draw the four keys and, beside them, what only the teacher wants."""
    story, now = staged.story, position_from_address(staged.story)
    useless: dict[Key, bool] = {
        "back": view.at_start,
        "reveal": view.revealed,
        "next": not view.revealed or view.at_end,
        "swap": False,
    }
    primary = "" if view.at_end else "next" if view.revealed else "reveal"
    with st.container(key="cm-keys", horizontal=True, gap="small"):
        for key in sorted(KEYS, key=list(SHORTCUTS).index):
            st.button(
                NAMES[key],
                key=f"wall-{key}",
                type="primary" if key == primary else "secondary",
                shortcut=SHORTCUTS[key][0],
                disabled=useless[key],
                on_click=go_to,
                args=(story, press(story, now, key)),
                kwargs={"moving": key in ("next", "reveal")},
            )
        following = next_story(name) if view.at_end else None
        if following is not None:
            st.button("Next story", key="wall-next-story", type="primary", on_click=tell, args=(following,))
        more = st.popover("More", key="wall-more", on_change="rerun")
        if more.open:
            with more:
                _more(staged, told, view)


def _more(staged: Staged, told: Played, view: View) -> None:
    """Draw the teacher's note once asked for, and this step to take along."""
    st.button("All stories", on_click=leave, width="stretch")
    if st.toggle("Teacher's note (holds answers)", key="wall-note"):
        for note in (staged.story.note.strip(), view.note or ""):
            if note:
                st.text(visible(note))
    dark = st.context.theme.type == "dark"
    name = f"step-{view.number}-{view.stage.replace('_', '-')}.png"
    offer_file("This step (PNG)", name, partial(_picture, told, view, dark=dark), width="stretch")
    if is_in_address():
        st.markdown("The address of this page leads to this step.")
    else:
        st.markdown("This story is too long for the address of this page: send its file along.")
    st.html(terms_html(view))


def _picture(told: Played, view: View, *, dark: bool) -> bytes:
    from conemodel.show.lesson.slide import DPI, step_figure  # loads matplotlib, so only when needed
    from conemodel.show.paper.files import to_png

    return to_png(step_figure(told, view, dark=dark), dpi=DPI)
