"""The rule under the close view: its sums, its scale, and what it leaves out."""

import re

import pytest

from conemodel.parts.toml_files import load_scenario
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.rule import changes_of, with_rule
from conemodel.solve.stages.terms import STAGES, setting_terms
from conemodel.tasks.setting.predict import Prediction, predict
from conemodel.tasks.setting.travel import took_words

BOX = (-30.0, -17.0, 38.0, 15.0)


@pytest.fixture(scope="module")
def touring() -> Prediction:
    return predict(load_scenario("scenarios/touring-rear.toml"))


def changes(prediction: Prediction, upto: str):
    stages = [(name, prediction.stages[name].terms) for name in STAGES[: STAGES.index(upto) + 1]]
    return changes_of(stages, took_words(prediction.scenario, setting_terms(prediction.scenario)))


@pytest.mark.parametrize("upto", ["backed_off", "locked", "clamped"])
def test_printed_amounts_add_up_to_the_printed_end_play(touring: Prediction, upto: str) -> None:
    found = changes(touring, upto)
    signed = [
        float(re.findall(r"[\d.]+$", each.words)[0]) * (1 if each.end > each.start else -1) for each in found
    ]
    assert sum(signed) == pytest.approx(round(touring.stages[upto].end_play * 1e3, 3), abs=1e-9)


def test_bars_are_to_the_scale_of_the_gap_and_nothing_good_is_shown_unasked(touring: Prediction) -> None:
    drawing = drawing_of(touring.scenario)
    found = changes(touring, "locked")
    plate = with_rule(drawing, drawing.plates["close"], BOX, found, good=None, rows=4, letters=1.5)
    bars = [part for group in plate.groups for part in group.parts if part.name == "bar"]
    for bar, change in zip(bars, found, strict=True):
        across = [float(x) for x in re.findall(r"[ML]([-\d.]+) ", bar.d)]
        assert max(across) - min(across) == pytest.approx(
            drawing.factor * abs(change.end - change.start), abs=0.02
        )
    names = {part.name for group in plate.groups for part in group.parts}
    assert "plate" in names
    assert not names & {"good-zone", "too-tight"}
