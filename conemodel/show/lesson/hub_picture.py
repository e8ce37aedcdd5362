"""A side of a story as a picture: the close view with names, the rule and its bars below it, and the whole hub.

Both sides have one enlargement and one scale, at every step. All of it is drawn from a `SideView`, which holds nothing
that is still to be guessed.
"""

from dataclasses import dataclass, replace

from conemodel.base.units import MM
from conemodel.show.formatting import STAGE_WORDS
from conemodel.show.instrument.close_up import SHAPE
from conemodel.show.instrument.drawing import Box, Drawing, Label, Plate
from conemodel.show.instrument.drawing_of import drawing_of, factor_of
from conemodel.show.instrument.measures import half_of
from conemodel.show.instrument.paths import Place
from conemodel.show.instrument.rule import changes_of, with_rule
from conemodel.show.instrument.states import describe, state_of
from conemodel.show.instrument.still import State, still_svg
from conemodel.solve.stages.terms import STAGES, setting_terms
from conemodel.tasks.lesson.lesson import Played, SideView, View
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.travel import took_words

WIDTH, WHOLE, LETTERS = 600.0, 280.0, 24.0
"""Width of a side's picture, of its whole hub, and size of its words on the smallest wall [px]."""

NAMED = ("cup", "ball", "cone", "locknut", "axle")
"""Parts that are named where the drawing names them, and what is dented."""

FORCE = (0.95, 2.7)
"""How far in and below its place on a page the clamp's force is written [mm]."""

ROUND, BESIDE = 50.0, 2.0
"""How far above and below the axis the whole hub is seen, and what is cut off at its ends [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HubPicture:
    """A side's picture: its drawing, the close view with the rule, the whole hub seen, and the state of both."""

    drawing: Drawing
    close: Plate
    whole: Box
    state: State
    stage: str
    before: State | None
    title: str
    told: str

    def close_svg(self, *, dark: bool) -> str:
        """Return the close view with the rule as SVG."""
        return still_svg(
            self.drawing,
            self.state,
            stage=self.stage,
            plate=self.close,
            dark=dark,
            width=WIDTH,
            letters=LETTERS,
            before=self.before,
            title=self.title,
            desc=self.told,
        )

    def whole_svg(self, *, dark: bool) -> str:
        """Return the whole hub as SVG."""
        return still_svg(
            self.drawing,
            self.state,
            stage=self.stage,
            sheet="whole",
            view=self.whole,
            dark=dark,
            width=WHOLE,
            labels=False,
            title=self.title,
        )


def common_factor(played: Played, view: View) -> int:
    """Return by how much both sides' movements are drawn larger, the same on both and all along; 0 with no picture."""
    if not any(side.stage for side in view.sides):
        return 0
    return min(factor_of(getattr(played, side.side).scenario) for side in view.sides)


def hub_picture(played: Played, view: View, side: SideView, *, moving: bool = False) -> HubPicture:
    """Return the picture of a side that has one; `moving`: it comes from the stage before."""
    prediction: Prediction = getattr(played, side.side)
    factor = common_factor(played, view)
    drawing = drawing_of(prediction.scenario, good=side.good, factor=factor)
    assert side.stage is not None
    earlier = STAGES[max(STAGES.index(side.stage) - 1, 0)]
    both = [drawing_of(getattr(played, each.side).scenario, factor=factor) for each in view.sides]
    return HubPicture(
        drawing=drawing,
        close=_close(prediction, side, drawing, both),
        whole=_whole(drawing),
        state=state_of(prediction, side.stage, factor=factor),
        stage=side.stage,
        before=state_of(prediction, earlier, factor=factor) if moving else None,
        title=f"{side.caption}: {STAGE_WORDS[side.stage].lower()}",
        told=describe(prediction, side.stage, factor=factor, coarser=drawing.thread_coarser),
    )


def _close(prediction: Prediction, side: SideView, drawing: Drawing, both: list[Drawing]) -> Plate:
    """Return the close view with its rule, framed as both sides are."""
    views = [each.plates["close"].view for each in both]
    width = max(max(view[2], SHAPE * view[3]) for view in views)
    left, top, own, high = drawing.plates["close"].view
    box = (left - (width - own if drawing.out < 0 else 0.0), top + high - width / SHAPE, width, width / SHAPE)
    took = took_words(prediction.scenario, setting_terms(prediction.scenario))
    changes = changes_of(side.terms, took)
    letters = LETTERS * width / WIDTH
    plate = drawing.plates["close"]
    lowest = top + high - 0.3 * letters
    return with_rule(
        drawing,
        replace(plate, labels=_names(prediction, drawing, plate, lowest)),
        box,
        changes,
        good=None if side.good is None else (MM.from_si(side.good[0]), MM.from_si(side.good[1])),
        rows=max(4, len(changes)),
        letters=letters,
    )


def _names(prediction: Prediction, drawing: Drawing, plate: Plate, lowest: float) -> tuple[Label, ...]:
    """Return the names that have room in a wall's type, none below `lowest` [mm]."""
    half = half_of(prediction.scenario, drawing.side)
    shell = Place(0.0, drawing.out).point((-1.6 * half.scale, half.cup_outer + 0.5 * half.scale))
    named = [
        replace(label, at=(label.at[0], min(label.at[1], lowest)))
        for label in plate.labels
        if label.text in NAMED or (label.group or "").startswith("dent")
    ]
    force = next(label for label in plate.labels if label.group == "clamp force")
    low = replace(force, at=(force.at[0] - drawing.out * FORCE[0], force.at[1] + FORCE[1]))
    return (
        *named,
        replace(low, anchor="end" if drawing.out < 0 else "start"),
        Label(text="hub shell", at=shell),
    )


def _whole(drawing: Drawing) -> Box:
    """Return what is seen of the whole hub."""
    left, _, width, _ = drawing.plates["whole"].view
    return (left + BESIDE, -ROUND, width - 2 * BESIDE, 2 * ROUND)
