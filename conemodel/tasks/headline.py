"""The headline: the largest words about a hub, made in one place from three questions.

Is it safe to ride; is the hub sound; where does the adjustment stand. The first that has something to say says it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

HeadlineQuestion = Literal["safe", "sound", "adjustment"]

SELDOM, OFTEN = 0.05, 0.95
"""Chances below and above which no number of ten is said."""

DO_NOT_RIDE = "Do not ride"
"""How every warning of a wheel that may come out begins."""

STRIP = "Strip it and look"
"""What comes before any turn of the cone where races, balls or axle may be spoilt."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What is to be said to one question.

    Attributes:
        words: a few, for the largest type, without a full stop.
        certainty: how sure they are, in plain words; empty where it was seen or measured.
        why: a sentence or two; act: what to do next, a short sentence; more: what else belongs to that.
        unsafe: it is a reason not to ride.
    """

    words: str
    certainty: str = ""
    why: str = ""
    act: str = ""
    more: str = ""
    unsafe: bool = False

    @property
    def head(self) -> str:
        """What it is and how sure, with a full stop."""
        return f"{self.words}, {self.certainty}." if self.certainty else f"{self.words}."

    @property
    def rest(self) -> str:
        """All that follows the head, in sentences."""
        return " ".join(part for part in (self.why, self.act, self.more) if part)

    @property
    def sentence(self) -> str:
        """The whole answer in plain words."""
        return f"{self.head} {self.rest}".rstrip()


@dataclass(frozen=True, slots=True, kw_only=True)
class Headline:
    """The largest words about a hub, and what stands below them.

    Attributes:
        question: the one they answer; answer: what they say.
        below: what is to be said besides, in the order of the questions.
    """

    question: HeadlineQuestion
    answer: Answer
    below: tuple[Answer, ...]

    @property
    def answers(self) -> tuple[Answer, ...]:
        """Everything that is to be said, the most serious first."""
        return self.answer, *self.below

    @property
    def stops(self) -> tuple[Answer, ...]:
        """What stands below and is unsafe or unsound as well, each a stop of its own."""
        return self.below if self.question == "safe" else self.below[:-1]

    @property
    def unsafe(self) -> tuple[str, ...]:
        """Reasons not to ride, in sentences, most serious first; usually none."""
        return tuple(one.sentence for one in self.answers if one.unsafe)

    @property
    def line(self) -> str:
        """The headline in one line: what it is, how sure, and what to do."""
        return f"{self.answer.head} {self.answer.act}".rstrip()

    @property
    def sentences(self) -> str:
        """All of it in plain words."""
        return " ".join(answer.sentence for answer in self.answers)


def headline_of(*, unsafe: Sequence[Answer], unsound: Sequence[Answer], adjustment: Answer) -> Headline:
    """Return the headline: unsafe first, unsound second, the adjustment last.

    Beside something unsafe the adjustment is not said at all.
    """
    if unsafe:
        return Headline(question="safe", answer=unsafe[0], below=(*unsafe[1:], *unsound))
    if unsound:
        return Headline(question="sound", answer=unsound[0], below=(*unsound[1:], adjustment))
    return Headline(question="adjustment", answer=adjustment, below=())


def of_ten(chance: float) -> str:
    """Return a chance as a person says it.

    >>> of_ten(0.42), of_ten(0.99), of_ten(0.02)
    ('on 4 of 10 such hubs', 'almost surely', 'hardly ever')
    """
    if chance > OFTEN:
        return "almost surely"
    return f"on {_tenths({'it': chance})['it']} of 10 such hubs" if chance >= SELDOM else "hardly ever"


def shares_of_ten(chances: Mapping[str, float]) -> str:
    """Return several chances by their words in one breath; what is hardly ever so is left out.

    >>> shares_of_ten({"loose": 0.48, "right": 0.42, "too tight": 0.1})
    'loose on 5, right on 4, too tight on 1 of 10 such hubs'
    >>> shares_of_ten({"right": 0.97, "too tight": 0.02})
    'right almost surely'
    """
    said = {words: chance for words, chance in chances.items() if chance >= SELDOM}
    if len(said) == 1:
        return " ".join((*said, of_ten(next(iter(said.values())))))
    counts = ", ".join(f"{words} on {tenths}" for words, tenths in _tenths(said).items())
    return f"{counts} of 10 such hubs"


def _tenths(chances: Mapping[str, float]) -> dict[str, int]:
    """Return how many of ten each of several chances is, at least one; with what none of them is they add up to ten.

    Source: method of the largest remainder (Hamilton's), of equal remainders the smaller chance first.
    """
    shares = {words: 10 * chance for words, chance in chances.items()}
    left_out = 1 - sum(chances.values())
    if left_out >= SELDOM:
        shares[""] = 10 * left_out
    tenths = {words: max(int(share), 1) for words, share in shares.items()}
    while sum(tenths.values()) < 10:
        tenths[max(shares, key=lambda words: (round(shares[words] - tenths[words], 9), -shares[words]))] += 1
    while sum(tenths.values()) > 10:
        tenths[max(shares, key=lambda words: (tenths[words] > 1, tenths[words] - shares[words]))] -= 1
    return {words: tenths[words] for words in chances}
