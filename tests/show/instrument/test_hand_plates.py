"""The views that the gestures move are the instrument's own drawing, and move as far as the hand moves them.

Rigid bodies and small angles: a point at a distance r from where a body leans by an angle goes r times that angle.
"""

from math import radians
from typing import get_args

import numpy as np
import pytest

from conemodel.parts.library import SCENARIOS
from conemodel.parts.toml_files import load_scenario
from conemodel.show.instrument.drawing import VARIABLES
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.hand_plates import Gesture, axle_end_plate, gesture_json, rim_plate
from conemodel.show.instrument.paints import PAINTS
from tests.show.instrument.drawn import group_of, outlines

GESTURES = get_args(Gesture)
HUBS = ("touring-rear", "city-nutted", "thru-axle", "road-front")
OWN = {
    "spin": {
        "blade",
        "spokes",
        "rim",
        "tyre",
        "valve",
        "flange",
        "shell",
        "dust-cap",
        "cone",
        "locknut",
        "axle",
    }
}
OWN["twirl"] = {"flange", "spoke-holes", "shell", "dust-cap", "gap"}
"""Parts that the instrument has no view of."""


def hub(name):
    return load_scenario(SCENARIOS / f"{name}.toml")


@pytest.mark.parametrize("gesture", GESTURES)
@pytest.mark.parametrize("name", HUBS)
def test_every_group_hangs_together_and_every_paint_is_sent(name, gesture):
    told = gesture_json(hub(name), gesture)
    seen: set[str] = set()
    for group in told["sheet"]["groups"]:
        assert group.get("parent") in {None, *seen}
        assert {*group.get("move", ()), *group.get("turn", ()), group.get("fade")} <= VARIABLES.keys() | {
            None
        }
        assert {part["paint"] for part in group["parts"]} <= told["paints"].keys() <= PAINTS.keys()
        seen.add(group["name"])
    assert len(seen) == len(told["sheet"]["groups"])
    assert told["vars"].keys() <= VARIABLES.keys()


@pytest.mark.parametrize("gesture", GESTURES)
@pytest.mark.parametrize("name", HUBS)
def test_every_outline_is_the_instruments_own(name, gesture):
    plates = drawing_of(hub(name)).plates
    known = {part.d for plate in plates.values() for group in plate.groups for part in group.parts}
    told = [part for group in gesture_json(hub(name), gesture)["sheet"]["groups"] for part in group["parts"]]
    new = {part["name"] for part in told if part["d"] not in known}
    assert new <= OWN.get(gesture, set())


def test_where_the_cone_stands_and_where_contact_is_are_not_sent():
    for gesture in GESTURES:
        one, other = (gesture_json(hub("touring-rear").with_setting(back_off=a), gesture) for a in (0.0, 2.0))
        assert one == other
        assert "finger contact" not in str(one)


def test_a_millimetre_at_the_rim_is_drawn_as_one_and_leans_the_hub_as_far_as_it_would():
    scenario = hub("touring-rear")
    plate = rim_plate(scenario)
    wheel, rim = group_of(plate, "wheel"), group_of(plate, "rim top")
    lean = radians(wheel.turn["sway"])
    assert lean == pytest.approx(1e-3 / scenario.wheel.rim_radius, rel=1e-3)
    part = next(part for part in rim.parts if part.name == "rim")
    inner = -np.max(outlines(part.d)[0][:, 1])
    assert rim.move["sway"] + lean * inner == pytest.approx(1.0, abs=0.02)
    assert rim.move["give"] == 1.0


def test_the_axle_end_goes_up_by_as_much_as_it_is_pushed_and_all_on_the_axle_with_it():
    for name in HUBS:
        scenario = hub(name)
        plate = axle_end_plate(scenario)
        arm = 1e3 * scenario.axle_end_arm
        leaning = [group for group in plate.groups if "tip" in group.turn]
        for group in leaning:
            # turned clockwise, y down: what lies at x goes down by x times the angle
            assert -arm * radians(group.turn["tip"]) == pytest.approx(1.0, rel=1e-6)
        hung = {group.name for group in plate.groups if group.parent in {g.name for g in leaning}}
        still = {group.name for group in plate.groups} - hung - {g.name for g in leaning}
        assert {"axle", "cone", "far cone", "nut"} <= hung
        assert still <= {"wheel", "drive", "shell", "bearings", "lever"}
