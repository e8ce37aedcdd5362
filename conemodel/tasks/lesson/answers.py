"""The right answer to a step of a story, always predicted, and how sure it is over everything that is assumed."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.lesson import StoryStep
from conemodel.tasks.headline import of_ten, shares_of_ten
from conemodel.tasks.setting.aim import aim_of
from conemodel.tasks.setting.chances import SMALL, SURE
from conemodel.tasks.setting.drawn_hubs import DrawnHubs
from conemodel.tasks.setting.predict import Prediction

CANNOT = "cannot be told from this"
"""The answer where no other is right on two thirds of all such hubs."""

NONE_OF_THESE = "none of these"
"""The answer where no turn of the cone helps."""

OPTIONS = {
    "turn": ("in (clockwise)", "out (anticlockwise)", "leave it", CANNOT),
    "change": ("tighter", "looser", "neither", CANNOT),
    "compare": ("tighter than the other", "looser than the other", "alike", CANNOT),
}
"""What a class can commit to, by what is asked."""

UNCHANGED = 1e-6
"""A step that changes the end play by less is called neither tighter nor looser [m]: no hand finds it."""

ALIKE = 5e-6
"""Two sides whose end plays differ by less are called alike [m]: a third of what a trained hand finds at the rim."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The right answer.

    Attributes:
        words: of it; certainty: how sure it is; chance: the same, None where it was seen and is certain.
        turn: how far the cone is to be turned along the axle [m], positive out; None where that is not the answer.
    """

    words: str
    certainty: str
    chance: float | None = None
    turn: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One side of a story: as predicted, and as the hubs it may be."""

    prediction: Prediction
    drawn: DrawnHubs


def answer_of(step: StoryStep, side: Told, other: Told, before: str | None, now: str) -> Answer:
    """Return the answer to what a step asks of a side; it leads from the stage `before` to `now`."""
    if step.ask == "turn":
        return _turn(side)
    if step.ask == "compare":
        return _compare(side, other, now)
    return _change(side, before, now)


def _turn(side: Told) -> Answer:
    """Return which way the cone is to be turned, if at all."""
    verdict = side.prediction.verdict
    if verdict.headline.question != "adjustment" or verdict.turn is None:
        return Answer(words=NONE_OF_THESE, certainty=verdict.headline.answer.words)
    chances = side.drawn.chances_at(0.0)
    inwards, outwards, leave, _ = OPTIONS["turn"]
    answer = _surest(
        {inwards: chances.loose, leave: chances.right, outwards: chances.tight},
        {inwards: "loose", leave: "right", outwards: "too tight"},
    )
    turn = aim_of(side.drawn).moved
    told = inwards if turn < 0 else outwards
    return replace(answer, turn=turn) if answer.words == told else answer


def _change(side: Told, before: str | None, now: str) -> Answer:
    """Return what a step does to the end play."""
    tighter, looser, neither, _ = OPTIONS["change"]
    if now in ("locked", "clamped") and side.prediction.joint.runs_in:
        # the cone stops only at the balls, however the rest may be: the hubs drawn are of one that is held
        return Answer(words=tighter, certainty="nothing keeps the cone from running in", chance=1.0)
    start: Array | float = side.drawn.end_plays[before] if before else 0.0
    return _surest(_shares(side.drawn.end_plays[now] - start, UNCHANGED, (tighter, looser, neither)))


def _compare(side: Told, other: Told, now: str) -> Answer:
    """Return how a side stands beside the other."""
    tighter, looser, alike, _ = OPTIONS["compare"]
    apart = side.drawn.end_plays[now] - other.drawn.end_plays[now]
    return _surest(_shares(apart, ALIKE, (tighter, looser, alike)))


def _shares(change: Array, least: float, names: tuple[str, str, str]) -> dict[str, float]:
    """Return how often a change (n,) [m] is tighter, looser or neither, by these names."""
    tighter, looser = float(np.mean(change < -least)), float(np.mean(change > least))
    return dict(zip(names, (tighter, looser, 1.0 - tighter - looser), strict=True))


def _surest(chances: Mapping[str, float], states: Mapping[str, str] | None = None) -> Answer:
    """Return the answer that is right on two thirds of all such hubs, or that it cannot be told; `states` as words."""
    words = states or {name: name.removesuffix(" than the other") for name in chances}
    surest = max(chances, key=lambda name: chances[name])
    if chances[surest] >= SURE:
        said = f"{words[surest]} " if states else ""
        return Answer(words=surest, certainty=f"{said}{of_ten(chances[surest])}", chance=chances[surest])
    listed = {words[name]: chance for name, chance in chances.items() if chance >= SMALL}
    return Answer(words=CANNOT, certainty=shares_of_ten(listed), chance=1.0)
