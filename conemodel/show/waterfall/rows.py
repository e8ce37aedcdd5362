"""The steps that the waterfall shows, on the screen and on paper."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from conemodel.show.formatting import STAGE_WORDS, cone_angle, play_or_preload
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.stage_result import Stage

Kind = Literal["opens", "closes", "level"]

ROUNDING = 1e-9
"""A term shorter than this is not drawn [m]: no gauge sees it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One row of the waterfall: a term that moves the end play, or the level a stage leaves.

    Attributes:
        stage: its name; kind: opens, closes, or level.
        words: what to call it.
        start, end: end play before and after [m]; a level starts at nought.
        angle: what is shown, as a turn of the cone [rad].
        assumed: it rests on something nobody measured.
        leads_on: the next row begins where this one ends.
    """

    stage: str
    kind: Kind
    words: str
    start: float
    end: float
    angle: float
    assumed: bool
    leads_on: bool

    @property
    def shown(self) -> float:
        """What stands beside it [m]: the change, or the level itself."""
        return self.end - self.start


def steps_shown(prediction: Prediction) -> tuple[Step, ...]:
    """Return the rows of the waterfall in order: the terms of each stage, then the level it leaves.

    Terms that change nothing are left out. Finger contact has one term and so no level of its own.
    """
    return tuple(_steps(prediction))


def _steps(prediction: Prediction) -> Iterator[Step]:
    level = 0.0
    for stage in prediction.stages.values():
        for term in stage.terms:
            start, level = level, level + term.length
            if abs(term.length) < ROUNDING:
                continue
            yield Step(
                stage=stage.name,
                kind="opens" if term.length > 0 else "closes",
                words=term.label,
                start=start,
                end=level,
                angle=cone_angle(prediction, term.length),
                assumed=term.assumed,
                leads_on=True,
            )
        if stage.name != "contact":
            yield _level(prediction, stage)


def _level(prediction: Prediction, stage: Stage) -> Step:
    last = stage.name == list(prediction.stages)[-1]
    state = "the same" if last else play_or_preload(stage)
    return Step(
        stage=stage.name,
        kind="level",
        words=f"{STAGE_WORDS[stage.name]}: {state}",
        start=0.0,
        end=stage.end_play,
        angle=cone_angle(prediction, stage.end_play),
        assumed=False,
        leads_on=not last,
    )
