"""What a person mixes up when naming hubs, and hubs dealt so that it comes up more often."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from conemodel.base.errors import InputProblems, Problem
from conemodel.parts.exercise import Exercise
from conemodel.tasks.practice.plan.hub_result import HubResult
from conemodel.tasks.practice.questions import QUESTIONS, SOUND

RECENT = 24
"""How many of the latest answers to a question decide what is dealt: three rounds of eight hubs. Judgement."""

MOST_CARDS = 3
"""How many times as often as the rarest a kind of hub may be dealt. Judgement: nothing may go out of sight."""

KIND_OF = {"play": "loose", "flex": "right", SOUND: "none"}
"""The kind of hub an answer means, where that has another name."""


@dataclass(frozen=True, slots=True)
class Confusions:
    """Answers to one question: how often each was said where each was true; both in the order of the question."""

    question: str
    answers: tuple[str, ...]
    counts: Counter[tuple[str, str]]

    @property
    def named(self) -> int:
        """How many answers there were."""
        return self.counts.total()

    @property
    def wrong(self) -> int:
        """How many of them were wrong."""
        return sum(count for (said, truth), count in self.counts.items() if said != truth)


def confusions(hubs: Iterable[HubResult]) -> tuple[Confusions, ...]:
    """Return what was said against what was true, for each question that was answered at all."""
    by_question: dict[str, Counter[tuple[str, str]]] = {}
    for hub in hubs:
        if hub.question is not None and hub.said is not None and hub.truth is not None:
            by_question.setdefault(hub.question, Counter())[hub.said, hub.truth] += 1
    return tuple(
        Confusions(question, QUESTIONS[question].answers, counts)
        for question, counts in by_question.items()
        if question in QUESTIONS
    )


def mix_of(exercise: Exercise, hubs: Sequence[HubResult]) -> str:
    """Return which kinds of hub to deal a person, as places in the exercise's list of kinds, one figure a card.

    Each kind has one card, and one more for every recent mistake in which it was the truth or was said, up to
    `MOST_CARDS`. Empty where that is no more of one than of another, and where no hubs are named.

    Args:
        exercise: as its file has it.
        hubs: what the person has done, oldest first.

    Source: [Spruit2014] for practice that adapts to the person
    """
    if exercise.kind != "name" or exercise.last_differs:
        return ""
    asked = [hub for hub in hubs if hub.question in exercise.questions[:1] and hub.named][-RECENT:]
    wrong = [{_kind(hub.said), _kind(hub.truth)} for hub in asked if hub.said != hub.truth]
    cards = [min(1 + sum(kind in pair for pair in wrong), MOST_CARDS) for kind in _kinds(exercise)[1]]
    if len(set(cards)) == 1:
        return ""
    return "".join(str(place) * count for place, count in enumerate(cards))


def _kind(answer: str | None) -> str:
    return KIND_OF.get(answer or "", answer or "")


def _kinds(exercise: Exercise) -> tuple[str, tuple[str, ...]]:
    """Return what the hubs of an exercise differ in, as a field of its prior, and the kinds there are, each once."""
    field = "faults" if len(exercise.prior.faults) > 1 else "states"
    return field, tuple(dict.fromkeys(getattr(exercise.prior, field)))


def deal_by(exercise: Exercise, mix: str) -> Exercise:
    """Return an exercise whose hubs are dealt by the cards of a mix; an empty one leaves it as it is.

    Raises:
        InputProblems: it names a kind that the exercise has not.
    """
    if not mix:
        return exercise
    field, kinds = _kinds(exercise)
    if max(map(int, mix)) >= len(kinds):
        limit = f"must be figures from 0 to {len(kinds) - 1}"
        raise InputProblems([Problem(where="link: mix", value=mix, limit=limit)])
    return exercise.replace(
        prior=exercise.prior.replace(**{field: tuple(kinds[int(place)] for place in mix)})
    )
