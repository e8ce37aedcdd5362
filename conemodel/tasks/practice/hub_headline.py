"""What a hub was, in the words and the order of every verdict: safe, sound, then where the adjustment stands."""

from collections.abc import Sequence

from conemodel.parts.exercise import Exercise
from conemodel.tasks.headline import DO_NOT_RIDE, Answer, Headline, headline_of
from conemodel.tasks.practice.careful_hand import least_told
from conemodel.tasks.practice.faults import FAULTS
from conemodel.tasks.practice.outcome import is_sound
from conemodel.tasks.practice.questions import right_answer
from conemodel.tasks.practice.session import HiddenHub, HubState
from conemodel.tasks.wording import clock_minutes


def hub_headline(
    exercise: Exercise, secret: HiddenHub, hub: HubState, *, off: float, critical: Sequence[str]
) -> Headline:
    """Return the headline on a marked hub; `off` is how far outside the good range it ended [m]."""
    # where the fault itself was asked for, what it was is said once, as the answer
    what = "" if exercise.questions[:1] == ("fault",) else f": {FAULTS[secret.fault].what}"
    unsound = [] if is_sound(secret, hub) else [Answer(words=f"Not sound{what}")]
    return headline_of(
        unsafe=[Answer(words=f"{DO_NOT_RIDE}: {reason}", unsafe=True) for reason in critical],
        unsound=unsound,
        adjustment=Answer(words=_adjustment(exercise, secret, hub, off)),
    )


def _adjustment(exercise: Exercise, secret: HiddenHub, hub: HubState, off: float) -> str:
    """Return where the adjustment stands, as finely as a hand tells; of a hub only judged, the right answer."""
    lead = secret.scenario.axle.lead_per_radian
    if exercise.kind == "name":
        return f"It was: {right_answer(secret, exercise.questions[0])}" if exercise.questions else "Not asked"
    if exercise.kind == "touch":
        angle = hub.cone / lead
        if abs(angle) <= least_told(pen=False):
            return "At first touch"
        return f"About {clock_minutes(angle)} {'short of' if angle > 0 else 'past'} first touch"
    if off == 0.0:
        return "In the good range"
    size = max(abs(off) / lead, least_told(pen=True))
    return (
        f"Too {'loose' if off > 0 else 'tight'}: about {clock_minutes(size)} past the edge of the good range"
    )
