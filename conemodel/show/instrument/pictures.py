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


def stage_svg(prediction: Prediction, *, stage: str) -> str:
    """Return the bearing that is adjusted, large, as it stands at a stage, and where its race should stand clamped."""
    window = prediction.window
    drawing = drawing_of(prediction.scenario, good=(window.tight_edge, window.loose_edge))
    return still_svg(
        drawing,
        state_of(prediction, stage, factor=drawing.factor),
        stage=stage,
        title=f"{prediction.scenario.name}: {STAGE_WORDS[stage].lower()}",
        desc=describe(prediction, stage, factor=drawing.factor, coarser=drawing.thread_coarser),
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
