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


ROCK = "Rock the rim to and fro, slowly, then briskly. Does it move before it springs? Does it knock?"
TWIRL = (
    "Now twirl the axle once right round and let go. How far does it lag behind your fingers? Does it run on?"
)


@dataclass(frozen=True)
class Lesson:
    """One hub: its state, what it is called once both gestures are made, and what they taught."""

    state: State
    title: str
    taught: str


LESSONS = (
    Lesson(
        "loose",
        "That was a loose hub",
        "**Loose:** clamped, it moves freely and knocks; it turns smoothly.",
    ),
    Lesson(
        "tight",
        "That was a hub that is too tight",
        "**Too tight:** clamped, it does not move freely; it turns stiffly. Rocking alone could not tell.",
    ),
    Lesson(
        "right",
        "That was a hub that is right",
        "**Right:** clamped, it does not move freely; it turns smoothly. It takes both gestures to know.",
    ),
)
UNKNOWN = "Loose, right or too tight?"
"""What stands over a hub until the hand has found it."""


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
    st.header(lesson.title if rocked and twirled else UNKNOWN, anchor=False)
    st.caption(f"{HOW_IT_IS_CLAMPED} {IN_THE_FRAME}")
    if rocked and twirled:
        st.markdown(lesson.taught)
    else:
        st.markdown(f"**{2 if rocked else 1} of 2:** {TWIRL if rocked else ROCK}")
    show_last_answer(stand)
    st.button(  # stands there from the start, so that nothing moves when it can be pressed
        "What you now know" if at + 1 == len(LESSONS) else "Next hub",
        on_click=_go_to,
        args=(at + 1,),
        type="primary",
        disabled=not (rocked and twirled),
    )
    feel_with(stand, "twirl" if rocked else "rim")


def _stand(state: State) -> Stand:
    stands: dict[State, Stand] = st.session_state.setdefault("first_hubs", {})
    if state not in stands:
        stands[state] = Stand(name=fresh_name(), bench=reference(ladder()[FREE], state))
    return stands[state]


def _go_to(at: int) -> None:
    st.session_state.first_hub_at = at
    if at == 0:
        st.session_state.first_hubs = {}


HOW_IT_IS_CLAMPED = "Clamped on spacers in place of the frame, lever shut: as hard as it would be ridden."

IN_THE_FRAME = (
    "In the frame the axle cannot be twirled: spin the wheel, or take it out and clamp it on spacers."
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
        first = {"exercise": next(iter(ladder()))}
        st.page_link(
            pages["practise"], label="On to the bench: first touch", width="stretch", query_params=first
        )
    st.button("Once more", on_click=_go_to, args=(0,), width="stretch")
