"""The hub of the start page: it knocks with its clamp open and is right with it shut, by `predict` itself."""

import json

import pytest

from conemodel.base.units import DEG, MM
from conemodel.tasks.setting.predict import predict
from conemodel.ui.choose_hub import ready_hubs
from conemodel.ui.own_hub import FIRST_HUB
from conemodel.ui.start import DOORS, hub_data, part_names, shown_hub

FELT = 0.1
"""Play at the rim that fingers feel for certain [mm]; common practice, no source."""


def test_the_hub_is_the_first_one_but_for_its_cone():
    turned = shown_hub().setting.back_off
    assert shown_hub() == ready_hubs()[FIRST_HUB].with_setting(back_off=turned)


def test_it_is_loose_open_and_right_clamped():
    prediction = predict(shown_hub())
    locked, clamped = (prediction.stages[stage] for stage in ("locked", "clamped"))
    assert prediction.window.state(locked.end_play) == "loose"
    assert MM.from_si(locked.rim_play) > FELT
    assert prediction.verdict.state == "right"
    assert prediction.window.state(clamped.end_play) == "right"
    assert clamped.rim_play == 0


def test_what_the_browser_gets_is_what_was_predicted():
    prediction, data = predict(shown_hub()), hub_data()
    assert data["exact"]["angle"] == pytest.approx(DEG.from_si(prediction.scenario.setting.back_off))
    for stage, result in prediction.stages.items():
        assert data["exact"]["end_play"][stage] == pytest.approx(MM.from_si(result.end_play), abs=1e-9)
    assert data["rim"] == pytest.approx(MM.from_si(prediction.stages["locked"].rim_play), abs=1e-4)


def test_it_is_sent_in_less_than_sixty_kilobytes():
    assert len(json.dumps(hub_data(), separators=(",", ":"))) < 60_000


def test_every_part_that_can_be_pointed_at_is_in_the_list():
    names = part_names()
    assert len(names) == len(set(names))
    assert {
        "cone",
        "ball",
        "cup",
        "axle",
        "keyed washer",
        "locknut",
        "dust cap",
        "lever",
        "rim",
        "spokes",
    } <= set(names)
    assert not {"rider", "road", "the close view", "vice"} & set(names)


def test_every_page_is_behind_one_door():
    behind = [page for door in DOORS for page in door.pages]
    assert len(behind) == len(set(behind))
