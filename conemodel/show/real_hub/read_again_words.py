"""A reading that is to be taken again before any turn is told, in words."""

from conemodel.base.units import MM
from conemodel.parts.measured_hub import ReadBy
from conemodel.parts.real_hub import State
from conemodel.show.formatting import number
from conemodel.show.real_hub.misfit_words import Misfit, misfit_of
from conemodel.tasks.real_hub.next_reading import Measuring
from conemodel.tasks.real_hub.read_again import ReadAgain

STATES: dict[State, str] = {"nut loose": "Locknut loose", "locked": "Locked", "clamped": "Clamped"}
"""Each state, as short as it is read."""

NO_TURN = "No turn is told before that."

_AFRESH = "Set the gauge afresh and read again. If it reads the same, undo, lock and read it as a new mark."

WHY_AGAIN: dict[str, str] = {
    "slipped": f"It does not fit the others. {_AFRESH}",
    "slipped alone": (
        "Set the gauge afresh and read again. If it reads the same, take it back and begin at finger contact again."
    ),
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
"""Why a reading is to be taken again, by `why`; alone where it has no others to fit."""


_MISFITS: dict[Misfit, str] = {
    "swapped": "the light push reads more than the hard one",
    "apart": "the two pushes lie too far apart",
    "more": "more than such a hub shows",
    "less": "less than such a hub shows",
    "other": "does not fit",
}


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
    return f"{STATES[again.state]}, {plays}: {_said(measuring, again)}. Read it again", NO_TURN


def _said(measuring: Measuring, again: ReadAgain) -> str:
    """Return in a few words how a reading does not fit."""
    if again.why == "clashes":
        return "contradicts the others"
    fitted = measuring.fitted
    out = [each for each in fitted.readings if each.left_out and each.reading.state == again.state]
    return _MISFITS[misfit_of(measuring.found, fitted, out)]


def _play(play: float, read_by: ReadBy) -> str:
    """Return a play as it was read [mm], without noughts that nobody read."""
    digits = 1 if read_by == "ruler at the rim" else 3
    text = number(MM.from_si(play), digits)
    return text.removesuffix("0") if digits == 3 else text
