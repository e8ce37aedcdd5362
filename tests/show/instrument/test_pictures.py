"""Stills of the hub: to the stage of a prediction, with every name clear of the others, and nothing told too early."""

import itertools
import re
import xml.etree.ElementTree as ET

import pytest

from conemodel.show.instrument.pictures import PHONE, parts_svg, stage_svg
from conemodel.tasks.setting.predict import predict
from conemodel.tasks.wording import force_words
from tests.show.instrument.drawn import STAGES

MOVED = re.compile(r"translate\(([-\d.]+) 0\)")


def read(svg):
    return ET.fromstring(svg)


def words(root):
    return [mark.text for mark in root.iter() if mark.tag.endswith("}text")]


def group(root, name):
    return next((each for each in root.iter() if each.get("data-group") == name), None)


def shift(root, name):
    moved = MOVED.search(group(root, name).get("transform", ""))
    return float(moved[1]) if moved else 0.0


@pytest.mark.parametrize("stage", STAGES)
def test_the_cone_stands_at_the_end_play_of_the_stage_times_the_factor_that_is_said(prediction, stage):
    root = read(stage_svg(prediction, stage=stage))
    factor, out = int(root.get("data-factor")), 1 if root.get("data-side") == "right" else -1
    play = prediction.stages[stage].end_play * 1e3
    assert shift(root, "cone") == pytest.approx(out * factor * play, abs=1e-5)
    assert f"{factor} times" in root[1].text
    assert prediction.scenario.name in root[0].text


def test_contact_is_marked_only_where_a_ball_touches(touring, tight):
    loose, pinched = (read(stage_svg(each, stage="clamped")) for each in (touring, tight))
    assert group(loose, "touches cone") is None
    assert group(loose, "gap at ball") is not None
    assert group(pinched, "touches cone") is not None
    assert group(pinched, "gap at ball") is None
    assert f"pinched with {force_words(tight.stages['clamped'].preload)}" in pinched[1].text


def test_words_on_the_flanks_say_what_pushes(touring):
    said = {stage: set(words(read(stage_svg(touring, stage=stage)))) for stage in STAGES}
    assert "ball pushes out" in said["contact"]
    assert not {"ball pushes out", "nut pushes in"} & said["backed_off"]
    assert "nut pushes in" in said["locked"]


def test_the_lower_ball_carries_only_under_the_rider(touring):
    for stage in STAGES:
        shown = group(read(stage_svg(touring, stage=stage)), "lower ball")
        assert (shown is not None) == (stage == "ridden")


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("compact", [False, True])
def test_names_stand_clear_of_each_other_and_of_the_edge(prediction, side, compact):
    scenario = prediction.scenario
    hub = scenario.hub.replace(adjustable_side=side)
    root = read(parts_svg(scenario.replace(hub=hub), compact=compact))
    left, _, wide, _ = map(float, root.get("viewBox").split())
    texts = [mark for mark in root.iter() if mark.tag.endswith("}text")]
    assert not compact or float(texts[0].get("font-size")) * PHONE / wide >= 12.5
    for row in {mark.get("y") for mark in texts}:
        each = sorted(
            (float(mark.get("x")), len(mark.text) * 0.5 * float(mark.get("font-size")))
            for mark in texts
            if mark.get("y") == row
        )
        assert each[0][0] - each[0][1] / 2 >= left
        assert each[-1][0] + each[-1][1] / 2 <= left + wide
        for (x, room), (next_x, next_room) in itertools.pairwise(each):
            assert next_x - x > (room + next_room) / 2


def test_every_part_of_the_bearing_and_of_the_clamp_has_a_name(touring):
    said = words(read(parts_svg(touring.scenario)))
    for name in (
        "axle",
        "cone",
        "ball",
        "cup",
        "hub shell",
        "keyed washer",
        "locknut",
        "dust cap",
        "dropout",
        "rod",
    ):
        assert name in said


def test_the_same_hub_gives_the_same_picture(touring):
    assert stage_svg(touring, stage="locked") == stage_svg(predict(touring.scenario), stage="locked")


def test_a_name_with_markup_in_it_stays_text(touring):
    named = touring.scenario.replace(name='<script>alert("x")</script> & co')
    root = read(parts_svg(named))
    assert named.name in root[0].text
    assert not [mark for mark in root.iter() if mark.tag.endswith("script")]
