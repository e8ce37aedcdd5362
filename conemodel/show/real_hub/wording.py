"""A fitted real hub in words: what the readings tell, what they do not, and which of them does not fit."""

from conemodel.base.units import MINUTE, MM
from conemodel.parts.real_hub import State
from conemodel.show.formatting import degrees, millimetres, number
from conemodel.show.real_hub.contradiction_words import contradiction_words
from conemodel.tasks.hand.estimate import HELD, Interval
from conemodel.tasks.real_hub.contradictions import MISFIT
from conemodel.tasks.real_hub.fit import Checked, Fitted
from conemodel.tasks.real_hub.lock_at import LockAt
from conemodel.tasks.real_hub.readings import Felt, Reading
from conemodel.tasks.real_hub.told import Told

ONLY_REAL = (
    "Only a threshold found on a real hub may serve in Check a hub. One found in practice, on a screen, does not "
    "carry over to a wheel."
)

TRUTH = f"The truth lies in a range {round(10 * HELD)} times in ten."

COUNTS_AS = (
    "A count stands for the step before it: play first felt at 3 began between 2 and 3, so its mark lies at 2.5, "
    "as wide as the step; of drag, between the last count that has it and the next one out. The table gives the count "
    "that the model would have you write: half a step from where its line crosses."
)
"""Why mark and line lie beside the counts in the table."""

STATE_WORDS: dict[State, str] = {
    "nut loose": "locknut loose",
    "locked": "locked, not clamped",
    "clamped": "locked and clamped",
}
"""What each state is called."""


def count_words(count: float) -> str:
    """Return a place of the cone [rad], in minutes of a clock face.

    >>> from math import pi
    >>> count_words(pi / 4), count_words(-pi / 60), count_words(0.0)
    ('7.5 min out', '0.5 min in', 'at finger contact')
    """
    minutes = MINUTE.from_si(count)
    size = number(abs(minutes), 1).removesuffix(".0")
    if size == "0":
        return "at finger contact"
    return f"{size} min {'out' if minutes > 0 else 'in'}"


def reading_words(reading: Reading) -> str:
    """Return what a reading is of, without its number."""
    state = STATE_WORDS[reading.state]
    if isinstance(reading, Felt):
        return f"{'play from' if reading.what == 'play' else 'drag up to'}, {state}"
    place = "along the axle" if reading.place == "axle" else "at the rim"
    pushed = f", {reading.push:g} N" if reading.mark is not None and reading.push else ""
    return f"play {place} {count_words(reading.count)}, {state}{pushed}"


def found_words(checked: Checked) -> str:
    """Return what was read."""
    reading = checked.reading
    return count_words(reading.count) if isinstance(reading, Felt) else millimetres(reading.play)


def model_words(checked: Checked, lead: float) -> str:
    """Return what the fitted hub would have had read; `lead` is the cone's travel [m/rad]."""
    reading = checked.reading
    if isinstance(reading, Felt):
        return count_words(reading.count - checked.miss / lead)
    return millimetres(max(reading.play - checked.miss, 0.0))


def fits_words(fitted: Fitted, place: int) -> str:
    """Return whether a reading, by its place, fits."""
    checked = fitted.readings[place]
    if checked.left_out:
        return f"does not fit ({number(abs(checked.deleted), 1)} errors off): left out"
    if place in fitted.clash:
        return "does not go with another"
    return "fits"


def headline_words(told: Told, fitted: Fitted) -> tuple[str, str]:
    """Return what is known of the hand's threshold in play, and the words below it; `told` is that threshold."""
    if fitted.clash:
        below = "Nobody can tell which is wrong, so no number rests on them."
        if fitted.contradictions:
            return contradiction_words(fitted.contradictions[0]), below
        return "Some readings contradict each other", below
    if not told.told:
        return "Your threshold is not told yet", f"{untold_words(told)} Wanted: {told.quantity.wanted}."
    turn = fitted.interval(lambda shown: shown.felt_play_at / fitted.hub.lead)
    return (
        f"You feel play from {_size(told, told.now.value)} at the rim",
        f"{_range(told, told.now)}; {degrees(turn.value)} of cone from just touching",
    )


def misfit_words(fitted: Fitted) -> str:
    """Return which reading was left out, or that some contradict each other; empty where all fit."""
    out = [checked for checked in fitted.readings if checked.left_out]
    if out:
        said = f"{reading_words(out[0].reading)} ({found_words(out[0])})"
        return (
            f"One reading does not fit the others: {said}. It lies {number(abs(out[0].deleted), 1)} standard errors "
            f"from what they and the assumptions foretell, more than {MISFIT:g}, and nothing below rests on it. "
            "Feel for it again."
        )
    if fitted.clash:
        said = "; ".join(
            f"{reading_words(fitted.readings[place].reading)} ({found_words(fitted.readings[place])})"
            for place in fitted.clash
        )
        more = "".join(f" Also: {contradiction_words(each)}." for each in fitted.contradictions[1:])
        return f"Feel for these again; no number below rests on them: {said}.{more}".replace("?.", "?")
    return ""


def lock_words(lock: LockAt | None) -> str:
    """Return at which count to lock the hub and how likely it is right then; empty where that is not known."""
    if lock is None:
        return ""
    low, high = (count_words(end) for end in (lock.ends.low, lock.ends.high))
    right, tight = (min(round(100 * chance), 95) for chance in (lock.right, lock.tight))
    return (
        f"Lock this hub at about {count_words(lock.count)} (best count: {low} to {high}). Clamped, it is then in the "
        f"good range {right} times in 100{' or more' if right == 95 else ''}, too tight {tight} times. Feel for play "
        "and drag before it is ridden."
    )


def told_words(told: Told) -> str:
    """Return what is known of one unknown, in a sentence."""
    if told.given:
        return f"{_size(told, told.now.value)}, as the hub is described"
    if told.told:
        return f"{_size(told, told.now.value)} ({_range(told, told.now)})"
    return untold_words(told)


def untold_words(told: Told) -> str:
    """Return why an unknown is not told, and what is known in its place."""
    if told.tied_to is None or told.together is None:
        return f"Not told by these readings; assumed {_range(told, told.before)}."
    low, high = millimetres(told.together.low), millimetres(told.together.high)
    kind = "Together" if told.opposed else "Their difference"
    return (
        f"These readings cannot tell it apart from the {told.tied_to.words}. "
        f"{kind}, along the axle: {millimetres(told.together.value)} ({low} to {high})."
    )


def before_words(told: Told) -> str:
    """Return what was assumed of an unknown before the first reading."""
    return _range(told, told.before)


def _digits(told: Told) -> int:
    """Return the decimals of a number in mm: play at the rim has hundredths, what lies along the axle thousandths."""
    return 2 if told.quantity.name == "felt_play" else 3


def _size(told: Told, value: float) -> str:
    return f"{number(MM.from_si(value), _digits(told))} mm"


def _range(told: Told, span: Interval) -> str:
    return f"{number(MM.from_si(span.low), _digits(told))} to {_size(told, span.high)}"
