"""One action at the bench: the bench before in, the bench after out, and a line of the log either way."""

from dataclasses import replace

from conemodel.tasks.practice.actions import Action
from conemodel.tasks.practice.session import Bench, Event


def act(bench: Bench, action: Action) -> Bench:
    """Return the bench after an action. One that cannot be done changes nothing and says why in the log."""
    reason = why_not(bench, action)
    if reason is not None:
        return _log(bench, action, reason, refused=True)
    after, told = action.apply(bench)
    if action.is_taken_back and not bench.exercise.assessed:
        after = replace(after, past=(*bench.past, (bench.hubs, bench.current)))
    return _log(after, action, told)


def why_not(bench: Bench, action: Action) -> str | None:
    """Return why an action cannot be done now, or None where it can."""
    if bench.hub.done is not None and not action.after_last_word:
        return "You have said your last word on this hub."
    if bench.exercise.kind == "name" and action.moves_cone:
        return "This hub is to be judged, not adjusted."
    return action.cannot(bench)


def _log(bench: Bench, action: Action, told: str, *, refused: bool = False) -> Bench:
    event = Event(
        action=action.words,
        told=told,
        kind=type(action).__name__,
        hub=bench.current,
        refused=refused,
        counts=not refused and action.counts,
        felt=not refused and action.is_felt(told),
        after=bench.hub,
    )
    return replace(bench, log=(*bench.log, event))
