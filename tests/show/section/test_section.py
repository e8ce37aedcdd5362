"""The hub in section: to scale, with the factor that it states, and every meaning in words as well.

Expected lengths are the scenario's own measures; directions are geometry.
"""

import itertools
import math
import re
import xml.etree.ElementTree as ET

import pytest

from conemodel.show.section.section import exaggeration_for, hub_parts_svg, hub_section_svg
from conemodel.show.svg import wrap_text
from conemodel.tasks.setting.predict import predict

STAGES = ("contact", "backed_off", "locked", "clamped", "ridden")


def read(svg):
    return ET.fromstring(svg)


def marks(root, name):
    return [mark for mark in root if name in mark.get("class", "").split()]


def points(mark):
    return [tuple(map(float, pair.split(","))) for pair in mark.get("points").split()]


def span(mark):
    """Return least and most x and y of an outline."""
    x, y = zip(*points(mark), strict=True)
    return min(x), max(x), min(y), max(y)


def words(root):
    return [mark.text for mark in root if mark.tag.endswith("text")]


def scale(root):
    return float(root.get("data-scale"))


@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("compact", [False, True])
def test_it_is_sound_svg_with_title_and_description(prediction, stage, compact):
    root = read(hub_section_svg(prediction, stage=stage, compact=compact))
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    title, desc = root[0], root[1]
    assert title.tag.endswith("title")
    assert prediction.scenario.name in title.text
    assert desc.tag.endswith("desc")
    assert f"{float(root.get('data-exaggeration')):g} times" in desc.text


def test_balls_stand_where_the_scenario_says(prediction):
    root = read(hub_section_svg(prediction, stage="locked"))
    hub, k = prediction.scenario.hub, scale(root)
    places = [(float(b.get("cx")), float(b.get("cy")), float(b.get("r"))) for b in marks(root, "ball")]
    assert len(places) == 4
    xs, ys = sorted({x for x, _, _ in places}), sorted({y for _, y, _ in places})
    # coordinates are written to a thousandth
    assert xs[1] - xs[0] == pytest.approx(hub.row_spacing * 1000 * k, abs=0.003)
    assert ys[-1] - ys[0] == pytest.approx(hub.left.pitch_diameter * 1000 * k, abs=0.003)
    for _, _, radius in places:
        assert radius == pytest.approx(hub.left.ball_diameter * 500 * k, abs=0.002)


def test_axle_locknuts_and_dropouts_are_to_scale(prediction):
    root = read(hub_section_svg(prediction, stage="clamped"))
    scenario, k = prediction.scenario, scale(root)
    left, right, top, bottom = span(marks(root, "axle")[0])
    assert bottom - top == pytest.approx(scenario.axle.thread_diameter * 1000 * k, abs=0.003)
    stood_out = scenario.stack.left.protrusion + scenario.stack.right.protrusion
    assert right - left == pytest.approx((scenario.hub.over_locknut_width + stood_out) * 1000 * k, abs=0.003)
    nuts = [span(nut) for nut in marks(root, "locknut")]
    width = max(nut[1] for nut in nuts) - min(nut[0] for nut in nuts)
    assert width == pytest.approx(scenario.hub.over_locknut_width * 1000 * k, abs=0.003)
    for dropout in marks(root, "dropout"):
        low, high, *_ = span(dropout)
        assert high - low == pytest.approx(scenario.frame.dropout_thickness * 1000 * k, abs=0.003)
    bore = [span(box) for box in marks(root, "bore")]
    if scenario.axle.bore:
        assert bore[0][3] - bore[0][2] == pytest.approx(scenario.axle.bore * 1000 * k, abs=0.003)
    else:
        assert bore == []


def test_cones_washers_and_locknuts_are_to_scale(prediction):
    """Laid end to end from the balls out: where the cone ends, what washers fill, the locknut, half the width."""
    root = read(hub_section_svg(prediction, stage="locked"))
    scenario, k = prediction.scenario, scale(root) * 1000
    stack, hub = scenario.stack.side("right"), scenario.hub
    cone = next(mark for mark in marks(root, "cone") if "fixed" in mark.get("class"))
    washer, nut = (max(map(span, marks(root, name))) for name in ("washer", "locknut"))
    ball = max(float(mark.get("cx")) for mark in marks(root, "ball"))
    outer, inner = max(x for x, _ in points(cone)), min(x for x, _ in points(cone))
    assert hub.adjustable_side == "left"
    assert outer - inner == pytest.approx(stack.cone.length * k, abs=0.003)
    assert outer - ball == pytest.approx(stack.cone.ball_place * k, abs=0.003)
    assert nut[1] - nut[0] == pytest.approx(stack.locknut_length * k, abs=0.003)
    assert (washer[0], washer[1]) == pytest.approx((outer, nut[0]), abs=0.003)
    ends = hub.row_spacing / 2 + stack.cone.ball_place + stack.locknut_length
    assert washer[1] - washer[0] == pytest.approx((hub.over_locknut_width / 2 - ends) * k, abs=0.005)
    # the thread of the cone: as far as its outline lies on the axle
    on_axle = span(marks(root, "axle")[0])[2]
    threaded = [x for x, y in points(cone) if y == pytest.approx(on_axle, abs=0.002)]
    assert max(threaded) - min(threaded) == pytest.approx(stack.cone.thread_length * k, abs=0.003)


def cone_gap(root):
    """Return how much further outboard than the fixed cone the adjustable one stands from its own balls."""
    middle = sum({float(b.get("cx")) for b in marks(root, "ball")}) / 2
    ends = []
    for name in ("adjustable", "fixed"):
        cone = next(mark for mark in marks(root, "cone") if name in mark.get("class"))
        ends.append(min(abs(x - middle) for x, _ in points(cone)))
    return ends[0] - ends[1]


@pytest.mark.parametrize("stage", STAGES)
def test_the_cone_is_moved_by_end_play_times_the_factor_that_is_stated(prediction, tight, stage):
    for each in (prediction, tight):
        root = read(hub_section_svg(each, stage=stage))
        factor = float(root.get("data-exaggeration"))
        drawn = cone_gap(root) / scale(root)
        assert drawn == pytest.approx(each.stages[stage].end_play * 1000 * factor, abs=0.002)
        assert any(f"drawn {factor:g} times" in line for line in words(root))


def test_a_factor_that_is_asked_for_is_used_and_stated(touring):
    root = read(hub_section_svg(touring, stage="clamped", exaggeration=7))
    assert cone_gap(root) / scale(root) == pytest.approx(touring.stages["clamped"].end_play * 7000, abs=0.002)
    assert any("drawn 7 times" in line for line in words(root))


def test_the_factor_is_round_and_lets_the_cone_stay_on_the_hub(prediction, tight):
    for each in (prediction, tight):
        for stage in STAGES:
            factor = exaggeration_for(each, stage)
            lead = factor / 10 ** math.floor(math.log10(factor) + 1e-9)
            assert lead == pytest.approx(1) or lead == pytest.approx(2) or lead == pytest.approx(5)
            # less than a ball: the cone neither leaves its washer nor passes its ball
            assert abs(each.stages[stage].end_play) * factor < each.scenario.hub.left.ball_diameter


def test_play_shows_as_a_gap_and_preload_as_a_pinch(touring, tight):
    loose, pinched = (read(hub_section_svg(each, stage="clamped")) for each in (touring, tight))
    assert marks(loose, "gap")
    assert not marks(loose, "pressed")
    assert "gap: free play" in words(loose)
    assert not marks(pinched, "gap")
    assert len(marks(pinched, "pressed")) == 4
    assert "pinched" in words(pinched)
    assert any(f"{tight.stages['clamped'].preload:.0f} N" in line for line in words(pinched))


def test_the_line_of_contact_stands_at_the_contact_angle(tight):
    root = read(hub_section_svg(tight, stage="clamped"))
    for mark in marks(root, "pressed"):
        (x0, y0), (x1, y1) = points(mark)
        angle = math.atan2(abs(x1 - x0), abs(y1 - y0))
        assert angle == pytest.approx(tight.scenario.hub.left.contact_angle, abs=1e-3)
        # the cone is touched further from the hub's middle than the cup, and nearer its axis
        assert abs(x1 - 500) > abs(x0 - 500)


def test_under_the_rider_the_balls_below_the_axle_carry(touring):
    root = read(hub_section_svg(touring, stage="ridden"))
    axle = span(marks(root, "axle")[0])
    pressed = marks(root, "pressed")
    assert len(pressed) == 2
    assert all(y > axle[3] for mark in pressed for _, y in points(mark))


def test_a_proud_axle_is_seen_and_said(proud, touring):
    for compact in (False, True):
        drawn = read(hub_section_svg(proud, stage="clamped", compact=compact))
        dropout = min(span(d)[0] for d in marks(drawn, "dropout"))
        assert span(marks(drawn, "axle")[0])[0] < dropout
        assert marks(drawn, "not-held")
        assert "dropout, not held" in words(drawn)
        assert any(line.startswith("Do not ride") for line in words(drawn))
    safe = read(hub_section_svg(touring, stage="clamped"))
    assert span(marks(safe, "axle")[0])[0] > min(span(d)[0] for d in marks(safe, "dropout"))
    assert not marks(safe, "not-held")
    assert "Do not ride" not in " ".join(words(safe))


def test_no_part_is_told_apart_by_colour_alone(touring):
    said = words(read(hub_parts_svg(touring.scenario)))
    for name in (
        "axle",
        "cone",
        "ball",
        "cup",
        "hub shell",
        "washer",
        "locknut",
        "dust cap",
        "dropout",
        "quick release",
    ):
        assert name in said


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("compact", [False, True])
def test_in_points_to_the_middle_of_the_hub_on_either_side(touring, side, compact):
    scenario = touring.scenario
    swapped = predict(scenario.replace(hub=scenario.hub.replace(adjustable_side=side)))
    root = read(hub_section_svg(swapped, stage="locked", compact=compact))
    (turning,) = [t for t in words(root) if "clockwise" in t]
    assert turning.endswith("→") if side == "left" else turning.startswith("←")
    assert f"{side}, adjustable side" in words(root)
    cone = next(mark for mark in marks(root, "cone") if "adjustable" in mark.get("class"))
    shell = span(marks(root, "shell")[0])
    assert (span(cone)[0] < shell[0]) == (side == "left")


@pytest.mark.parametrize("compact", [False, True])
def test_labels_stand_clear_of_each_other_and_of_the_edge(prediction, compact):
    for stage in STAGES:
        root = read(hub_section_svg(prediction, stage=stage, compact=compact))
        width, size = float(root.get("viewBox").split()[2]), float(root.get("font-size"))
        # at least 11 px on a screen of 390 px
        assert not compact or size * 390 / width >= 11
        for row in {mark.get("y") for mark in marks(root, "label")}:
            labels = sorted(
                (float(mark.get("x")), len(mark.text) * 0.5 * size)
                for mark in marks(root, "label")
                if mark.get("y") == row
            )
            assert labels[0][0] - labels[0][1] / 2 >= 0
            assert labels[-1][0] + labels[-1][1] / 2 <= width
            for (x, wide), (next_x, next_wide) in itertools.pairwise(labels):
                assert next_x - x > (wide + next_wide) / 2


def test_light_and_dark_differ_in_colour_only(touring):
    light, dark = (hub_section_svg(touring, stage="clamped", dark=dark) for dark in (False, True))
    assert light != dark
    assert re.sub(r"#[0-9a-f]{6}", "", light) == re.sub(r"#[0-9a-f]{6}", "", dark)


def test_the_same_hub_gives_the_same_picture(touring):
    assert hub_section_svg(touring, stage="locked") == hub_section_svg(touring, stage="locked")


def test_a_name_with_markup_in_it_stays_text(touring):
    named = touring.scenario.replace(name='<script>alert("x")</script> & co')
    root = read(hub_parts_svg(named))
    assert named.name in root[0].text
    assert not [mark for mark in root.iter() if mark.tag.endswith("script")]


def test_wrapped_lines_lose_no_word():
    text = "where it stands now and where it stood before it was locked"
    lines = wrap_text(text, width=120, size=10)
    assert " ".join(lines) == text
    assert len(lines) > 2
