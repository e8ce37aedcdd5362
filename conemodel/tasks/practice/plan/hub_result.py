"""One hub of an exercise that is done: whether it was right, whether it was checked, and what it was named."""

from dataclasses import dataclass

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
    """

    passed: bool
    checked: bool
    question: str | None = None
    said: str | None = None
    truth: str | None = None

    @property
    def named(self) -> bool:
        """Whether it was given a name."""
        return self.question is not None and self.said is not None


def hub_results(bench: Bench, marked: ExerciseMark) -> tuple[HubResult, ...]:
    """Return what came of each hub of an exercise, in order."""
    asked = bench.exercise.questions[:1] if bench.exercise.kind == "name" else ()
    return tuple(
        HubResult(
            passed=hub.passed,
            checked=not hub.unchecked,
            question=question,
            said=bench.hubs[hub.hub].answer(question) if question else None,
            truth=right_answer(bench.hidden[hub.hub], question) if question else None,
        )
        for hub in marked.hubs
        for question in (asked or (None,))
    )
