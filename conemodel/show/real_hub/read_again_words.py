"""A reading that is to be taken again before any turn is told, in words."""

from conemodel.base.units import MM
from conemodel.parts.measured_hub import ReadBy
from conemodel.parts.real_hub import State
from conemodel.show.formatting import number
from conemodel.tasks.real_hub.next_reading import Measuring
from conemodel.tasks.real_hub.read_again import ReadAgain

STATES: dict[State, str] = {"nut loose": "Locknut loose", "locked": "Locked", "clamped": "Clamped"}
"""Each state, as short as it is read."""

NO_TURN = "No turn is told before that."

_AFRESH = "Set the gauge afresh and read again. If it reads the same, undo, lock and read it as a new mark."

WHY_AGAIN: dict[str, str] = {
    "slipped": f"It does not fit the others. {_AFRESH}",
    "clashes": f"It contradicts others, and nobody can tell which is wrong. {_AFRESH}",
    "not closed": (
        "A clamp that is shut takes play, always. If it was shut, look whether it bears on the frame, and whether both "
        "plays stand in their places."
    ),
    "closings differ": (
        "Closings of one lever seldom differ by so much. Shut it as it rides. If it reads the same, undo, lock and "
        "read it as a new mark: a third closing tells which."
    ),
}
"""Why a reading is to be taken again, by `why`."""


def read_again_words(measuring: Measuring, again: ReadAgain) -> tuple[str, str]:
    """Return which reading does not fit, for the largest type, and what stands below it."""
    read_by = measuring.found.read_by
    plays = f"{' and '.join(dict.fromkeys(_play(play, read_by) for play in again.plays))} mm"
    if again.why == "closings differ":
        return f"Two closings differ by {_play(again.apart, read_by)} mm. Close it again and read", NO_TURN
    if again.why == "not closed":
        loose = read_by == "dial along the axle" and min(again.plays) > measuring.fitted.hub.window.loose_edge
        read = f"Clamped it reads {'loose, ' if loose else ''}{plays}"
        return f"{read}: closing took nothing. Is the lever shut?", NO_TURN
    said = "contradicts the others" if again.why == "clashes" else "does not fit"
    return f"{STATES[again.state]}, {plays}: {said}. Read it again", NO_TURN


def _play(play: float, read_by: ReadBy) -> str:
    """Return a play as it was read [mm], without noughts that nobody read."""
    digits = 1 if read_by == "ruler at the rim" else 3
    text = number(MM.from_si(play), digits)
    return text.removesuffix("0") if digits == 3 else text
