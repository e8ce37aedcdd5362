"""What a browser needs to rock a hub whose cone stands still, and to clamp it."""

from typing import Any

from conemodel.base.units import MM
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.hub_json import clamp_json
from conemodel.show.instrument.numbers import exact_json
from conemodel.show.instrument.paints import COLOURS, PAINTS
from conemodel.tasks.setting.predict import Prediction

SHEETS = ("close", "whole")
"""The views it takes: the dial has nothing to turn."""


def rock_json(prediction: Prediction) -> dict[str, Any]:
    """Return a hub at one setting as plain data: its drawing, how that is painted, and its exact numbers.

    `rim` is the play at the rim, stop to stop, with the locknut tight and the clamp open [mm].
    """
    drawing = drawing_of(prediction.scenario).as_json()
    return drawing | {
        "sheets": {name: drawing["sheets"][name] for name in SHEETS},
        "paints": PAINTS,
        "colours": COLOURS,
        "clamp": clamp_json(prediction.scenario),
        "exact": exact_json(prediction),
        "rim": round(float(MM.from_si(prediction.stages["locked"].rim_play)), 4),
    }
