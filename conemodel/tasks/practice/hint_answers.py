"""Hints on answers: what the hand was told, or could have been, that gives the right one."""

from conemodel.tasks.practice.history import History
from conemodel.tasks.practice.outcome import state_as_it_came

FELT = {
    "loose": "rocked clamped it moves freely and then stops: that is play",
    "right": "rocked clamped it springs from the start, so no play, and it twirls smooth and not stiff",
    "tight": "rocked clamped it springs from the start, as a right one does, but it twirls stiff",
}
"""How a hub that is loose, right or tight feels."""

FLEX = "rocked clamped it springs from the start: that is the wheel, not the hub"

ANSWERS = {
    "foretell": "the nut pushes the cone in through its thread's slack, so it comes out tighter",
    "why": "nobody held the cone, and it turned in with the locknut",
    "recheck": "new grease spreads and faces bed in: look again after the first ride and within about 100 km",
}
"""Why the right answer is right, by the question."""


def hint_answer(history: History, question: str) -> str:
    """Return the hint on a question that was answered wrong or not at all."""
    said = history.hub.answer(question)
    why = _why(history, question)
    if said and question == "name":
        return f"You said {said}. It was {state_as_it_came(history.secret)}: {why}."
    return f"You said {said}, but {why}." if said else f"You gave no answer. {why[:1].upper()}{why[1:]}."


def _why(history: History, question: str) -> str:
    """Return why the right answer is right."""
    if question == "name":
        return FELT[state_as_it_came(history.secret)]
    if question == "flex":
        return FELT["loose"] if state_as_it_came(history.secret) == "loose" else FLEX
    return ANSWERS[question]
