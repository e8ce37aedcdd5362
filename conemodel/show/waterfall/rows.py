"""The rows of the waterfall: what every term does to the end play, and the level each stage leaves."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from conemodel.base.table import Column, Table
from conemodel.base.units import DEG, MM
from conemodel.show.formatting import STAGE_WORDS, play_or_preload
from conemodel.solve.stages.terms import Term
from conemodel.tasks.setting.predict import Prediction

Kind = Literal["opens", "closes", "level"]

ROUNDING = 1e-9
"""A term shorter than this is not drawn [m]: no gauge sees it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterfallStep:
    """One row of the waterfall: a term that moves the end play, or the level a stage leaves.

    Attributes:
        stage: its name; key: of the term, or "level"; kind: opens, closes, or level.
        words: what to call it.
        length: the change, or the level itself [m].
        start, end: end play before and after [m]; a level starts at zero.
        angle: the length as a turn of the cone [rad].
        assumed: it rests on something nobody measured.
        leads_on: the next row begins where this one ends.
    """

    stage: str
    key: str
    kind: Kind
    words: str
    length: float
    start: float
    end: float
    angle: float
    assumed: bool = False
    leads_on: bool = True


Stages = Mapping[str, Sequence[Term]]
"""The terms of each stage, in order of the work."""


def steps_shown(prediction: Prediction) -> tuple[WaterfallStep, ...]:
    """Return the rows of the waterfall of a prediction, in order."""
    last = list(prediction.stages)[-1]

    def state(stage: str, level: float) -> str:
        found = prediction.stages[stage]
        return "the same" if stage == last and not found.terms else play_or_preload(found)

    return steps_of(_stages(prediction), lead=prediction.scenario.axle.lead_per_radian, state=state)


def steps_of(stages: Stages, *, lead: float, state: Callable[[str, float], str]) -> tuple[WaterfallStep, ...]:
    """Return the rows of the waterfall: the terms of each stage, then the level it leaves.

    Terms that change nothing are left out. Finger contact has one term and so no level of its own.

    Args:
        stages: their terms.
        lead: of the cone's thread [m/rad].
        state: words for the level [m] of a stage.
    """
    return tuple(_steps(stages, lead, state))


def _steps(stages: Stages, lead: float, state: Callable[[str, float], str]) -> Iterator[WaterfallStep]:
    moves = list(_moves(stages, lead))
    level = 0.0
    for stage in stages:
        for move in moves:
            if move.stage != stage:
                continue
            level = move.end
            if abs(move.length) >= ROUNDING:
                yield move
        if stage != "contact":
            yield WaterfallStep(
                stage=stage,
                key="level",
                kind="level",
                words=f"{STAGE_WORDS[stage]}: {state(stage, level)}",
                length=level,
                start=0.0,
                end=level,
                angle=level / lead,
                leads_on=stage != list(stages)[-1],
            )


def _moves(stages: Stages, lead: float) -> Iterator[WaterfallStep]:
    """Yield a row for every term, the ones that change nothing too."""
    level = 0.0
    for stage, terms in stages.items():
        for term in terms:
            start, level = level, level + term.length
            yield WaterfallStep(
                stage=stage,
                key=term.key,
                kind="opens" if term.length > 0 else "closes",
                words=term.label,
                length=term.length,
                start=start,
                end=level,
                angle=term.length / lead,
                assumed=term.assumed,
            )


def _stages(prediction: Prediction) -> Stages:
    return {name: stage.terms for name, stage in prediction.stages.items()}


_TERMS: tuple[Column[WaterfallStep], ...] = (
    Column(lambda step: step.stage, key="stage"),
    Column(lambda step: STAGE_WORDS[step.stage], text="stage", left=True),
    Column(lambda step: step.key, key="key"),
    Column(lambda step: step.words, key="label"),
    Column(lambda step: step.words + (" (assumed)" if step.assumed else ""), text="what moved", left=True),
    Column(lambda step: step.length, MM, "length_mm"),
    Column(lambda step: step.angle, DEG, "cone_deg"),
    Column(lambda step: f"{MM.from_si(step.length):+.4f}", text="mm"),
    Column(lambda step: f"{DEG.from_si(step.angle):+.1f}", text="cone °"),
    Column(lambda step: step.start, MM, "before_mm"),
    Column(lambda step: step.end, MM, "after_mm"),
    Column(lambda step: step.assumed, key="assumed"),
)


def list_terms(prediction: Prediction) -> Table[WaterfallStep]:
    """Return the table of every term of end play, in order, each with the end play before and after it."""
    lead = prediction.scenario.axle.lead_per_radian
    return Table(_TERMS, list(_moves(_stages(prediction), lead)))
