"""What a card says largest: what forbids riding, what is to be renewed, and otherwise how far the card is.

Only from what was answered. Nothing here says that a wheel may be ridden: a card knows what was looked at, not what was
missed. The rules are common practice, no source.
"""

from collections.abc import Iterator

from conemodel.parts.clamp_kinds import CLAMP_KINDS
from conemodel.parts.hub import SIDES
from conemodel.tasks.headline import DO_NOT_RIDE, STRIP, Answer, Headline, headline_of
from conemodel.tasks.job_card.card import Card, Place
from conemodel.tasks.job_card.faults import ROUGH
from conemodel.tasks.job_card.sections.as_found import NOT_LOOKED, NOT_TRIED
from conemodel.tasks.job_card.sections.setting import LOOSE, TIGHT
from conemodel.tasks.job_card.sections.strip import DAMAGED, PITTED
from conemodel.tasks.job_card.steps import STEPS, open_places, rounds_of
from conemodel.tasks.job_card.this_wheel import FELT

LOCK_IT = "Lock it, set again."
"""What is done about a far side that is not locked: what was set before turned with it."""

STOPS: dict[tuple[str, str], tuple[str, str]] = {
    ("brake_works", "no"): ("the brake is not connected or does not work", "Connect it and try it before riding."),
    ("brake_works", NOT_LOOKED): ("nobody looked at the brake", "Connect it and try it before riding."),
    ("lever", "light"): ("the lever closes lightly", "Open it, turn its nut in, close it so that it marks the palm."),
    ("lever", "could not be closed"): ("the lever could not be closed", "Find out why before the wheel goes out."),
    ("far_locked", "no"): ("the far side is not locked", LOCK_IT),
    ("far_locked", NOT_LOOKED): ("nobody looked whether the far side is locked", f"Try it. {LOCK_IT}"),
    ("play_closed", NOT_TRIED): ("nobody tried it for play with the clamp closed", "Close the clamp, rock the rim."),
    ("play_closed", "clear"): ("it knocks with the clamp closed", "Set the cone again, or find what else rocks."),
    ("turning", NOT_TRIED): ("nobody turned it in the frame", "Clamp it, turn it, see that it turns free."),
    ("rim_central", NOT_LOOKED): ("nobody looked whether the rim is central", "Look between stays or blades."),
    ("rim_central", "no"): ("the rim is not central", "Seat the axle; look at spacers, axle and frame."),
    ("rotor", "no"): ("the rotor is not clean and clear", "Clean it, see it run clear, try the brake."),
    ("rotor", NOT_LOOKED): ("nobody looked at the rotor", "See it clean and clear, try the brake."),
    ("tabs", "no"): ("the retention tabs are not in place", "A wheel without them can drop out of the fork."),
    ("tabs", NOT_LOOKED): ("nobody looked at the retention tabs", "See them seated on both sides."),
    ("advice_given", "do not ride"): ("the customer was told so", "It stands until a new card says otherwise."),
}  # fmt: skip
"""Answers that forbid riding, by step and answer: why, and what to do."""

TO_RENEW = {"cone": "cone", "cup": "cup"}
"""Parts with a track, by step: pitted, they are renewed."""

TO_REPLACE = {"washer": "keyed washer", "seal": "seal"}
"""Other parts, by step: damaged, they are replaced."""


def headline_of_card(card: Card) -> Headline:
    """Return what a card says largest, and what stands below it."""
    return headline_of(unsafe=tuple(_unsafe(card)), unsound=tuple(_unsound(card)), adjustment=_how_far(card))


def _unsafe(card: Card) -> Iterator[Answer]:
    for (step, answer), (why, act) in STOPS.items():
        if card.answer(step) == answer and STEPS[step].applies(card):
            yield Answer(words=f"{DO_NOT_RIDE}: {why}", act=act, unsafe=True)
    if card.answer("found_far_locked") == "no" and card.answer("far_locked") is None:
        yield Answer(words=f"{DO_NOT_RIDE}: the far side was found not locked", act=LOCK_IT, unsafe=True)
    if sides := _sides(card, "axle_thread", DAMAGED):
        words = f"{DO_NOT_RIDE}: the axle's thread is damaged, {sides}"
        yield Answer(words=words, act="Renew the axle, and answer so.", unsafe=True)
    yield from _proud(card)


def _proud(card: Card) -> Iterator[Answer]:
    """Yield a stop where an axle stands out of a locknut further than the dropout is thick."""
    kind = CLAMP_KINDS.get(card.text("held_by"))
    thickness, longest = card.answer("dropout_thickness"), longest_protrusion(card)
    if kind is None or not kind.held_by_ends or thickness is None or longest is None:
        return
    if longest >= float(thickness):
        why = f"It stands {longest:g} mm out of the locknut; the dropout is {float(thickness):g} mm thick. "
        yield Answer(
            words=f"{DO_NOT_RIDE}: the axle stands proud of the dropout",
            why=why + "The lever presses on the axle and holds nothing.",
            act="Set the axle shorter on that side, or fit a shorter one.",
            unsafe=True,
        )


def longest_protrusion(card: Card) -> float | None:
    """Return how far the axle stands out of a locknut where it does most [mm]; None where nobody measured it.

    Both sides together stay as they were found, as long as axle and width are the same: geometry. So what was
    measured on the fixed side after locking tells the other, if both were measured as found.
    """
    fixed = card.answer("fixed_protrusion")
    known = [card.answer("found_protrusion", side) for side in SIDES]
    found = [float(value) for value in known if value is not None]
    if fixed is None:
        return max(found, default=None)
    other = sum(found) - float(fixed) if len(found) == len(SIDES) else 0.0
    return max(float(fixed), other)


def _unsound(card: Card) -> Iterator[Answer]:
    for step, part in TO_RENEW.items():
        if sides := _sides(card, step, PITTED):
            why = "No setting of the cone cures a pitted track."
            yield Answer(words=f"To be renewed: {part}, {sides}", why=why, act="Say so at the counter.")
    for step, part in TO_REPLACE.items():
        if sides := _sides(card, step, DAMAGED):
            yield Answer(words=f"To be replaced: {part}, {sides}", act="Say so at the counter.")
    yield from _adjusted(card)


def _adjusted(card: Card) -> Iterator[Answer]:
    """Yield what is wrong with the setting; play and a rough turn together are not cured by any."""
    turning, play = card.answer("turning"), card.answer("play_closed")
    rough = turning in ROUGH
    if rough and play in FELT:
        words, why = f"It turns {turning} and has play, clamp closed", "No place of the cone cures both."
        yield Answer(words=words, why=why, act=f"{STRIP}.")
        return
    outcome = card.answer("outcome", str(rounds_of(card)))
    if outcome in (LOOSE, TIGHT):
        yield Answer(words=f"The last setting was {outcome}: set it again")
    if rough:
        act = "Set it again." if turning == "tight" else f"{STRIP}."
        yield Answer(words=f"It turns {turning} in the frame", act=act)
    if play == "slight":
        act = "Bring the cone in a little and try it again."
        yield Answer(words="Slight play with the clamp closed", act=act)


def _sides(card: Card, step: str, answer: str) -> str:
    return " and ".join(side for side in SIDES if card.answers.get(Place(step, side)) == answer)


def _how_far(card: Card) -> Answer:
    count = len(open_places(card))
    if not count:
        why = "That is not the same as right: follow the maker's instructions, and look at the wheel before it goes."
        return Answer(words="Complete: every step answered", why=why)
    steps = "1 step" if count == 1 else f"{count} steps"
    return Answer(words=f"{steps} not answered", why="What is not answered was not looked at.")
