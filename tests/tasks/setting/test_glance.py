"""A glance says what the whole prediction says, of every ready hub and wherever its cone stands."""

from dataclasses import replace
from pathlib import Path

import pytest

import conemodel as cm
from conemodel.base.units import DEG
from conemodel.parts import library
from conemodel.show.instrument.numbers import exact_json, glance_json
from conemodel.tasks.setting.glance import glance_at


@pytest.mark.parametrize("path", sorted(library.SCENARIOS.glob("*.toml")), ids=lambda path: path.stem)
def test_it_has_the_end_plays_and_the_verdict_of_the_prediction(path: Path) -> None:
    hub = cm.load_scenario(path)
    for angle in (-30, 40, 90):
        scenario = hub.with_setting(back_off=DEG.to_si(angle))
        glance, whole = glance_at(scenario), cm.predict(scenario)
        assert glance.end_play == {name: stage.end_play for name, stage in whole.stages.items()}
        assert (
            replace(glance.verdict, headline=whole.verdict.headline, notes=whole.verdict.notes)
            == whole.verdict
        )
        seen, exact = glance_json(glance), exact_json(whole)
        assert seen["answer"] | {"why": ""} == exact["answer"] | {"why": ""}
        assert (seen["angle"], seen["end_play"]) == (exact["angle"], exact["end_play"])
