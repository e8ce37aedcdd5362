"""A hub measured at marks, in words: what to do next and why, the turn with its chance, what does not fit."""

from conemodel.base.units import DEG, MM
from conemodel.parts.measured_hub import MeasuredHub, ReadBy
from conemodel.parts.real_hub import State
from conemodel.show.formatting import number
from conemodel.show.real_hub.doubt_words import doubt_words, minutes_number
from conemodel.show.real_hub.misfit_words import is_sole
from conemodel.show.real_hub.read_again_words import WHY_AGAIN, read_again_words
from conemodel.show.real_hub.wording import count_words
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.headline import shares_of_ten
from conemodel.tasks.real_hub.next_reading import Measuring, NextReading
from conemodel.tasks.real_hub.play_doubt import TIMES, PlayDoubt
from conemodel.tasks.real_hub.reached import DRAWN, Reached, Unmeasured
from conemodel.tasks.real_hub.told import QUANTITIES_AT_MARKS, QuantityName
from conemodel.tasks.real_hub.turn_from_mark import TurnFromMark
from conemodel.tasks.setting.adjustment import STATE_WORDS as VERDICTS
from conemodel.tasks.wording import clock_minutes, direction

READ_BY_WORDS: dict[ReadBy, str] = {
    "dial along the axle": "Dial gauge at the axle end, axle pushed and pulled along",
    "dial at the rim": "Dial gauge at the rim",
    "ruler at the rim": "Ruler at the rim",
}
"""How play is read, in words."""

BRING: dict[State, str] = {
    "nut loose": "Leave the locknut run back",
    "locked": "Hold the cone at its pen line and tighten the locknut hard",
    "clamped": "Close the clamp as it rides, locknut still tight",
}
"""What to do to a hub before it is read in a state."""

PEN = "Draw a pen line across axle and cone where it stands."

_WHY = {
    "count": (
        "Play with the nut loose, or the slack of the thread, does not go with it. If the count is right, say so: then "
        "it is the gauge, or the thread."
    ),
    "plays": "A dial shows whole hundredths of a millimetre. Were millimetres typed where hundredths are asked?",
    "other plays": "As they are written they do not fit; so taken all of them do.",
    "contact": "It tells where the fingers left the cone. With the next reading it tells the thread's slack.",
    "slack": "What locking takes from the play is the slack of the thread, and some of the cone's drift.",
    "clamp": "What closing takes is the clamp's. The turn is counted from here.",
    **WHY_AGAIN,
    "no play locked": "The clamp takes more still. Further out it has play to read.",
    "no play clamped": "Further out it has play to read, and the turn is counted from there.",
    "not sure": "One mark more makes the turn surer.",
    "turn not sure": "It is a step on the way: what is read after it makes the next one surer.",
    "sure": "More readings would not make it surer.",
}
"""Why a thing is to be done next, by its stable name."""


def turn_words(turn: float) -> str:
    """Return a turn of the cone from its pen line, to half a minute [rad].

    >>> from math import pi
    >>> turn_words(-7 * pi / 60)
    '3½ minutes in (clockwise), 21°'
    """
    return f"{clock_minutes(turn, to_half=True)} {direction(turn)}, {abs(DEG.from_si(turn)):.0f}°"


def push_words(found: MeasuredHub, number: int) -> str:
    """Return what the play under the light push, 0, or the hard one, 1, is called where it is entered."""
    if found.read_by == "ruler at the rim":
        return "Play at the rim, mm"
    return f"{('Light', 'Hard')[number]} push ({found.pushes[number]:.0f} N), 0.01 mm"


def next_words(measuring: Measuring) -> tuple[str, str]:
    """Return what to do next in a few words, and why."""
    step = measuring.next
    if measuring.dangers:
        return measuring.dangers[0].act, "No turn is told for a hub that must not be ridden as it is."
    if step.what == "check the count":
        return "Look at the count again.", _WHY["count"]
    if step.what == "check the plays":
        taken = isinstance(measuring.doubt, PlayDoubt) and measuring.doubt.times
        return "Look at the plays again.", _WHY["plays" if taken == TIMES else "other plays"]
    if step.what == "leave":
        return "Leave it.", _WHY["sure"]
    if step.what == "turn":
        done = (
            "Undo clamp and locknut, turn the cone from its pen line, draw a new line. Then it is read there."
        )
        return done, _WHY["sure" if step.why == "sure" else "turn not sure"]
    if step.what == "start over":
        return "Start over from finger contact.", (
            "The marks are used up without a turn that is sure. Find finger contact again; if it comes to the same, "
            "look for what is wrong in Check a hub."
        )
    if step.what == "back off":
        out = f"Undo the locknut. Turn the cone {turn_words(step.turn)} from its pen line. {PEN}"
        return out, f"{_WHY[step.why]} {_next_count(step)}"
    why = "slipped alone" if step.why == "slipped" and is_sole(measuring.fitted) else step.why
    again = " again" if step.what == "read again" else ""
    return f"{_first(measuring)}{BRING[step.state]}. Read the play{again}.", _WHY[why]


def _first(measuring: Measuring) -> str:
    """Return what comes before the very first reading: finger contact, and the count to back off by."""
    if measuring.found.marks:
        return ""
    return (
        "Screw the cone in by finger until the balls stop it. Back it off "
        f"{clock_minutes(measuring.next.count)}. {PEN} "
    )


def _next_count(step: NextReading) -> str:
    return f"It then stands {count_words(step.count)}."


def headline_words(measuring: Measuring) -> tuple[str, str]:
    """Return the largest words and what stands below them: the turn with its chance, or that there is none yet."""
    turn, fitted = measuring.turn, measuring.fitted
    if measuring.dangers:
        worst, *others = measuring.dangers
        return worst.words, " ".join((worst.why, *(other.sentence for other in others)))
    if measuring.doubt:
        return doubt_words(measuring.doubt), "No turn before that is right."
    if measuring.again:
        return read_again_words(measuring, measuring.again)
    if fitted.clash:
        return (
            "Some readings contradict each other",
            "Nobody can tell which is wrong, so no turn rests on them.",
        )
    if measuring.turned_to is not None:
        return turned_words(measuring), "No further turn before that."
    if measuring.next.no_play:
        once = "locked" if measuring.next.why == "no play locked" else "clamped"
        return (
            f"No play read {once}: right or too tight",
            "Which of them a gauge cannot tell: it shows both alike.",
        )
    if turn is None:
        return "No turn yet", "It takes the play once locked, and best once clamped too."
    if not turn.worth_making:
        stands = turn.stands
        words = VERDICTS["right"] if stands.named == "right" else "Leave it there"
        return words, f"{_chances(stands.right, stands.tight)}, clamped as it stands."
    sure = "" if turn.sure else " More readings make it surer."
    verb = "Try" if turn.cautious else "Turn"
    return f"{verb} {turn_words(turn.turn)}", f"{_chances(turn.right, turn.tight)} after it.{sure}"


def turned_words(measuring: Measuring) -> str:
    """Return where the cone was turned to and that it is to be read there; empty where it stands as it was read."""
    if measuring.turned_to is None:
        return ""
    read = "Read it loose, then locked" if measuring.next.state == "nut loose" else "Lock, clamp and read"
    return f"Turned: the cone is at {minutes_number(measuring.turned_to)}. {read}."


def _chances(right: float, tight: float) -> str:
    said = shares_of_ten({"right": right, "too tight": tight})
    return f"{said[:1].upper()}{said[1:]}"


def stands_words(turn: TurnFromMark | None) -> str:
    """Return how the hub stands at its last mark, clamped; empty where that is not known."""
    if turn is None:
        return ""
    shares = {VERDICTS[state].lower(): chance for state, chance in turn.stands.by_state.items()}
    return f"As it stands, clamped, it is {shares_of_ten(shares)}."


def span_words(span: Interval) -> str:
    """Return a length and its range [m] in hundredths of a millimetre, one digit more.

    >>> span_words(Interval(value=9.41e-5, low=8.4e-5, high=10.4e-5))
    '0.094 mm (0.084 to 0.104)'
    """
    value, low, high = (number(MM.from_si(end), 3) for end in (span.value, span.low, span.high))
    return f"{value} mm ({low} to {high})"


def known(measuring: Measuring) -> dict[QuantityName, Interval]:
    """Return what is known of slack, clamp and finger contact [m]."""
    return {name: measuring.fitted.interval(each.of) for name, each in QUANTITIES_AT_MARKS.items()}


def worn_words(measuring: Measuring) -> str:
    """Return that the thread has more slack than a sound one; empty where that is not so, or a count is in doubt."""
    most = measuring.fitted.hub.scenario.axle.most_backlash
    slack = known(measuring)["slack"]
    if measuring.doubt or slack.low <= most:
        return ""
    return (
        f"The thread has {span_words(slack)} of slack. A sound one has at most {number(MM.from_si(most), 3)} mm: axle "
        "or cone is worn. The turn holds all the same, but look at the threads and renew what is worn."
    )


def reached_words(measured: Reached, unmeasured: Unmeasured) -> str:
    """Return how far measuring so gets, as simulated."""
    return (
        f"{READ_BY_WORDS[measured.read_by]}: on {measured.hubs} simulated hubs the first turn was right on "
        f"{_hundred(measured.first)}, the second on {_hundred(measured.second)}; thread slack came out within "
        f"{number(MM.from_si(measured.slack_error), 3)} mm on 80 of 100. Without measuring, a fixed back-off is right "
        f"on {_hundred(unmeasured.fixed)}, one for the slack by feeler on {_hundred(unmeasured.feeler)}. Simulated "
        f"were {DRAWN}."
    )


def _hundred(share: float) -> str:
    """Return a share as so many of a hundred.

    >>> _hundred(0.834)
    '83 of 100'
    """
    return f"{100 * share:.0f} of 100"
