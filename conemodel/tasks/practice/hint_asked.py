"""A hint that is asked for in training, before the last word: how kinds of hubs feel, or where this one stands now."""

from conemodel.tasks.practice.hint_answers import FELT
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.session import Bench

LOCK_FIRST = "Lock it, and ask again: a hint tells how a locked hub comes out, closed in the frame."
NO_SETTING = "No setting of the cone makes this one right as it is: look and feel for what is wrong with it."


def hint_asked(bench: Bench) -> str:
    """Return what helps with the hub on the bench; of one that is to be named, it does not give the name away."""
    if bench.exercise.kind == "name":
        return " ".join(f"{state.capitalize()}: {felt}." for state, felt in FELT.items())
    if bench.exercise.kind == "set" and bench.hub.lock is None:
        return LOCK_FIRST
    headline = mark(bench).hubs[bench.current].headline
    return f"{headline.answer.words}." if headline.question == "adjustment" else NO_SETTING
