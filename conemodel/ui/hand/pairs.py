"""One pair after another in the hand: take either hub, feel it, and say which has more."""

from collections.abc import Mapping
from functools import lru_cache
from math import ceil
from typing import Any

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.record.database import Database
from conemodel.record.hand_sittings import Sitting, find_sitting, keep_answer
from conemodel.show.instrument.hand_plates import Gesture, gesture_json
from conemodel.tasks.hand.felt_hub import FeltHub, felt_hub
from conemodel.tasks.hand.kinds import Kind
from conemodel.tasks.hand.pairs import Pair, next_pair
from conemodel.tasks.hand.procedure import PAIRS, Answer
from conemodel.ui.choose_hub import ready_hubs
from conemodel.ui.files import say_problems
from conemodel.ui.hand.session import PROBLEM
from conemodel.ui.own_hub import FIRST_HUB
from conemodel.ui.widgets.contract_rock import RockCurve, RockFelt, RockHand
from conemodel.ui.widgets.contract_twirl import TwirlCurve, TwirlFelt, TwirlHand
from conemodel.ui.widgets.mount import rock_wheel, twirl_axle

HUBS = ("A", "B")

A_PAIR = 12.0
"""How long a pair takes [s]: both hubs felt, and the answer given. An assumption."""

MAGNIFICATION = 20.0
"""How much movement is enlarged in the picture [-], so that play a hand just feels is play an eye just sees."""

FINGERS = TwirlHand(slip=0.12)
"""Fingers that do not slip on the tightest hub; the same for both hubs of a pair, else their lag would say
nothing of the torque."""

LEAST_TWIRL = 1.0
"""Turn of the axle from which a hub counts as felt [rad]: less than a sixth of a turn tells nothing."""

FEEL_BOTH = "Feel both, then say which."
"""Why the answers are grey at first."""

SAID = "Felt."
"""What a widget says of either hub, whatever it is like."""


@lru_cache(maxsize=1)
def hub_in_hand() -> FeltHub:
    """Return the hub that is put into the hand."""
    return felt_hub(ready_hubs()[FIRST_HUB])


@lru_cache(maxsize=2)
def drawing_in_hand(gesture: Gesture) -> Mapping[str, Any]:
    """Return the hub as it is drawn, clamped, in the view of a gesture; both hubs of a pair are drawn alike."""
    return gesture_json(ready_hubs()[FIRST_HUB], gesture, stands="closed", nut_off=False)


@st.fragment
def ask_pairs(number: int) -> None:
    """Draw the pair to be felt next in a sitting; a gesture or an answer reruns only this."""
    sitting = find_sitting(number, Database())
    pair = next_pair(sitting.kind, sitting.answers, seed=sitting.id) if sitting else None
    if sitting is None or pair is None:
        st.rerun()
    if problem := st.session_state.pop(PROBLEM, None):
        say_problems("That answer could not be kept. The pair stands as it was: answer it again.", problem)
    left = minutes_for(PAIRS - pair.number)
    st.progress(
        pair.number / PAIRS, text=f"Pair {pair.number + 1} of {PAIRS}, some {left} min left. {FEEL_BOTH}"
    )
    with st.container(key="cm-hand"):
        st.header(sitting.kind.question, anchor=False)
    above = st.container(gap="small")
    at = int(st.session_state.setdefault(_place(sitting, pair), 0))
    felt: set[int] = st.session_state.setdefault(f"{_place(sitting, pair)} felt", set())
    if _feel(
        sitting.kind, (pair.first, pair.second)[at], key=f"hand {sitting.id}", set_id=2 * pair.number + at
    ):
        felt.add(at)
    with above:
        _draw_buttons(sitting, pair, at, felt)
    st.caption("Too close to tell? Say what comes first: the procedure counts on such pairs too.")


def minutes_for(pairs: int) -> int:
    """Return how many minutes pairs take, begun ones counted whole.

    >>> minutes_for(40), minutes_for(1)
    (8, 1)
    """
    return ceil(pairs * A_PAIR / 60)


def _place(sitting: Sitting, pair: Pair) -> str:
    return f"hand {sitting.id} pair {pair.number}"


def _draw_buttons(sitting: Sitting, pair: Pair, at: int, felt: set[int]) -> None:
    """Draw which hub is in the hand, and the two answers; both hubs are felt before either can be given."""
    with st.container(horizontal=True, key="cm-take"):
        for hub, name in enumerate(HUBS):
            st.button(
                f"Hub {name}: {'felt' if hub in felt else 'feel it'}",
                key=f"take {name}",
                on_click=_take,
                args=(_place(sitting, pair), hub),
                type="primary" if hub == at else "secondary",
                help="in the hand" if hub == at else None,
                shortcut=name.lower(),
                width="stretch",
            )
    with st.container(horizontal=True, key="cm-answer"):
        for hub, name in enumerate(HUBS):
            st.button(
                f"{name} {sitting.kind.more}",
                key=f"answer {name}",
                on_click=_answer,
                args=(sitting, Answer(difference=pair.difference, second=hub == 1)),
                disabled=len(felt) < len(HUBS),
                shortcut=str(hub + 1),
                width="stretch",
            )


def _take(place: str, hub: int) -> None:
    st.session_state[place] = hub


def _answer(sitting: Sitting, answer: Answer) -> None:
    try:
        keep_answer(sitting, answer, Database())
    except ConemodelError as error:
        st.session_state[PROBLEM] = error


def _feel(kind: Kind, level: float, *, key: str, set_id: int) -> bool:
    """Draw the widget with one hub in it; return whether that hub was felt."""
    if kind.name == "play":
        hub = hub_in_hand()
        movement, force = hub.rocking(level)
        rocked = rock_wheel(
            key=key,
            drawing=drawing_in_hand("rim"),
            curve=RockCurve(movement=movement, force=force),
            felt=RockFelt(slow=SAID, quick=SAID),
            hand=RockHand(mass=hub.mass, flex=hub.flex, felt_from=0.0),
            magnification=MAGNIFICATION,
            set_id=set_id,
        )
        return rocked is not None and rocked.set_id == set_id and rocked.cycles > 0
    twirled = twirl_axle(
        key=key,
        drawing=drawing_in_hand("twirl"),
        curve=TwirlCurve(friction=(level, level)),
        felt=TwirlFelt(turning=SAID, let_go=""),
        hand=FINGERS,
        set_id=set_id,
    )
    return twirled is not None and twirled.set_id == set_id and abs(twirled.turned) > LEAST_TWIRL
