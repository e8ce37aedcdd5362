"""The hub standing still, as SVG for a page: at a stage of a prediction, or whole with the names of its parts."""

from conemodel.parts.scenario import Scenario
from conemodel.show.formatting import STAGE_WORDS
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.part_names import with_names
from conemodel.show.instrument.states import describe, state_of
from conemodel.show.instrument.still import still_svg
from conemodel.tasks.setting.predict import Prediction

PHONE, PAGE = 390.0, 914.0
"""Widths of a picture on a phone and on a page [px]."""


def stage_svg(
    prediction: Prediction,
    *,
    stage: str,
    factor: int | None = None,
    dark: bool = False,
    compact: bool = False,
    good: bool = True,
    labels: bool = True,
    before: str | None = None,
) -> str:
    """Return the bearing that is adjusted, large, as it stands at a stage.

    Args:
        prediction: of the hub.
        stage: one of its names.
        factor: how many times larger movement is drawn, the hub's own if None.
        dark: for a dark ground.
        compact: for a phone.
        good: where the race should stand is shown.
        labels: parts are named.
        before: a stage from which everything moves to where it stands; it stands still if None.
    """
    window = prediction.window
    edges = (window.tight_edge, window.loose_edge) if good else None
    drawing = drawing_of(prediction.scenario, good=edges, factor=factor)
    view = drawing.plates["close"].narrow if compact else None
    return still_svg(
        drawing,
        state_of(prediction, stage, factor=drawing.factor),
        stage=stage,
        dark=dark,
        view=view,
        title=f"{prediction.scenario.name}: {STAGE_WORDS[stage].lower()}",
        desc=describe(prediction, stage, factor=drawing.factor, coarser=drawing.thread_coarser),
        labels=labels,
        width=PHONE if compact else PAGE,
        before=None if before is None else state_of(prediction, before, factor=drawing.factor),
    )


def parts_svg(scenario: Scenario, dark: bool = False, *, compact: bool = False) -> str:
    """Return the whole hub in its frame with the name of every part."""
    drawing = drawing_of(scenario)
    plate = with_names(drawing.plates["whole"], scenario, width=PHONE if compact else PAGE, half=compact)
    return still_svg(
        drawing,
        {"clamp": 1.0, "lever": 1.0, "nut": 1.0},
        stage="clamped",
        sheet="whole",
        plate=plate,
        dark=dark,
        title=f"{scenario.name}: the parts",
        desc="The hub with the names of its parts, above its axis cut, below it seen: cones are screwed on the axle "
        "and stand still; cups, balls and shell turn with the wheel.",
        width=PHONE if compact else PAGE,
    )
