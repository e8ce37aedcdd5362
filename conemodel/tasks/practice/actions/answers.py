"""What is said: answers to the questions of an exercise, and the last word on a hub."""

from dataclasses import dataclass, replace
from typing import ClassVar

from conemodel.tasks.practice.actions.action import Action
from conemodel.tasks.practice.questions import QUESTIONS, right_answer
from conemodel.tasks.practice.session import Bench


@dataclass(frozen=True, slots=True)
class Answer(Action):
    """Answer a question of the exercise."""

    question: str
    word: str
    counts: ClassVar[bool] = False

    @property
    def words(self) -> str:
        """What was said."""
        question = QUESTIONS.get(self.question)
        return question.logged.format(self.word) if question else f"answered {self.word}"

    def cannot(self, bench: Bench) -> str | None:
        """Return that it is not asked, not an answer, too early or too late, or None."""
        question = QUESTIONS.get(self.question)
        if question is None:
            return "That is not asked here."
        if self.word not in question.answers:
            return "That is not one of the answers."
        return question.not_now(bench.hub)

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the answer in place of an earlier one; a hub only judged is done with it."""
        hub = bench.hub
        others = tuple(pair for pair in hub.answers if pair[0] != self.question)
        done = "named" if bench.exercise.kind == "name" else hub.done
        hub = replace(hub, answers=(*others, (self.question, self.word)), done=done)
        if bench.exercise.assessed or done != "named":
            return bench.with_hub(hub), "Noted."
        return bench.with_hub(hub), f"Noted. It is: {right_answer(bench.secret, self.question)}."


@dataclass(frozen=True, slots=True)
class Finish(Action):
    """Say that the hub is done; or refuse it, as not fit to be adjusted."""

    refuse: bool = False

    @property
    def words(self) -> str:
        """What was said."""
        return "refused" if self.refuse else "said to be done"

    def cannot(self, bench: Bench) -> str | None:
        """Return that first touch was not looked for yet, or None."""
        if bench.exercise.kind == "touch" and not bench.hub.touched:
            return "The cone has not been turned yet."
        return None

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the last word said on its hub."""
        hub = replace(bench.hub, done="refuse" if self.refuse else "done")
        return bench.with_hub(hub), "You will not adjust this one." if self.refuse else "Done."
