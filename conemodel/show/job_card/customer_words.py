"""What a customer is told of a job, from the answers on its card and nothing else."""

from collections.abc import Iterator

from conemodel.parts.hub import SIDES
from conemodel.show.job_card.sheet_rows import answer_words
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.sections.as_found import NOT_LOOKED, NOT_TRIED
from conemodel.tasks.job_card.sections.strip import GOOD, RENEWED
from conemodel.tasks.job_card.steps import SECTIONS, STEPS, rounds_of

PARTS = tuple(
    step.name
    for section in SECTIONS
    for step in section.steps
    if section.name == "Strip" and RENEWED in getattr(step, "choices", ())
)
"""Steps that say how a part of a side looked."""

AFTER_FIRST_RIDES = (
    "After the first ride, and again within about 100 km: see that lever or nuts are closed, and that nothing rocks "
    "when the rim is pushed from side to side."
)
"""Common practice, no source."""


def found_words(card: Card) -> str:
    """Return what was found, empty where nothing was noted."""
    felt = [
        f"{words} {answer}"
        for step, words in (("found_play_closed", "play, clamped:"), ("found_turning", "turning:"))
        if (answer := card.text(step)) and answer != NOT_TRIED
    ]
    return "; ".join((*felt, *_parts(card, renewed=False)))


def done_words(card: Card) -> str:
    """Return what was done, empty where nothing was noted."""
    done = [
        f"{words} {card.text(step)}"
        for step, words in (("balls", "balls:"), ("grease", "grease:"), ("freehub_body", "freehub body:"))
        if card.answer(step) is not None and STEPS[step].applies(card)
    ]
    renewed = list(_parts(card, renewed=True))
    tried = [
        answer for place in range(1, rounds_of(card) + 1) if (answer := card.text("outcome", str(place)))
    ]
    if tried:
        done.append(f"cone set in {len(tried)} round{'s' if len(tried) > 1 else ''}, at last {tried[-1]}")
    return "; ".join((*done, *renewed))


def recheck_words(card: Card) -> str:
    """Return when the wheel is to be looked at again, empty where it was not said."""
    ways = (card.text("recheck_on"), answer_words(card, STEPS["recheck_after"]))
    return " or after ".join(way for way in ways if way)


def _parts(card: Card, *, renewed: bool) -> Iterator[str]:
    """Yield the parts that were renewed, or those that were not good and stayed, each with its side."""
    for step in PARTS:
        for side in SIDES:
            answer = card.text(step, side)
            if answer not in ("", GOOD, NOT_LOOKED) and (answer == RENEWED) == renewed:
                yield f"{STEPS[step].words.lower()}, {side}: {answer}"
