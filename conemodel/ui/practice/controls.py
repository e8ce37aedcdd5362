"""What is done beside the bench: a few large buttons, with the reason where one is disabled, and the last word."""

from collections.abc import Callable, Mapping
from typing import TypeVar, get_args

import streamlit as st

from conemodel.base.units import DEG
from conemodel.parts.setting import ClampSeat, Technique
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.clamp import clamp_word
from conemodel.tasks.practice.actions.locknut import TURNED
from conemodel.tasks.practice.apply import why_not
from conemodel.tasks.practice.questions import QUESTIONS
from conemodel.tasks.wording import firm_hand
from conemodel.ui.practice.gestures import spin
from conemodel.ui.practice.say_felt import ask_for_words, say_what_was_felt
from conemodel.ui.practice.session import Stand
from conemodel.ui.practice.steps import advised_action, looks, says_place
from conemodel.ui.setting.controls import SEATS

T = TypeVar("T")

TRIMS = {3: "half a minute", 6: "1 minute", 12: "2 minutes"}
"""Sizes of a trim [°], as minutes of a clock."""

WHAT_IS_TURNED = "What is turned"


class Buttons:
    """A group of buttons, with the reasons below it why some are disabled."""

    def __init__(self, stand: Stand) -> None:
        """Start an empty group."""
        self.stand = stand
        self.barred: dict[str, list[str]] = {}

    def draw(self, label: str, action: a.Action, *, shortcut: str | None = None) -> None:
        """Draw one button over the width of its place; what is usually next stands out."""
        reason = why_not(self.stand.bench, action)
        if reason:
            self.barred.setdefault(reason, []).append(label)
        st.button(
            label,
            key=f"{self.stand.name} {label}",
            on_click=self.stand.do,
            args=(action,),
            disabled=reason is not None,
            type="primary" if reason is None and self._is_advised(action) else "secondary",
            width="stretch",
            shortcut=shortcut,
        )

    def _is_advised(self, action: a.Action) -> bool:
        refuses = isinstance(action, a.Finish) and action.refuse
        return not refuses and type(action) is advised_action(self.stand.bench)

    def row(self, *buttons: tuple[str, a.Action]) -> None:
        """Draw buttons side by side, as many to a line as have room."""
        with st.container(horizontal=True, gap="small"):
            for label, action in buttons:
                self.draw(label, action)

    def reasons(self) -> None:
        """Draw the reasons why buttons are disabled."""
        for reason, labels in self.barred.items():
            st.caption(f"{', '.join(labels)}: {reason}")


def own_buttons(stand: Stand, group: str) -> list[tuple[str, a.Action]]:
    """Return the buttons that actions of a group bring with them: what stands on each, and what it does."""
    kinds = (kind for kind in a.ACTIONS.values() if kind.group == group)
    return [button for kind in kinds for button in kind.buttons(stand.bench)]


def _switch(
    stand: Stand, label: str, words: Mapping[T, str], now: T, action: Callable[[T], a.Action]
) -> None:
    """Draw a choice that always shows the state of the bench."""
    key = f"{stand.name} {label}"

    def changed() -> None:
        wanted = st.session_state[key]
        if wanted in words and wanted != now:
            stand.do(action(wanted))

    st.session_state[key] = now
    st.segmented_control(
        label, list(words), format_func=lambda name: words[name], key=key, on_change=changed, required=True
    )


def by_hand(stand: Stand) -> None:
    """Draw what is done beside the bench without a gesture: where the clamp sits, cone and nut by finger, positions."""
    exercise = stand.bench.exercise
    if exercise.kind == "touch":
        return
    _seat(stand)
    buttons = Buttons(stand)
    if exercise.kind != "name":
        buttons.row(*own_buttons(stand, "cone"), *own_buttons(stand, "locknut"))
    buttons.row(*own_buttons(stand, "feel"))
    buttons.reasons()


def _seat(stand: Stand) -> None:
    """Ask where the clamp sits."""
    bench, what = stand.bench, clamp_word(stand.bench)
    seats: tuple[ClampSeat, ...] = get_args(ClampSeat)
    kind = bench.secret.scenario.clamp.traits
    words: dict[str, str] = {"off": "not fitted"}
    words |= {seat: SEATS[seat] for seat in kind.seats}

    def fit(name: str) -> a.Action:
        return a.FitClamp(next((seat for seat in seats if seat == name), None))

    sit = "sits" if kind.through_axle else "sit"
    _switch(stand, f"Where the {what} {sit}", words, bench.hub.seat or "off", fit)
    if not kind.through_axle:
        st.caption("Nuts press on the locknuts and may drag the cone round: check again afterwards.")


def technique_of(stand: Stand) -> Technique:
    """Return what is turned where the locknut is pulled tight, as chosen last."""
    chosen = st.session_state.get(f"{stand.name} {WHAT_IS_TURNED}")
    return chosen if chosen in TURNED else "nut turned"


def fold_of_locking(stand: Stand) -> None:
    """Draw what is seldom chosen at the locknut: what is turned, and trimming."""
    if stand.bench.exercise.kind != "set":
        return
    trims = stand.bench.exercise.number == 9
    with st.expander("Trim cone and locknut together; turn the cone onto the nut", expanded=trims):
        _pick(stand, WHAT_IS_TURNED, TURNED, "nut turned", radio=True)
        length = stand.bench.secret.scenario.assumed.spanner_length
        st.caption(f"{firm_hand(length)}: assumed, not measured here.")
        size = _pick(stand, "Trim by", {str(size): words for size, words in TRIMS.items()}, "6")
        angle = DEG.to_si(float(size))
        buttons = Buttons(stand)
        buttons.row(("Trim in (clockwise)", a.Trim(-angle)), ("Trim out", a.Trim(angle)))
        buttons.reasons()


def _pick(stand: Stand, label: str, words: Mapping[T, str], default: T, *, radio: bool = False) -> T:
    """Draw a choice that changes nothing on the bench; it is kept while other steps are shown."""
    key = f"{stand.name} {label}"
    if st.session_state.get(key) not in words:
        st.session_state[key] = default
    chosen: T | None
    if radio:
        chosen = st.radio(label, list(words), format_func=words.__getitem__, key=key, persist_state="session")
    else:
        chosen = st.segmented_control(
            label, list(words), format_func=words.__getitem__, key=key, persist_state="session", required=True
        )
    return chosen if chosen is not None and chosen in words else default


def judge(stand: Stand) -> None:
    """Ask what was felt, and draw the switch for words in its place."""
    if says_place(stand.bench.exercise):
        say_what_was_felt(stand)
    ask_for_words(stand)


def fold_of_spinning(stand: Stand) -> None:
    """Draw the wheel to be spun, if its fold is open."""
    if stand.bench.exercise.kind == "touch":
        return
    folded = st.expander("Spin the wheel", key=f"{stand.name} spinning", on_change="rerun")
    if folded.open:  # a closed fold is not sent to the browser
        with folded:
            spin(stand)


def fold_of_looking(stand: Stand) -> None:
    """Draw the inspections, and the repairs that can be made."""
    if not looks(stand.bench.exercise):
        return
    with st.expander("Look at it, put it right", expanded="protrusion first" in stand.bench.exercise.must):
        buttons = Buttons(stand)
        sights = own_buttons(stand, "look")
        for first in range(0, len(sights), 2):
            buttons.row(*sights[first : first + 2])
        buttons.row(*own_buttons(stand, "put right"))
        buttons.reasons()


def say(stand: Stand) -> None:
    """Draw the questions and the button that ends the exercise."""
    bench = stand.bench
    buttons = Buttons(stand)
    for question in bench.exercise.questions:
        if question == "name":  # that is said on the line, where it is felt
            continue
        _question(stand, buttons, question)
    if bench.exercise.kind != "name":
        if bench.exercise.rides:
            st.markdown("Say done and the wheel **is ridden as it is**.")
        buttons.draw("Done: it is right", a.Finish())
        if "refuse" in bench.exercise.questions:
            buttons.draw("I refuse it: it cannot be adjusted", a.Finish(refuse=True))
    buttons.reasons()


def _question(stand: Stand, buttons: Buttons, question: str) -> None:
    answers = {word: word for word in QUESTIONS[question].answers}
    last = stand.bench.exercise.kind == "name"
    if last:
        st.markdown(f"**{QUESTIONS[question].asked}** …")
        for word in answers:
            buttons.draw(word.capitalize(), a.Answer(question, word))
        return
    given = stand.bench.hub.answer(question)
    key = f"{stand.name} {stand.bench.current} {question}"

    def answered() -> None:
        if st.session_state[key] in answers:
            stand.do(a.Answer(question, st.session_state[key]))

    if barred := why_not(stand.bench, a.Answer(question, next(iter(answers)))):
        st.markdown(f"**{QUESTIONS[question].asked}:** {given or 'not said'}. {barred}")
        return
    st.session_state[key] = given
    st.radio(QUESTIONS[question].asked, list(answers), key=key, on_change=answered)
