"""Many hubs: how often a fixed back-off lands in the good range, over a stated population."""

import time
from dataclasses import dataclass

import streamlit as st

from conemodel.base.units import DEG
from conemodel.parts.crowd import Crowd
from conemodel.show.population.wording import turn_words
from conemodel.tasks.population.sobol import Influence, what_matters
from conemodel.tasks.population.study import ManyHubs, many_hubs
from conemodel.ui.background_job import Kept, Progress, Stop, Work
from conemodel.ui.frame import begin_page, end_page, say_no_answer
from conemodel.ui.population.choose import choose_crowd, show_assumptions
from conemodel.ui.population.result import show_study
from conemodel.ui.url_state import choice, number

NUMBERS = {
    "10000": "10,000: at once",
    "100000": "100,000",
    "1000000": "1,000,000: some seconds",
    "10000000": "10,000,000: a minute or more",
}
"""How many hubs can be drawn; the command line takes any number."""

LEAST_OUT, MOST_OUT, MOST_SEED = -60.0, 240.0, 99_999.0
"""Ends of the back-off slider [°], and of the seeds."""

STUDY_SHARE = 0.95
"""How much of the progress bar is the study; what matters most takes the rest."""

POLL = 0.4
"""How often the page asks how far the work is [s]."""

STYLE = """
<style>
.st-key-cm-headline p {font-size: var(--cm-value); font-weight: 600; line-height: 1.35}
</style>
"""

Answer = tuple[ManyHubs, tuple[Influence, ...]]

KEPT: Kept[Answer] = Kept(32)
"""Answers by what was asked, for everybody: same seed, same numbers."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A study that is asked for: `crowd`, `hubs`, `seed`, and `back_off` [rad]."""

    crowd: Crowd
    hubs: int
    seed: int
    back_off: float


def page() -> None:
    """Draw the page."""
    begin_page(
        "Many hubs",
        "“Back off a quarter turn”: over a whole population of hubs, threads, clamps and hands, how often does that "
        "land in the good range?",
    )
    st.html(STYLE)
    asking, told = st.columns([1, 2], gap="large")
    with asking:
        asked = _ask_study()
    with told:
        _show_answer(asked)
    show_assumptions(asked.crowd)
    end_page()


def _ask_study() -> Asked:
    """Draw the controls and return what they ask for."""
    crowd = choose_crowd()
    out = number(
        st.slider,
        "Cone turned out from finger contact",
        LEAST_OUT,
        MOST_OUT,
        key="many_out",
        default=round(DEG.from_si(crowd.population.hands.back_off)),
        step=1.0,
        format="%d°",
        help="The same for every hub; each hand misses it by its own error.",
    )
    st.caption(turn_words(DEG.to_si(out)))
    hubs = choice(st.selectbox, "Hubs", NUMBERS, key="many_hubs", default="100000")
    seed = number(
        st.number_input,
        "Seed",
        0.0,
        MOST_SEED,
        key="many_seed",
        default=1.0,
        step=1.0,
        format="%.0f",
        help="The same seed gives the same numbers, here and on the command line.",
    )
    return Asked(crowd, int(hubs), int(seed), DEG.to_si(out))


def _show_answer(asked: Asked) -> None:
    """Draw the answer, or the progress below the last answer."""
    found = KEPT.get(asked)
    if found is None:
        _work_on(asked)
        found = KEPT.get(st.session_state.get("many_last"))
        if found is None:
            return
        st.caption("Below: the last study that was finished. Its own numbers stand in its sentence.")
    else:
        st.session_state.many_last = asked
    show_study(*found)


def _work_on(asked: Asked) -> None:
    """Start the study if it is not running, and draw its progress."""
    work: Work[Answer] | None = st.session_state.get("many_work")
    if work is None or work.asked != asked:
        if work is not None:
            work.cancel()
        work = st.session_state.many_work = Work(asked, KEPT)
        work.start(lambda tell, stop: _study(asked, tell, stop))
    if not work.finished:
        _wait()
        return
    if work.error:
        say_no_answer(work.error)
    elif work.cancelled:
        st.info("Stopped. What you entered is still there.")
    st.button("Work it out", on_click=lambda: st.session_state.pop("many_work", None))


def _study(asked: Asked, tell: Progress, stop: Stop) -> Answer:
    """Return the whole answer; runs beside the page."""
    study = many_hubs(
        asked.crowd,
        hubs=asked.hubs,
        seed=asked.seed,
        back_off=asked.back_off,
        progress=lambda done: tell(STUDY_SHARE * done),
        stop=stop,
    )
    return study, what_matters(asked.crowd, seed=asked.seed, back_off=asked.back_off, stop=stop)


@st.fragment(run_every=POLL)
def _wait() -> None:
    """Draw the progress repeatedly; only this part of the page runs meanwhile."""
    work: Work[Answer] = st.session_state.many_work
    if work.finished:
        st.rerun()
    work.seen = time.monotonic()
    words = f"{work.done:.0%} of the hubs worked out" if work.begun else "Waiting for another study to end"
    st.progress(work.done, text="Stopping …" if work.cancelled else words)
    st.button("Cancel", on_click=work.cancel, disabled=work.cancelled, key="many-cancel")
