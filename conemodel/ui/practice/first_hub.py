"""The first hub: ninety seconds with a loose, a tight and a right one, each by the same two gestures."""

from dataclasses import dataclass

import streamlit as st

from conemodel.base.table import table_of_words
from conemodel.parts.setting import State
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.judge import state_said
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.hidden_hub import reference
from conemodel.ui.frame import begin_page, end_page, table
from conemodel.ui.practice.bench import FEELING, work_with
from conemodel.ui.practice.log import set_styles
from conemodel.ui.practice.session import Stand, fresh_name

FREE = "free-practice"
"""The exercise whose reference hubs these are."""


ROCK = "Rock the rim to and fro, slowly, then briskly. Does it move before it springs? Does it knock?"
SLOW = "That was slow, and a slow hand makes no knock. Once more, briskly."
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
"""What stands over a hub until it is said what it is."""

ANSWERS: dict[State, tuple[str, float]] = {
    "loose": ("Loose", -0.7),
    "right": ("Right", 0.0),
    "tight": ("Too tight", 0.7),
}
"""What can be said of a hub: its words, and its place on the line from loose to tight."""


def page() -> None:
    """Draw the page."""
    begin_page("First hub", "Ninety seconds, three wheels out of the frame, two gestures: rock and twirl.")
    set_styles()
    _lesson()
    end_page()


@st.fragment
def _lesson() -> None:
    at = _hub_now()
    if at >= len(LESSONS):
        _end()
        return
    lesson = LESSONS[at]
    stand = _stand(lesson.state)
    stand.hear()
    judged = stand.bench.hub.judged
    found = (_rocked_briskly(stand), stand.bench.hub.felt.twirled_clamped is not None, judged is not None)
    st.progress((3 * at + sum(found)) / (3 * len(LESSONS)), text=f"Hub {at + 1} of {len(LESSONS)}")
    st.header(UNKNOWN if judged is None else lesson.title, anchor=False)
    st.caption(f"{HOW_IT_IS_CLAMPED} {IN_THE_FRAME}")
    if judged is None:
        st.markdown(_next_words(stand, *found[:2]))
    else:
        said = state_said(judged[0])
        heard = "So you said." if said == lesson.state else f"You said: {ANSWERS[said][0].lower()}."
        st.markdown(f"{heard} {lesson.taught}")
    work_with(stand, FEELING)
    _ask(stand, ready=all(found[:2]) and judged is None)
    st.button(  # stands there from the start, so that nothing moves when it can be pressed
        "What you now know" if at + 1 == len(LESSONS) else "Next hub",
        on_click=_go_to,
        args=(at + 1,),
        type="primary",
        disabled=judged is None,
    )


def _next_words(stand: Stand, rocked: bool, twirled: bool) -> str:
    """Return what is to be done with a hub before it is told what it was."""
    if rocked and twirled:
        return "**3 of 3:** What is it? Say so below; then comes the answer."
    if rocked:
        return f"**2 of 3:** {TWIRL}"
    slow = any(event.kind == "Rock" for event in stand.bench.log)
    return f"**1 of 3:** {SLOW if slow else ROCK}"


def _rocked_briskly(stand: Stand) -> bool:
    """Return whether it was rocked as briskly as a knock needs."""
    return any(event.action == a.Rock("rim", brisk=True).words for event in stand.bench.log)


def _ask(stand: Stand, *, ready: bool) -> None:
    """Draw the three answers; they can be given once both gestures were made."""
    for column, (words, mark) in zip(st.columns(len(ANSWERS)), ANSWERS.values(), strict=True):
        action = a.Judge(mark, None)
        column.button(words, on_click=stand.do, args=(action,), disabled=not ready, width="stretch")


def _hub_now() -> int:
    """Return which hub it is, from 0; the address keeps it, so that a page loaded again goes on there."""
    if "first_hub_at" not in st.session_state:
        asked = st.query_params.get("at", "")
        known = {str(number + 1): number for number in range(len(LESSONS) + 1)}
        st.session_state.first_hub_at = known.get(asked, 0)
    at = int(st.session_state.first_hub_at)
    st.query_params["at"] = str(at + 1)
    return at


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
