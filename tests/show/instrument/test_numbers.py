"""What the instrument is sent: small, plain, and of one hub whatever its back-off; exact where the cone stands."""

import json
from pathlib import Path

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.show.headline import headline_json
from conemodel.show.instrument.numbers import exact_json, numbers_json
from conemodel.tasks.setting.travel import travel_of

MOST_BYTES = 20_000
"""A third of what a hub's whole picture may send, so that a phone has it in one breath."""


@pytest.mark.parametrize("path", sorted(library.SCENARIOS.glob("*.toml")), ids=lambda path: path.stem)
def test_a_hubs_numbers_are_small_and_plain(path: Path) -> None:
    numbers = numbers_json(travel_of(cm.load_scenario(path)))
    sent = json.dumps(numbers, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    assert len(sent.encode()) < MOST_BYTES
    answers = numbers["answers"]
    assert len({len(column) for name, column in answers.items() if name != "texts"}) == 1
    assert answers["from"] == sorted(answers["from"])
    assert answers["from"][0] == numbers["from"]


def test_they_are_the_same_wherever_the_cone_stands() -> None:
    scenario = cm.load_scenario(library.SCENARIOS / "touring-rear.toml")
    assert numbers_json(travel_of(scenario)) == numbers_json(travel_of(scenario.with_setting(back_off=0.3)))


@pytest.mark.parametrize("name", ["touring-rear", "dented-cone", "proud-axle"])
def test_the_exact_answer_has_the_words_of_the_headline(name: str) -> None:
    prediction = cm.predict(cm.load_scenario(library.SCENARIOS / f"{name}.toml"))
    exact, said = exact_json(prediction), headline_json(prediction.verdict.headline)
    for word in ("question", "words", "certainty", "act"):
        assert exact["answer"][word] == said[word]
    assert exact["end_play"]["clamped"] == pytest.approx(1e3 * prediction.stages["clamped"].end_play)
    assert json.loads(json.dumps(exact, allow_nan=False)) == exact


@pytest.mark.parametrize("back_off", [0.1, 0.17, 0.25, 0.4])
def test_the_load_on_a_ball_is_that_of_the_setting(back_off: float) -> None:
    """Read between points, as the picture reads it, within 5 % of what is predicted for this setting."""
    scenario = cm.load_scenario(library.SCENARIOS / "touring-rear.toml").with_setting(back_off=back_off)
    felt, exact = numbers_json(travel_of(scenario))["felt"], exact_json(cm.predict(scenario))
    read = np.interp(exact["end_play"]["ridden"], felt["end_play"], felt["ball_load"])
    assert read == pytest.approx(exact["ball_load"], rel=0.05)
