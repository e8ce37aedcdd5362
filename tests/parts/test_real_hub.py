"""A file of what was found on a real hub: read back as written, every mistake of it said at once."""

import pytest

from conemodel.base.errors import InputProblems
from conemodel.base.units import MINUTE, MM
from conemodel.parts.real_hub import RealHubReadings
from conemodel.parts.toml_files import read_part, write_part
from conemodel.tasks.real_hub.readings import Felt, Measured, readings_in

FILE = """
name = "A practice wheel"
hand = "Ada"
step_minutes = 1

[nut_loose]
play_from_minutes = [2, 1.5]

[locked]
play_from_minutes = [8]
drag_up_to_minutes = [6]
measured_at_minutes = 15
axle_play_mm = 0.12
rim_play_mm = 1.1
"""


def test_a_file_is_read_back_as_it_was_written():
    found = read_part(RealHubReadings, FILE, name="go.toml")
    assert read_part(RealHubReadings, write_part(found), name="go.toml") == found


def test_its_readings_stand_in_the_order_of_the_work():
    readings = readings_in(read_part(RealHubReadings, FILE, name="go.toml"))
    assert [(type(each), each.state) for each in readings] == [
        (Felt, "nut loose"),
        (Felt, "nut loose"),
        (Felt, "locked"),
        (Felt, "locked"),
        (Measured, "locked"),
        (Measured, "locked"),
    ]
    assert readings[0].count == pytest.approx(MINUTE.to_si(2))
    along, rim = (each for each in readings if isinstance(each, Measured))
    assert along.play == pytest.approx(MM.to_si(0.12))
    assert rim.push is None  # nobody knows how hard a hand pushed that did not say


def test_every_mistake_of_a_file_is_said_at_once():
    wrong = """
step_minutes = 9
[nut_loose]
play_from_minutes = [2, 300]
[locked]
axle_play_mm = 0.1
rim_push_n = 3
[clamped]
drag_up_to_minutes = [-40]
"""
    with pytest.raises(InputProblems) as caught:
        read_part(RealHubReadings, wrong, name="go.toml")
    said = str(caught.value)
    assert len(caught.value.problems) == 5
    for words in (
        "go.toml:2: step_minutes = 9: must be at most 5 min",
        "nut_loose.play_from_minutes = 300: must be at most 60 min",
        "locked.axle_play_mm = 0.1: needs the count it was measured at",
        "locked.rim_push_n = 3: stands without a rim_play",
        "clamped.drag_up_to_minutes = -40: must be at least -15 min",
    ):
        assert words in said
