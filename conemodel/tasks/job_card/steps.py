"""All steps of a job card in the order of the bench, and which of them are still open on a card."""

from collections.abc import Mapping
from dataclasses import dataclass

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.plain_text import visible
from conemodel.tasks.job_card.card import Card, Place, Value
from conemodel.tasks.job_card.sections import as_found, fit, frame, hand_over, setting, strip, who
from conemodel.tasks.job_card.step import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A part of the job: its name, and its steps."""

    name: str
    steps: tuple[Step, ...]


SECTIONS = (
    Section(name="Who", steps=who.STEPS),
    Section(name="As found", steps=as_found.STEPS),
    Section(name="Strip", steps=strip.STEPS),
    Section(name="Fit", steps=fit.STEPS),
    Section(name="Set", steps=setting.STEPS),
    Section(name="Frame", steps=frame.STEPS),
    Section(name="Hand over", steps=hand_over.STEPS),
)
"""In the order of the bench."""

STEPS: Mapping[str, Step] = {step.name: step for section in SECTIONS for step in section.steps}
"""Every step by its name."""


def rounds_of(card: Card) -> int:
    """Return how many rounds of setting the cone stand on a card, 1 before the first."""
    begun = [int(place.where) for place in card.answers if STEPS[place.step].each == "round"]
    return max(begun, default=1)


def places_of(card: Card) -> tuple[Place, ...]:
    """Return where a card is answered: what does not apply to it is absent."""
    rounds = rounds_of(card)
    return tuple(place for step in STEPS.values() if step.applies(card) for place in step.places(rounds))


def open_places(card: Card) -> tuple[Place, ...]:
    """Return what applies to a card and was not answered, but for what is optional; nothing of a complete card."""
    return tuple(
        place for place in places_of(card) if not STEPS[place.step].optional and place not in card.answers
    )


def check_answers(answers: Mapping[Place, Value]) -> None:
    """Hold answers against their steps.

    Raises:
        InputProblems: every answer at a step that there is not, at a place that it has not, or beyond its limits.
    """
    problems = []
    for place, value in answers.items():
        if place.step not in STEPS:
            problems.append(
                Problem(where="step", value=visible(place.step)[:60], limit="is no step of a job card")
            )
        else:
            problems += STEPS[place.step].problems(value, place.where)
    if problems:
        raise InputProblems(problems)
