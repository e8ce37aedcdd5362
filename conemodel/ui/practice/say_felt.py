"""Where a hand says what it felt: a mark on the line from loose over right to tight, and how sure; words come after."""

from typing import get_args

import streamlit as st

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.judge import Sure, line_words
from conemodel.tasks.practice.apply import why_not
from conemodel.ui.practice.session import Stand

MARKS = 10
"""Places on the line to either side of its middle."""

UNMARKED = MARKS + 1
"""Where the line stands until it is marked: in its middle, and no answer."""

PLACES = (*range(-MARKS, 0), UNMARKED, *range(MARKS + 1))
NOT_MARKED = "Mark on the line what it is: it stands unmarked."

IN_WORDS = "Say what is felt in words"
FOR_WHOM = (
    "For who cannot use picture, sound or vibration. The words are as uncertain as the hand; the record says that they "
    "were asked for."
)

WHY_LAST = (
    "**Feel first, words last.** While you feel, there is movement, lag, sound and vibration, and no word. Reviews of "
    "how hands learn a procedure found feedback at the end better than feedback meanwhile (Sattelmayer and others, BMC "
    "Medical Education 16, 2016), and practice spaced, mixed and as hard as one can just manage (Spruit and others, "
    "Psychological Research 78, 2014); neither was about hubs. Your hand on this bench is never exact: it misses a "
    "little otherwise each time, and a little the same way for as long as you sit."
)


def say_what_was_felt(stand: Stand) -> None:
    """Draw the line and, once it is said how sure, the button; what is said of a hub to be named is its name."""
    bench = stand.bench
    key = f"{stand.name} {bench.current} judged"
    mark = st.select_slider(
        "It feels: loose ← right → tight",
        PLACES,
        value=UNMARKED,
        format_func=lambda at: "not marked yet" if at == UNMARKED else line_words(at / MARKS),
        key=f"{key} mark",
    )
    sure: Sure | None = st.segmented_control("How sure", get_args(Sure), key=f"{key} sure")
    said = a.Judge(0.0 if mark == UNMARKED else mark / MARKS, sure)
    reason = why_not(bench, said) or (NOT_MARKED if mark == UNMARKED else None)
    st.button(
        "That is what I felt",
        key=f"{key} said",
        on_click=stand.do,
        args=(said,),
        disabled=reason is not None or sure is None,
        type="secondary" if reason or sure is None else "primary",
        width="stretch",
    )
    if reason or sure is None:
        st.caption(reason or "Say how sure you are, too.")


def ask_for_words(stand: Stand) -> None:
    """Draw the switch for who needs words in place of picture, sound and vibration."""
    key = f"{stand.name} in words"

    def changed() -> None:
        stand.do(a.InWords(bool(st.session_state[key])))

    st.session_state[key] = stand.bench.words
    st.toggle(IN_WORDS, key=key, on_change=changed, help=FOR_WHOM)
    with st.popover("Why no words while I feel?"):
        st.markdown(WHY_LAST)
