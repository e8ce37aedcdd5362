"""The first hub: ninety seconds with a loose, a tight and a right one, each by the same two gestures."""

from dataclasses import dataclass

import streamlit as st

from conemodel.base.table import table_of_words
from conemodel.parts.setting import State
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.hidden_hub import reference
from conemodel.ui.frame import begin_page, end_page, table
from conemodel.ui.practice.gestures import feel_with
from conemodel.ui.practice.log import set_styles, show_last_answer
from conemodel.ui.practice.session import Stand, fresh_name

FREE = "free-practice"
"""The exercise whose reference hubs these are."""


@dataclass(frozen=True)
class Lesson:
    """One hub: its state, what to do by each gesture, what it taught."""

    state: State
    title: str
    rock: str
    twirl: str
    taught: str


LESSONS = (
    Lesson(
        "loose",
        "A loose hub",
        "Rock the rim to and fro, briskly. It moves freely, then knocks.",
        "Now twirl the axle once right round. Smooth and easy.",
        "**Loose:** clamped, it moves freely and knocks; it turns smoothly.",
    ),
    Lesson(
        "tight",
        "A hub that is too tight",
        "Rock it the same way. No free movement: it springs from the start. Good? Not yet known.",
        "Twirl it: smooth, but stiff, and it stops dead. That is what rocking could not tell.",
        "**Too tight:** clamped, it does not move freely; it turns stiffly.",
    ),
    Lesson(
        "right",
        "A hub that is right",
        "Rock it the same way. No free movement, just as before.",
        "Twirl it: smooth and not stiff.",
        "**Right:** clamped, it does not move freely; it turns smoothly. It takes both gestures to know.",
    ),
)


def page() -> None:
    """Draw the page."""
    begin_page("First hub", "Ninety seconds, three wheels out of the frame, two gestures: rock and twirl.")
    set_styles()
    _lesson()
    end_page()


@st.fragment
def _lesson() -> None:
    at = int(st.session_state.setdefault("first_hub_at", 0))
    if at >= len(LESSONS):
        _end()
        return
    lesson = LESSONS[at]
    stand = _stand(lesson.state)
    stand.hear()
    felt = stand.bench.hub.felt
    rocked, twirled = felt.rocked_clamped is not None, felt.twirled_clamped is not None
    st.progress((2 * at + rocked + twirled) / (2 * len(LESSONS)), text=f"Hub {at + 1} of {len(LESSONS)}")
    st.header(lesson.title, anchor=False)
    st.caption(HOW_IT_IS_CLAMPED)
    st.markdown(f"**{2 if rocked else 1} of 2:** {lesson.twirl if rocked else lesson.rock}")
    show_last_answer(stand)
    st.button(  # stands there from the start, so that nothing moves when it can be pressed
        "What you now know" if at + 1 == len(LESSONS) else "Next hub",
        on_click=_go_to,
        args=(at + 1,),
        type="primary",
        disabled=not (rocked and twirled),
    )
    feel_with(stand, "twirl" if rocked else "rim")
    if rocked and twirled:
        st.markdown(lesson.taught)


def _stand(state: State) -> Stand:
    stands: dict[State, Stand] = st.session_state.setdefault("first_hubs", {})
    if state not in stands:
        stands[state] = Stand(name=fresh_name(), bench=reference(ladder()[FREE], state))
    return stands[state]


def _go_to(at: int) -> None:
    st.session_state.first_hub_at = at
    if at == 0:
        st.session_state.first_hubs = {}


HOW_IT_IS_CLAMPED = "Clamped on spacers: as hard as in the frame, but out of it, so you can twirl the axle."

IN_THE_FRAME = (
    "In the frame the axle cannot be twirled: spin the wheel and feel whether it runs smooth, or take it out and clamp "
    "it on spacers."
)

Taught = tuple[str, str, str]
"""A hub, and what rocking and twirling it tell."""

TAUGHT: tuple[Taught, ...] = (
    ("loose", "free movement, knock", "smooth"),
    ("too tight", "no free movement", "stiff, stops dead"),
    ("right", "no free movement", "smooth"),
)


def _end() -> None:
    """Draw what the three hubs have taught, and the way on."""
    caption = "What rocking and twirling tell of the three hubs, clamped"
    table(table_of_words(caption, ("Hub", "Rocked, clamped", "Twirled, clamped"), TAUGHT))
    st.markdown("**Clamped, rocking finds play. Only twirling finds too tight.** Always do both.")
    st.markdown(IN_THE_FRAME)
    if pages := st.session_state.get("pages"):
        st.page_link(pages["practise"], label="On to the bench: first touch", width="stretch")
    st.button("Once more", on_click=_go_to, args=(0,), width="stretch")
