"""The questions an exercise can ask: their words, the answers to choose from, when they can be put, what is right."""

from collections.abc import Callable
from dataclasses import dataclass

from conemodel.tasks.practice.outcome import state_as_it_came
from conemodel.tasks.practice.session import HiddenHub, HubState


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question.

    Attributes:
        asked: as it is put, its answer to follow; logged: an answer as the log has it, with a place for its word.
        answers: to choose from.
        right: the right answer about a hub.
        not_now: why it is too early or too late to answer, or None.
    """

    asked: str
    logged: str
    answers: tuple[str, ...]
    right: Callable[[HiddenHub], str]
    not_now: Callable[[HubState], str | None] = lambda _: None


def right_answer(secret: HiddenHub, question: str) -> str:
    """Return the right answer to a question about a hub."""
    return QUESTIONS[question].right(secret)


def _not_felt(hub: HubState) -> str | None:
    if hub.felt.rocked_clamped is None or hub.felt.twirled_clamped is None:
        return "Rock it and twirl it a full turn first, clamped: rocking cannot tell right from too tight."
    return None


def _not_rocked(hub: HubState) -> str | None:
    return "Rock it first, clamped." if hub.felt.rocked_clamped is None else None


def _locked_before(hub: HubState) -> str | None:
    return "It has been locked already: too late to say what locking will do." if hub.locks else None


SOUND = "only the adjustment"
"""What is wrong with a hub that a setting of the cone makes right."""

QUESTIONS = {
    "name": Question(
        asked="This hub is",
        logged="called {}",
        answers=("loose", "right", "tight"),
        right=state_as_it_came,
        not_now=_not_felt,
    ),
    "flex": Question(
        asked="What moves at the rim is",
        logged="said what moves at the rim: {}",
        answers=("play", "flex"),
        right=lambda secret: "play" if state_as_it_came(secret) == "loose" else "flex",
        not_now=_not_rocked,
    ),
    "foretell": Question(
        asked="Locking will make it",
        logged="said what locking will make it: {}",
        answers=("tighter", "looser", "the same"),
        right=lambda _: "tighter",
        not_now=_locked_before,
    ),
    "why": Question(
        asked="It went tight because",
        logged="said why it went tight: {}",
        answers=(
            "the cone turned in with the locknut",
            "the thread slack was taken up",
            "the clamp took it up",
        ),
        right=lambda _: "the cone turned in with the locknut",
    ),
    "fault": Question(
        asked="What is wrong with it",
        logged="said what is wrong: {}",
        answers=("bent axle", "dents", "dry grease", "odd ball", SOUND),
        right=lambda secret: SOUND if secret.fault == "none" else secret.fault,
    ),
    "refuse": Question(
        asked="If it cannot be adjusted: why",
        logged="said why it cannot be adjusted: {}",
        answers=("the thread is worn out", "the axle is bent", "the races are dented"),
        right=lambda _: "the thread is worn out",
    ),
    "recheck": Question(
        asked="Look at it again",
        logged="said when to look at it again: {}",
        answers=(
            "after the first ride and within about 100 km",
            "at the next yearly service",
            "only if it makes a noise",
        ),
        right=lambda _: "after the first ride and within about 100 km",
    ),
}
"""The questions there are, by the names exercises have for them."""
