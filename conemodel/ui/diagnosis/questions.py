"""The questions of Check a hub: three answers first, then what else could rock, then all that can be measured."""

from collections.abc import Callable

import streamlit as st

from conemodel.parts.clamp_kinds import CLAMP_KINDS
from conemodel.parts.felt_play import EARLIER_WORDS, PLAY_WORDS
from conemodel.parts.known_scenario import is_front
from conemodel.parts.scenario import Scenario
from conemodel.tasks.diagnosis.looks import ASKED_FIRST
from conemodel.tasks.diagnosis.readings.reading import WHEEL_OUT
from conemodel.ui.choose_hub import keep_travelling_hub, say_known, travelling_hub
from conemodel.ui.diagnosis.entries import NOT_LOOKED, QUICK, value_of
from conemodel.ui.diagnosis.fields import ask_balls, ask_looks, ask_marked, ask_readings, ask_sizes
from conemodel.ui.my_hub.form import offer_my_hub
from conemodel.ui.own_hub import OWN, say_lost_hub
from conemodel.ui.setting.unmeasured import in_ranges
from conemodel.ui.url_state import choice

HAND: dict[str, str] = {NOT_LOOKED: "not felt", **{word: word for word in PLAY_WORDS}}
TURNS = {
    NOT_LOOKED: "not felt",
    "free": "free",
    "tight": "tight",
    "gritty": "gritty",
    "notchy": "notchy",
    "tight in one place": "tight in one place",
}
CLAMPS = {
    NOT_LOOKED: "not said",
    **{name: kind.words for name, kind in CLAMP_KINDS.items()},
}
ANSWERS = {NOT_LOOKED: "not looked", "no": "no", "yes": "yes"}

FREEHUB = "freehub_rocks"
"""The look that no front hub is asked for: it has no freehub."""

TAKEN = "checked_own"
"""Where the own hub is kept that was chosen here by itself, so that another choice stays."""

QUESTIONS = {
    "found.rim_open.hand": (
        "Wheel **out**, clamp **open**: play?",
        HAND,
        f"{WHEEL_OUT} Hold the axle by its ends and push and pull the rim at three and nine o'clock. Play is free "
        "movement that ends in a knock; springy give is not.",
    ),
    "found.rim_closed.hand": (
        "Rim rocked, clamp **closed**: play?",
        HAND,
        f"Wheel in the frame and held as for riding ({', '.join(kind.words for kind in CLAMP_KINDS.values())}): "
        "push and pull the rim at three and nine o'clock while holding the frame.",
    ),
    "found.turns_closed": (
        "Clamped, how does it turn?",
        TURNS,
        "Turn the wheel slowly by hand, or the axle in the fingers. Gritty is irregular, notchy catches at even "
        "steps (dents at ball spacing), tight in one place grabs once a turn.",
    ),
    "clamp": ("What holds the wheel?", CLAMPS, "It decides whether closing it takes up any play."),
}

MORE: dict[str, tuple[str, Callable[[], None]]] = {
    "play": ("Play by gauge or ruler, at the rim and at the axle", lambda: ask_readings("play", "found.")),
    "turning": ("How the axle turns in the fingers, and drag", lambda: ask_readings("turning", "found.")),
    "balls": ("Balls and their pitch circle", ask_balls),
    "sizes": ("Axle, dropouts, thread", ask_sizes),
    "looks": ("Found by taking it apart", ask_looks),
    "marked": ("Where the cone stood, if marked", ask_marked),
}
"""Readings that lie folded away."""


def ask_quick() -> dict[str, str]:
    """Draw the three questions and what holds the wheel; return what was answered, by field."""
    found = {}
    for field, asked in QUESTIONS.items():
        measured = value_of(field.removesuffix(".hand") + ".play")
        found[field] = _pills(field, *asked, disabled=measured is not None)
        say_measured(measured)
    return _drop_not_looked(found)


def ask_confounders() -> dict[str, str]:
    """Draw what else could rock; return what was answered, by field."""
    found = {}
    for name, look in ASKED_FIRST.items():
        if name == FREEHUB and _chosen_is_front() and _answer(name) == NOT_LOOKED:
            continue
        found[f"checks.{name}"] = _pills(f"checks.{name}", look.asked, ANSWERS, look.hint)
    return _drop_not_looked(found)


def say_measured(play: float | None) -> None:
    """Say below the words for a play that the play measured [mm] counts, if there is one."""
    if play is not None:
        st.caption(
            f"**{play:g} mm measured: that counts, not the word.** Empty the measurement to use a word."
        )


def _pills(field: str, label: str, options: dict[str, str], help_text: str, *, disabled: bool = False) -> str:
    link = st.query_params.get(QUICK[field])
    if link in EARLIER_WORDS:
        st.query_params[QUICK[field]] = EARLIER_WORDS[link]
    return choice(
        st.pills,
        label,
        options,
        key=QUICK[field],
        default=NOT_LOOKED,
        required=True,
        wrap=True,
        help=help_text,
        disabled=disabled,
    )


def _drop_not_looked(found: dict[str, str]) -> dict[str, str]:
    return {field: answer for field, answer in found.items() if answer != NOT_LOOKED}


def ask_more() -> None:
    """Draw every further reading, folded away; what is folded is not drawn, and keeps what was entered."""
    st.header("More readings", anchor=False)
    st.caption("All optional. Next to each: how far out it may be (±). Left empty, the usual value is used.")
    with st.container(gap="xsmall"):
        for name, (title, draw) in MORE.items():
            folded = st.expander(title, key=f"check_{name}", on_change="rerun")
            if folded.open:
                with folded:
                    draw()


def take_own_hub() -> None:
    """Choose a hub that somebody entered, once it is new here, and take it at its word what holds the wheel.

    A link that says itself for which hub it was worked out is left as it is.
    """
    hub = travelling_hub()
    if st.session_state.hub != OWN or st.session_state.get(TAKEN) == hub:
        return
    before: Scenario | None = st.session_state.get(TAKEN)
    st.session_state[TAKEN] = hub
    if before is None and "checked_as" in st.query_params:
        return
    _work_out_for_mine()
    held_by = QUICK["clamp"]
    now = st.session_state.get(held_by, st.query_params.get(held_by, NOT_LOOKED))
    if now in (NOT_LOOKED, before and before.clamp.kind):
        st.session_state[held_by] = hub.clamp.kind


def ask_hub() -> Scenario | None:
    """Draw which hub it is worked out for; None is a usual one."""
    say_lost_hub()
    travelling = in_ranges(travelling_hub())
    options = {
        "usual": "a usual hub, front or rear by its width",
        "same": f"the hub of the other screens: {travelling.name}",
    }
    chosen = choice(
        st.radio,
        "Worked out for",
        options,
        key="checked_as",
        default="usual",
        help="What you measured counts in either case.",
    )
    keep_travelling_hub(chosen=chosen == "same")
    offer_my_hub(travelling_hub(), used=_work_out_for_mine)
    if chosen == "same":
        say_known(travelling)
    return travelling if chosen == "same" else None


def _work_out_for_mine() -> None:
    st.session_state.checked_as = "same"


def unanswered(scenario: Scenario) -> list[str]:
    """Return what else could rock on a hub and was not looked at, in words."""
    return [
        look.place
        for name, look in ASKED_FIRST.items()
        if _answer(name) == NOT_LOOKED and not (name == FREEHUB and is_front(scenario))
    ]


def _answer(name: str) -> str:
    """Return the answer given to what else could rock."""
    field = QUICK[f"checks.{name}"]
    return str(st.session_state.get(field, st.query_params.get(field, NOT_LOOKED)))


def _chosen_is_front() -> bool:
    """Return whether the hub of the other screens is chosen here, and is a front one."""
    chosen = st.session_state.get("checked_as", st.query_params.get("checked_as"))
    return chosen == "same" and is_front(travelling_hub())
