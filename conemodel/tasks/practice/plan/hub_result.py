"""One hub of an exercise that is done: whether it was right, whether it was checked, and what it was named."""

from dataclasses import dataclass

from conemodel.tasks.practice.commitment import read_in_words
from conemodel.tasks.practice.marking import ExerciseMark
from conemodel.tasks.practice.questions import right_answer
from conemodel.tasks.practice.session import Bench


@dataclass(frozen=True, slots=True, kw_only=True)
class HubResult:
    """One hub.

    Attributes:
        passed: everything that had to be was; checked: it was rocked and twirled clamped, since it was last moved.
        question: the name of what was asked of it, where it was to be named, else None.
        said, truth: the answer to that and the right one.
        worded: what was felt of it could be read in words before the last word on it; of a hub kept before that was
            noted it is not known, and taken for no.
    """

    passed: bool
    checked: bool
    question: str | None = None
    said: str | None = None
    truth: str | None = None
    worded: bool = False

    @property
    def named(self) -> bool:
        """Whether it was given a name."""
        return self.question is not None and self.said is not None


def hub_results(bench: Bench, marked: ExerciseMark) -> tuple[HubResult, ...]:
    """Return what came of each hub of an exercise, in order."""
    read = read_in_words(bench)
    asked = bench.exercise.questions[:1] if bench.exercise.kind == "name" else ()
    return tuple(
        HubResult(
            passed=hub.passed,
            checked=not hub.unchecked,
            question=question,
            said=bench.hubs[hub.hub].answer(question) if question else None,
            truth=right_answer(bench.hidden[hub.hub], question) if question else None,
            worded=hub.hub in read,
        )
        for hub in marked.hubs
        for question in (asked or (None,))
    )
