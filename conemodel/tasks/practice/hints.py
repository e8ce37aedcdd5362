"""One hint on each hub: what went wrong first, and the gesture that would have been right.

It is said after the last word, so it may name what was hidden. What comes first is asked in the order of every
verdict: is it safe, is it sound, where does the adjustment stand; then what was not felt, and how it was gone about.
"""

from conemodel.tasks.headline import STRIP
from conemodel.tasks.practice.criteria import BRAKE, LOOSE_NUT, NOT_CLAMPED, PLAY, PROUD
from conemodel.tasks.practice.error_stage import ErrorStage
from conemodel.tasks.practice.faults import FAULTS
from conemodel.tasks.practice.hint_adjustment import hint_loose, hint_tight, hint_touch
from conemodel.tasks.practice.hint_answers import hint_answer
from conemodel.tasks.practice.hint_checks import HINT_CHECK
from conemodel.tasks.practice.hint_fault import hint_fault
from conemodel.tasks.practice.history import History
from conemodel.tasks.practice.outcome import is_sound
from conemodel.tasks.practice.questions import QUESTIONS, right_answer

Hint = tuple[ErrorStage, str]
"""The stage in which it went wrong, and what is said of it."""

FIRST = ("refused", "locked", "left alone", "range", "clamped", "twirled")
"""Criteria in the order in which a hub that missed several is told of one; the others follow in their own."""

UNSAFE = {
    PROUD: "Fit an axle of the right length",
    NOT_CLAMPED: "Set it in the dropouts and close the {}",
    LOOSE_NUT: "Hold the cone and tighten the locknut",
    PLAY: "Set the cone again and rock it, clamped in the frame,",
    BRAKE: "Connect the brake and try it",
}
"""What to do about each reason not to ride; what closes the clamp goes into its place."""


def hint_on(history: History, *, critical: tuple[str, ...], passed: bool) -> Hint:
    """Return the hint on one hub; `critical` are the reasons it must not be ridden."""
    sound = is_sound(history.secret, history.hub)
    fault = FAULTS[history.secret.fault]
    strip = f"{STRIP}: {fault.cure}."
    if critical[:1] != (PROUD,):
        strip = f"No setting cures this one: {fault.what}. {strip}"
    if critical:
        gesture = _mend(history, critical[0]) if sound else strip
        return ("not checked" if sound else "judged"), f"Before anything else: {critical[0]}. {gesture}"
    if not sound and not passed and "fault" in history.exercise.questions and history.missed:
        stage, felt = _on_criterion(history, history.missed[0])
        named = f"{history.secret.fault[:1].upper()}{history.secret.fault[1:]}"
        return stage, f"{felt} {named}: no setting cures that. {STRIP}: {fault.cure}."
    if not sound:
        return ("none" if passed else "judged"), strip
    if passed:
        return "none", _well_done(history)
    if not history.missed:
        return "not checked", "No last word was said on it: check it, then say what it is."
    first = min(history.missed, key=lambda name: FIRST.index(name) if name in FIRST else len(FIRST))
    return _on_criterion(history, first)


def _mend(history: History, reason: str) -> str:
    """Return what to do about a reason not to ride."""
    gesture = UNSAFE[reason].format(history.secret.scenario.clamp.traits.handle)
    return f"{gesture} before it is ridden, however right the hub feels."


def _on_criterion(history: History, name: str) -> Hint:
    """Return the hint on a criterion that was missed."""
    if name == "range":
        return hint_loose(history) if history.off > 0 else hint_tight(history)
    if name == "touch":
        return "touch", hint_touch(history)
    if name == "fault":
        return hint_fault(history)
    if name in QUESTIONS:
        return "judged", hint_answer(history, name)
    return HINT_CHECK[name](history)


def _well_done(history: History) -> str:
    if history.exercise.kind == "touch":
        return "First touch, found. Next time go straight there, without turning past it and back."
    if history.exercise.kind == "name" and history.exercise.questions:
        question = history.exercise.questions[0]
        return f"You said {history.hub.answer(question)}. It was {right_answer(history.secret, question)}."
    return "Right, and checked."
