"""A side of a story as a picture: the close view with names, the rule and its bars below it, and the whole hub.

Both sides have one enlargement and one scale, at every step. All of it is drawn from a `SideView`, which holds nothing
that is still to be guessed.
"""

from dataclasses import dataclass, replace

from conemodel.base.units import MM
from conemodel.show.formatting import STAGE_WORDS
from conemodel.show.instrument.drawing import Box, Drawing, Label, Plate
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.measures import half_of
from conemodel.show.instrument.paths import Place
from conemodel.show.instrument.rule import changes_of, with_rule
from conemodel.show.instrument.states import describe, state_of
from conemodel.show.instrument.still import State, still_svg
from conemodel.show.lesson.common_scale import common_factor, common_size
from conemodel.solve.stages.terms import STAGES, setting_terms
from conemodel.tasks.lesson.lesson import Played, SideView, View
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.travel import took_words

WIDTH, LETTERS = 600.0, 24.0
"""Width of a side's picture and size of its words on the smallest wall [px]."""

WHOLE = 0.28
"""Width of the whole hub over that of its side."""

AWAY = 2.5
"""How far outboard of its flank what pushes on it is written, clear of axle's name and washer's foot [mm]."""

PUSHES = ("ball pushes out", "nut pushes in")
"""What is written on the flanks of the thread that carry."""

NAMED = ("hub shell", "cup", "ball", "cone", "locknut", "axle", *PUSHES)
"""What is named where the drawing names it, and what is dented."""

FORCE = (0.95, 2.7)
"""How far in and below its place on a page the clamp's force is written [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HubPicture:
    """A side's picture: its drawing, the close view bare and with the rule, the whole hub seen, and their state."""

    drawing: Drawing
    bare: Plate
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
            width=WIDTH * WHOLE,
            labels=False,
            title=self.title,
        )


def hub_picture(played: Played, view: View, side: SideView, *, moving: bool = False) -> HubPicture:
    """Return the picture of a side that has one; `moving`: it comes from the stage before."""
    prediction: Prediction = getattr(played, side.side)
    factor = common_factor(played)
    drawing = drawing_of(prediction.scenario, good=side.good, factor=factor)
    assert side.stage is not None
    earlier = STAGES[max(STAGES.index(side.stage) - 1, 0)]
    bare = _bare(prediction, drawing, common_size(played, factor, letters=LETTERS / WIDTH))
    return HubPicture(
        drawing=drawing,
        bare=bare,
        close=_close(prediction, side, drawing, bare),
        whole=drawing.plates["whole"].view,
        state=state_of(prediction, side.stage, factor=factor),
        stage=side.stage,
        before=state_of(prediction, earlier, factor=factor) if moving else None,
        title=f"{side.caption}: {STAGE_WORDS[side.stage].lower()}",
        told=describe(prediction, side.stage, factor=factor, coarser=drawing.thread_coarser),
    )


def _bare(prediction: Prediction, drawing: Drawing, size: tuple[float, float]) -> Plate:
    """Return the close view with its names, as wide and high as both sides are [mm]."""
    width, height = size
    plate = drawing.plates["close"]
    left, top, own, high = plate.view
    box = (left - (width - own if drawing.out < 0 else 0.0), top + high - height, width, height)
    lowest = top + high - 0.22 * LETTERS * width / WIDTH
    return replace(plate, view=box, labels=_names(prediction, drawing, plate, lowest))


def _close(prediction: Prediction, side: SideView, drawing: Drawing, bare: Plate) -> Plate:
    """Return the close view with its rule."""
    changes = changes_of(side.terms, took_words(prediction.scenario, setting_terms(prediction.scenario)))
    width, whole = bare.view[2], drawing.plates["whole"].view
    return with_rule(
        drawing,
        bare,
        bare.view,
        changes,
        good=_millimetres(side.good),
        assumed=_millimetres(side.assumed),
        rows=max(4, len(changes)),
        letters=LETTERS * width / WIDTH,
        corner=(WHOLE * width, WHOLE * width * whole[3] / whole[2]),
    )


def _millimetres(ends: tuple[float, float] | None) -> tuple[float, float] | None:
    return None if ends is None else (MM.from_si(ends[0]), MM.from_si(ends[1]))


def _names(prediction: Prediction, drawing: Drawing, plate: Plate, lowest: float) -> tuple[Label, ...]:
    """Return the names that have room in a wall's type, those in the axle at `lowest` [mm]."""
    half, point = half_of(prediction.scenario, drawing.side), Place(0.0, drawing.out).point
    k, top = half.scale, half.cup_outer
    moved = {"hub shell": point((-1.6 * k, top + 0.5 * k)), "cup": point((-2.9 * k, top - 2 * k))}
    return tuple(
        _placed(label, drawing, lowest)
        if label.text not in moved
        else Label(text=label.text, at=moved[label.text])
        for label in plate.labels
        if label.text in NAMED or (label.group or "").startswith(("dent", "clamp force"))
    )


def _placed(label: Label, drawing: Drawing, lowest: float) -> Label:
    """Return a name where it has room in a wall's type, in the axle at `lowest` [mm]."""
    (x, y), out = label.at, drawing.out
    if label.group == "clamp force":
        return replace(label, at=(x - out * FORCE[0], y + FORCE[1]), anchor="end" if out < 0 else "start")
    if label.on:
        y = lowest  # letters as large as these fill the axle below its teeth
    return replace(label, at=(x + out * AWAY if label.text in PUSHES else x, y))
