"""The words beside a story's pictures; made from what may be seen and from nothing else."""

from conemodel.base.units import KILONEWTON, MM, MPA
from conemodel.physics.rating import STATIC_PRESSURE
from conemodel.show.formatting import STAGE_WORDS, number
from conemodel.show.waterfall.rows import Row
from conemodel.tasks.headline import DO_NOT_RIDE
from conemodel.tasks.lesson.answers import CANNOT, NONE_OF_THESE
from conemodel.tasks.lesson.lesson import SideView, View
from conemodel.tasks.lesson.play_digits import FINEST
from conemodel.tasks.wording import clock_minutes, digits_apart, force_words

PLACE_WORDS = {"rim": "at the rim", "axle end": "at the axle end"}
"""Where play is felt."""


SHORT = {
    "cone_thread": "thread of the cone gives",
    "drift": "cone turns in with the nut",
    "cone_thread_clamp": "clamp pushes the cones in",
}
"""Terms whose words are too long for half a wall, by key."""


SHORT_OPTIONS = {
    CANNOT: "cannot be told",
    "tighter than the other": "tighter",
    "looser than the other": "looser",
}
"""Options where there is little room, by their words."""


def bar_words(row: Row) -> str:
    """Return a row of the waterfall in words: size to the micrometre, then what it is."""
    name = STAGE_WORDS[row.stage] if row.kind == "level" else SHORT.get(row.key, row.words)
    return f"{row.size}  {'≈ ' if row.assumed else ''}{name}"


def reading_words(view: View, side: SideView) -> str:
    """Return what a side has come to, in one line, told apart from the other side's; nothing before its first stage."""
    found = side.readings
    if found is None:
        return ""
    if side.stage == "ridden":
        return (
            f"{found.carrying} of {found.balls} balls carry, the hardest with {_about(found.heaviest_ball)}"
        )
    if found.end_play > 0:
        play = number(MM.from_si(found.play), _digits_of_play(view))
        return f"play {PLACE_WORDS[side.place]}: {play} mm ({found.felt})"
    return f"no play, balls pinched with {_about(found.preload)}"


def reading_parts(view: View, side: SideView) -> tuple[str, str]:
    """Return the same as `reading_words`: what is written large, and what it is."""
    found = side.readings
    if found is None:
        return "", ""
    if side.stage == "ridden":
        return _about(found.heaviest_ball), f"on the hardest ball; {found.carrying} of {found.balls} carry"
    if found.end_play > 0:
        play = number(MM.from_si(found.play), _digits_of_play(view))
        return f"{play} mm", f"play {PLACE_WORDS[side.place]} ({found.felt})"
    return "no play", f"balls pinched with {_about(found.preload)}"


def _about(force: float) -> str:
    """Return a force [N] as far as it is known."""
    return f"about {KILONEWTON.from_si(force):.2g} kN" if force >= 1e4 else f"about {force_words(force)}"


def shared_words(view: View) -> str:
    """Return what is alike on both sides and so said once: what was measured, and what they have come to."""
    one, other = view.sides
    said = [known.words for known in one.known if known in other.known]
    if one.stage == other.stage and reading_words(view, one) == reading_words(view, other) != "":
        said.insert(0, reading_words(view, one))
    return f"Both: {'; '.join(said)}" if said else ""


def own_words(view: View, side: SideView) -> str:
    """Return what was measured of a side and not of the other."""
    other = next(each for each in view.sides if each is not side)
    return "; ".join(known.words for known in side.known if known not in other.known)


MOST = 2
"""Digits after the point of a play in mm at the most, as a gauge reads it; FINEST where two words part the like."""


def _digits_of_play(view: View) -> int:
    """Return how many digits tell both sides' plays apart, and from none: no two words stand beside one figure.

    A class remembers the figures of the steps before, so `View.digits` is the least.
    """
    found = [side.readings for side in view.sides if side.readings is not None]
    plays = [MM.from_si(each.play) for each in found if each.end_play > 0]
    most = max(view.digits, MOST)
    some = max((digits_apart(play, 0.0, least=view.digits, most=most) for play in plays), default=view.digits)
    if len(plays) < 2 or view.sides[0].place != view.sides[1].place:
        return some
    one, other = plays
    finest = most if found[0].felt == found[1].felt else FINEST
    digits = digits_apart(one, other, least=some, most=finest)
    return some if number(one, digits) == number(other, digits) else digits


def known_words(side: SideView) -> str:
    """Return how a side was set and what was measured of it so far, each with its error."""
    return "; ".join(known.words for known in side.known)


def answer_words(side: SideView) -> str:
    """Return the right answer for a side, and whether riding is safe; empty where nothing may be said yet."""
    said = [side.answer.words] if side.answer else []
    if side.unsafe:
        said.append(DO_NOT_RIDE.lower())
    return ": ".join(said)


ANSWER_SIGNS = {
    "in (clockwise)": "↻",
    "out (anticlockwise)": "↺",
    "leave it": "✓",
    "tighter": "⊗",
    "tighter than the other": "⊗",
    "looser": "↔",
    "looser than the other": "↔",
    "neither": "=",
    "alike": "=",
    CANNOT: "?",
    NONE_OF_THESE: "✗",
}
"""A sign beside each answer, by its words."""


def certainty_words(side: SideView) -> str:
    """Return how far to turn and how sure the answer is, or why no turn helps; empty where there is none."""
    if side.answer is None:
        return ""
    certainty = side.answer.certainty.removeprefix(f"{DO_NOT_RIDE}: ")
    if side.answer.turn is None:
        return certainty
    return f"about {clock_minutes(side.answer.turn / side.lead)}: {certainty}"


def dented_words(view: View) -> str:
    """Return which sides press their races harder than these stand; empty where none is seen to.

    Source: [ISO76]
    """
    said = [
        f"{side.caption}: {MPA.from_si(side.readings.peak_pressure):.0f} MPa computed on a race."
        for side in view.sides
        if side.readings and side.readings.peak_pressure > STATIC_PRESSURE
    ]
    if said:
        said.append(f"Above {MPA.from_si(STATIC_PRESSURE):.0f} MPa dents stay: never do this to a good hub.")
    return " ".join(said)


def step_words(view: View) -> str:
    """Return where the story stands: the number of the step and its name."""
    return f"{view.number} of {view.count}: {STAGE_WORDS[view.stage]}"


def below_words(view: View) -> str:
    """Return what stands below the pictures: the question, or once revealed what to say."""
    return (view.reveal or "") if view.revealed else view.question


def options_words(view: View) -> str:
    """Return what the class can commit to, while it still can."""
    return (
        "   |   ".join(SHORT_OPTIONS.get(each, each) for each in view.options)
        if view.options and not view.revealed
        else ""
    )
