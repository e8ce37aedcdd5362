"""What holds the hub is what the scenario says; lever, nuts and handle turn as a hand turns them.

Tightening is clockwise seen from outside, on either end: right-hand threads, common practice, no source. What is turned
about the axle is seen from the side foreshortened by the cosine of its turn: orthographic projection, geometry.
"""

import re

import numpy as np
import pytest

from conemodel.show.instrument.clamps import OPEN
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.end_view import NAME
from conemodel.show.instrument.hub_json import clamp_json
from conemodel.show.instrument.pictures import parts_svg
from conemodel.show.instrument.states import state_of
from conemodel.show.instrument.still import still_svg, tall_of
from conemodel.tasks.setting.predict import predict
from tests.show.instrument.drawn import STAGES, group_of, names, outlines, placed, scenario_of

TURNED = re.compile(
    r"rotate\(([-\d.]+) [-\d.]+ [-\d.]+\)"
)  # about a place, as groups are and hatches are not
HANDLES = {"city-nutted": "axle-spanner", "thru-axle": "handle"}


@pytest.mark.parametrize(
    ("name", "has", "has_not"),
    [
        ("touring-rear", {"lever", "rod", "spring", "freehub", "sprocket"}, {"handle"}),
        ("city-nutted", {"clamp-washer", "sprocket"}, {"lever", "rod", "spring", "freehub"}),
        ("thru-axle", {"handle", "rod", "freehub"}, {"lever", "spring"}),
        ("road-front", {"lever", "rod"}, {"sprocket", "freehub"}),
    ],
)
def test_each_clamp_and_each_end_has_its_own_parts(root, name, has, has_not):
    found = set(names(drawing_of(scenario_of(root, name)).plates["whole"]))
    assert has <= found
    assert not has_not & found


@pytest.mark.parametrize(
    ("seat", "left", "right"),
    [
        ("dropouts", "dropout", "dropout"),
        ("spacers on locknuts", "spacer", "spacer"),
        ("spacer on axle end", "axle end", "spacer"),
        ("one side in frame", "axle end", "dropout"),
    ],
)
def test_the_clamp_sits_on_what_the_scenario_says(root, seat, left, right):
    scenario = scenario_of(root, "touring-rear").with_setting(clamp_seat=seat)
    plate = drawing_of(scenario).plates["whole"]
    found = {group.name for group in plate.groups}
    assert {f"{left} left", f"{right} right"} <= found
    assert ("dropout" in names(plate)) == ("dropout" in (left, right))


def test_the_vice_holds_the_far_end_and_only_where_the_scenario_has_one(root):
    scenario = scenario_of(root, "touring-rear")
    plate = drawing_of(scenario).plates["whole"]
    assert group_of(plate, "vice").when == ("contact", "backed_off")
    assert placed(plate, "vice", {})[:, 0].min() > 60
    by_hand = drawing_of(scenario.with_setting(axle_held="nothing")).plates["whole"]
    assert "vice" not in names(by_hand)


@pytest.mark.parametrize("name", ["touring-rear", *HANDLES])
def test_closing_brings_the_clamp_in_until_it_bears_on_the_dropout(root, name):
    plate = drawing_of(scenario_of(root, name)).plates["whole"]
    part = "clamp-washer" if name == "city-nutted" else "clamp"
    open_, shut = (placed(plate, part, {"apart": apart})[:, 0].max() for apart in (1.0, 0.0))
    assert shut == pytest.approx(placed(plate, "dropout", {})[:, 0].min(), abs=0.11)
    assert shut - open_ == pytest.approx(OPEN)


def test_the_lever_hangs_on_the_cam_end_and_is_pulled_past_straight_out(root):
    lever = group_of(drawing_of(scenario_of(root, "touring-rear")).plates["whole"], "lever")
    assert lever.parent == "cam end left"
    assert lever.turn["lever"] > 90


def end_of(root, name, side):
    """Return the whole view of a hub adjusted on a side, and the group that a hand turns on it."""
    scenario = scenario_of(root, name)
    hub = scenario.hub.replace(adjustable_side=side)
    plate = drawing_of(scenario.replace(hub=hub)).plates["whole"]
    return plate, group_of(plate, NAME)


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("name", HANDLES)
def test_a_handle_is_turned_clockwise_from_outside_on_its_own_end(root, name, side):
    plate, end = end_of(root, name, side)
    assert end.turn["lever"] > 0
    x, y = end.about
    left, _, width, _ = plate.view
    beside = "left" if name == "thru-axle" else side  # a thru-axle is turned at its head
    assert x < left if beside == "left" else x > left + width
    assert y == 0
    ring = outlines(next(part.d for part in end.parts if part.name == "swing"))[0]
    box = plate.held
    assert box[0] - 0.1 <= ring[:, 0].min()
    assert ring[:, 0].max() <= box[0] + box[2] + 0.1


@pytest.mark.parametrize("name", HANDLES)
def test_the_view_from_the_side_shows_a_handle_as_high_as_its_end_view_does(root, name):
    plate, end = end_of(root, name, "left")
    from_side, part = next(
        (group, part)
        for group in plate.groups
        for part in group.parts
        if part.name == HANDLES[name] and group.name.endswith(" left")
    )
    upright = -outlines(part.d)[0][:, 1].min()
    at_end = next(part for part in end.parts if part.name == HANDLES[name])
    points = outlines(at_end.d)[0] - end.about
    tip = points[np.argmax(np.hypot(*points.T))]
    for way in (0.0, 0.3, 0.6, 1.0):
        turned = np.radians(end.turn["lever"] * way)
        height = -(tip[0] * np.sin(turned) + tip[1] * np.cos(turned))
        assert upright * tall_of(from_side, {"lever": way}) == pytest.approx(height, rel=0.05, abs=2.5)


def test_both_nuts_turn_alike_and_mirrored(root):
    plate = drawing_of(scenario_of(root, "city-nutted")).plates["whole"]
    left, right = (group_of(plate, f"nut spanner {side}") for side in ("left", "right"))
    assert (left.roll, left.rolled) == (right.roll, right.rolled)
    assert left.move["apart"] == -right.move["apart"]
    assert np.allclose(outlines(left.parts[0].d)[0] * [-1, 1], outlines(right.parts[0].d)[0], atol=0.11)


@pytest.mark.parametrize("name", ["touring-rear", *HANDLES])
def test_stills_stand_open_until_they_are_clamped(root, name):
    made = predict(scenario_of(root, name))
    drawing = drawing_of(made.scenario)
    found = []
    for stage in STAGES:
        state = state_of(made, stage, factor=drawing.factor)
        assert state["apart"] == 1.0 - state["lever"]
        found.append(TURNED.findall(still_svg(drawing, state, stage=stage, sheet="whole")))
    assert found[0] == found[1] == found[2] == []
    assert found[3] == found[4] != []


@pytest.mark.parametrize("name", HANDLES)
def test_the_names_of_the_parts_leave_out_the_end_view(root, name):
    assert NAME not in parts_svg(scenario_of(root, name))


@pytest.mark.parametrize(
    ("name", "control", "states"),
    [
        ("touring-rear", "Quick-release lever", ["open", "part closed", "shut"]),
        ("city-nutted", "Axle nuts", ["loose", "part tight", "tight"]),
        ("thru-axle", "Thru-axle handle", ["loose", "part tight", "tight"]),
    ],
)
def test_a_clamp_is_named_for_what_it_is(root, name, control, states):
    told = clamp_json(scenario_of(root, name))
    assert (told["control"], told["states"]) == (control, states)


@pytest.mark.parametrize("name", ["touring-rear", "road-front"])
def test_the_view_that_is_handled_has_room_for_the_lever_all_the_way(root, name):
    plate = drawing_of(scenario_of(root, name)).plates["whole"]
    lever = group_of(plate, "lever")
    points = (
        np.concatenate([outlines(part.d)[0] for part in lever.parts if part.name == "lever"]) - lever.about
    )
    assert plate.held is not None
    left, top, width, height = plate.held
    shift = group_of(plate, "cam end left").move["apart"]
    for way in np.linspace(0.0, 1.0, 12):
        turn = np.radians(lever.turn["lever"] * way)
        x = points[:, 0] * np.cos(turn) - points[:, 1] * np.sin(turn) + lever.about[0]
        y = points[:, 0] * np.sin(turn) + points[:, 1] * np.cos(turn) + lever.about[1]
        assert left <= x.min() + min(shift, 0.0) * (way < 0.45)
        assert x.max() <= left + width
        assert top <= y.min()
        assert y.max() <= top + height


@pytest.mark.parametrize(
    ("name", "force", "about"),
    [
        ("city-nutted", None, True),
        ("thru-axle", None, True),
        ("touring-rear", None, True),
        ("touring-rear", 5e3, False),
    ],
)
def test_a_force_that_nobody_measured_is_said_to_be_about(root, name, force, about):
    scenario = scenario_of(root, name)
    if force is not None:
        scenario = scenario.replace(clamp=scenario.clamp.replace(force=force))
    said = [label.text for label in drawing_of(scenario).plates["close"].labels if label.text.endswith(" kN")]
    assert said
    assert all(words.startswith("≈ ") == about for words in said)
    assert all(len(re.findall(r"\d", words)) <= 2 for words in said)


@pytest.mark.parametrize("name", ["city-nutted", "thru-axle"])
def test_the_arrow_beside_what_is_turned_says_that_it_tightens(root, name):
    (label,) = (
        each for each in drawing_of(scenario_of(root, name)).plates["whole"].labels if each.group == NAME
    )
    assert label.text.endswith(" tightens")
