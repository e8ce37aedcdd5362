"""Readings at pen marks that nothing rests on, in words: what is so, and what it may come from."""

from collections.abc import Sequence
from typing import Literal

from conemodel.parts.measured_hub import MeasuredHub
from conemodel.parts.real_hub import State
from conemodel.show.formatting import capital
from conemodel.show.real_hub.wording import STATE_WORDS, count_words
from conemodel.tasks.real_hub.fit import Checked, Fitted
from conemodel.tasks.real_hub.next_reading import Measuring
from conemodel.tasks.real_hub.readings import Measured

Misfit = Literal["swapped", "apart", "more", "less", "other"]
"""The light push reads more than the hard one; both lie too far apart; a sole reading is more or less than such a hub
shows; a reading does not fit others."""

_SAID: dict[Misfit, str] = {
    "swapped": "the light push reads more than the hard one. Swapped, or a slip of the gauge?",
    "apart": "the two pushes lie further apart than a hub gives. A slip of the gauge?",
    "more": "more play than such a hub shows there. Was finger contact taken early?",
    "less": "less play than such a hub shows there. Was the cone screwed in too hard at finger contact?",
    "other": "one reading does not fit the others.",
}

RESTS = "Nothing rests on it."

_MAYBE: dict[State, str] = {
    "nut loose": "A slip of the gauge, or the cone not at its pen line?",
    "locked": "A slip of the gauge, or the locknut not tight?",
    "clamped": "A slip of the gauge, or a clamp closed otherwise?",
}
"""What a reading that does not fit the others may come from, by its state."""


def misfit_words(measuring: Measuring) -> str:
    """Return which readings nothing rests on, and why; empty where all fit, or a count or plays are in doubt."""
    fitted = measuring.fitted
    out = [each for place, each in enumerate(fitted.readings) if each.left_out or place in fitted.clash]
    if measuring.doubt or not out:
        return ""
    which = "; ".join(dict.fromkeys(_where(each) for each in out))
    if fitted.clash:
        return f"These contradict each other: {which}. Nobody can tell which is wrong, and nothing rests on them."
    what = misfit_of(measuring.found, fitted, out)
    maybe = _MAYBE[out[0].reading.state] if what == "other" else ""
    return " ".join(part for part in (f"{capital(which)}:", _SAID[what], maybe, RESTS) if part)


def misfit_of(found: MeasuredHub, fitted: Fitted, out: Sequence[Checked]) -> Misfit:
    """Return how readings in one state at one mark, that are left `out`, do not fit."""
    misses = [each.miss for each in out]
    if len(misses) == 2 and _is_light_above_hard(found, out[0]):
        return "swapped"
    if len(misses) == 2 and abs(misses[1] - misses[0]) > abs(sum(misses)) / 2:
        return "apart"
    if not is_sole(fitted):
        return "other"
    return "more" if sum(misses) > 0 else "less"


def is_sole(fitted: Fitted) -> bool:
    """Tell whether nothing was read but in one state at one mark, so that there are no others to fit."""
    return (
        len({each.reading.read_with for each in fitted.readings if isinstance(each.reading, Measured)}) == 1
    )


def _where(checked: Checked) -> str:
    return f"{STATE_WORDS[checked.reading.state]}, {count_words(checked.reading.count)}"


def _is_light_above_hard(found: MeasuredHub, checked: Checked) -> bool:
    reading = checked.reading
    if not isinstance(reading, Measured) or reading.mark is None:
        return False
    light, hard = found.marks[reading.mark].plays[reading.state]
    return light > hard
