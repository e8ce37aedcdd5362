"""What a hand says it felt: where on the line from loose over right to tight, and how sure it is."""

from dataclasses import dataclass, replace
from typing import ClassVar, Literal, NamedTuple

from conemodel.parts.setting import State
from conemodel.tasks.practice.actions.action import Action
from conemodel.tasks.practice.commitment import WORDS_ASKED, WORDS_NO_MORE, unsaid
from conemodel.tasks.practice.questions import QUESTIONS, right_answer
from conemodel.tasks.practice.session import Bench

Sure = Literal["guessing", "fairly sure", "sure"]

THIRD = 1 / 3
"""Distance from the middle of the line up to which a mark says right [-]: a third of the line for each word."""

NOTHING_FELT = "Nothing was felt yet that could be said: feel it first."


class Place(NamedTuple):
    """A stretch of the line: up to which mark it reaches [-], and its words."""

    up_to: float
    words: str


LINE = (
    Place(-0.85, "very loose"),
    Place(-0.55, "loose"),
    Place(-THIRD, "a little loose"),
    Place(-0.05, "right, on the loose side"),
    Place(0.05, "right, in the middle"),
    Place(THIRD, "right, on the tight side"),
    Place(0.55, "a little tight"),
    Place(0.85, "tight"),
    Place(1.0, "very tight"),
)
"""The line from loose (-1) over right (0) to tight (1)."""


def line_words(mark: float) -> str:
    """Return what a mark on the line says.

    >>> line_words(-1.0), line_words(0.0), line_words(0.4)
    ('very loose', 'right, in the middle', 'a little tight')
    """
    return next(place.words for place in LINE if mark <= place.up_to or place is LINE[-1])


def state_said(mark: float) -> State:
    """Return the word that a mark on the line comes to."""
    if abs(mark) <= THIRD:
        return "right"
    return "loose" if mark < 0 else "tight"


@dataclass(frozen=True, slots=True)
class Judge(Action):
    """Say what was felt: a mark on the line, -1 loose to 1 tight, and how sure; where a hub is named, its name.

    `sure` is None where nobody asked how sure.
    """

    mark: float
    sure: Sure | None
    counts: ClassVar[bool] = False

    @property
    def words(self) -> str:
        """What was said; where nobody asked how sure, one of three words was chosen, and no place on a line."""
        if self.sure is None:
            return f"said it is {state_said(self.mark)}"
        return f"said it is {line_words(self.mark)} ({self.sure})"

    def cannot(self, bench: Bench) -> str | None:
        """Return that nothing was felt to be said, or not enough to name it; or None."""
        if not -1 <= self.mark <= 1:
            return "That is not on the line."
        if "name" in bench.exercise.questions:
            return QUESTIONS["name"].not_now(bench.hub)
        return None if unsaid(bench) else NOTHING_FELT

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with it said; where this is training, the words for what was felt, and the truth."""
        names = "name" in bench.exercise.questions
        hub = replace(bench.hub, judged=(self.mark, self.sure))
        if names:
            others = tuple(pair for pair in hub.answers if pair[0] != "name")
            hub = replace(hub, answers=(*others, ("name", state_said(self.mark))), done="named")
        told = "Noted."
        if not bench.exercise.assessed:
            told = " ".join(event.told for event in unsaid(bench))
            told = f"It is {right_answer(bench.secret, 'name')}. {told}" if names else told
        return bench.with_hub(hub), told


@dataclass(frozen=True, slots=True)
class InWords(Action):
    """Ask for words for what hands feel, in place of picture, sound and vibration; or no longer."""

    on: bool = True
    counts: ClassVar[bool] = False
    is_taken_back: ClassVar[bool] = False
    after_last_word: ClassVar[bool] = True

    @property
    def words(self) -> str:
        """What was asked."""
        return WORDS_ASKED if self.on else WORDS_NO_MORE

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench that says in words what is felt, or no longer does."""
        told = (
            "What hands feel is told in words now."
            if self.on
            else "What hands feel is no longer told in words."
        )
        return replace(bench, words=self.on), told
