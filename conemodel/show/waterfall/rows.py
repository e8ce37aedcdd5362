"""The rows of the waterfall: what every term does to the end play, and the level each stage leaves."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from conemodel.base.table import Column, Table
from conemodel.base.units import DEG, MM
from conemodel.show.formatting import (
    STAGE_WORDS,
    change_words,
    cone_place,
    degrees,
    play_words,
    preload_words,
)
from conemodel.solve.stages.terms import Term
from conemodel.tasks.setting.predict import Prediction

Kind = Literal["opens", "closes", "level"]

COLOURS: dict[Kind, str] = {"opens": "petrol", "closes": "taken", "level": "level"}
"""Colour of each kind of row, by its name in `Tones`."""

ROUNDING = 1e-9
"""A term shorter than this is not drawn [m]: no gauge sees it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
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

    @property
    def is_level(self) -> bool:
        """It says how much play there is, and not by how much that changed: so does what the fingers began with."""
        return self.kind == "level" or self.stage == "contact"

    @property
    def size(self) -> str:
        """The length in mm in words or with its sign; sizes add up as they are printed."""
        return play_words(self.end) if self.is_level else change_words(self.start, self.end)

    @property
    def turn(self) -> str:
        """The length as a turn of the cone, with its sign where it is a change."""
        return cone_place(self.angle) if self.is_level else degrees(self.angle, sign=True)


Stages = Mapping[str, Sequence[Term]]
"""The terms of each stage, in order of the work."""


def rows_of(stages: Stages, *, lead: float) -> tuple[Row, ...]:
    """Return every row there is: the terms of each stage, then the level it leaves.

    `lead` of the cone's thread [m/rad].
    """
    return tuple(_rows(stages, lead))


def _rows(stages: Stages, lead: float) -> Iterator[Row]:
    level = 0.0
    for stage, terms in stages.items():
        for term in terms:
            start, level = level, level + term.length
            yield Row(
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
        yield Row(
            stage=stage,
            key="level",
            kind="level",
            words=STAGE_WORDS[stage],
            length=level,
            start=0.0,
            end=level,
            angle=level / lead,
            leads_on=stage != list(stages)[-1],
        )


def rows_shown(stages: Stages, *, lead: float, state: Callable[[Row], str] = lambda _: "") -> tuple[Row, ...]:
    """Return the rows that are drawn: no term that changes nothing, and no level of finger contact, which has one term.

    Arguments as for `rows_of`; `state`: what more is said of a level, if anything.
    """
    return tuple(
        replace(row, words=": ".join(filter(None, (row.words, state(row))))) if row.kind == "level" else row
        for row in rows_of(stages, lead=lead)
        if (row.stage != "contact" if row.kind == "level" else abs(row.length) >= ROUNDING)
    )


def rows_of_prediction(prediction: Prediction) -> tuple[Row, ...]:
    """Return the rows of a prediction that are drawn, in order."""
    last = list(prediction.stages)[-1]

    def state(row: Row) -> str:
        found = prediction.stages[row.stage]
        return "the same" if row.stage == last and not found.terms else preload_words(found)

    lead = prediction.scenario.axle.lead_per_radian
    return rows_shown(_stages(prediction), lead=lead, state=state)


def _stages(prediction: Prediction) -> Stages:
    return {name: stage.terms for name, stage in prediction.stages.items()}


_TERMS: tuple[Column[Row], ...] = (
    Column(lambda row: row.stage, key="stage"),
    Column(lambda row: STAGE_WORDS[row.stage], text="stage", left=True),
    Column(lambda row: row.key, key="key"),
    Column(lambda row: row.words, key="label"),
    Column(lambda row: row.words + (" (assumed)" if row.assumed else ""), text="what moved", left=True),
    Column(lambda row: row.length, MM, "length_mm"),
    Column(lambda row: row.angle, DEG, "cone_deg"),
    Column(lambda row: row.size, text="mm"),
    Column(lambda row: row.turn, text="as a turn"),
    Column(lambda row: play_words(row.end), text="which leaves"),
    Column(lambda row: row.start, MM, "before_mm"),
    Column(lambda row: row.end, MM, "after_mm"),
    Column(lambda row: row.assumed, key="assumed"),
)


def list_terms(prediction: Prediction) -> Table[Row]:
    """Return the table of every term of end play, in order, each with the end play before and after it."""
    lead = prediction.scenario.axle.lead_per_radian
    rows = rows_of(_stages(prediction), lead=lead)
    return Table(_TERMS, [row for row in rows if row.kind != "level"])
