"""A file of what was measured at marks: read back as written, every mistake of it said at once."""

import pytest

from conemodel.base.errors import InputProblems
from conemodel.base.units import MINUTE, MM
from conemodel.parts.measured_hub import MeasuredHub, load_measured_hub
from conemodel.parts.real_hub import RealHubReadings
from conemodel.parts.toml_files import read_part, write_part

FILE = """
name = "Rear wheel"
read_by = "dial at the rim"
light_push_n = 2

[first]
count_minutes = 15
nut_loose_mm = [2.1, 2.15]
locked_mm = [1.2]

[second]
count_minutes = 12
"""


def test_a_file_is_read_back_as_it_was_written():
    found = read_part(MeasuredHub, FILE, name="hub.toml")
    assert read_part(MeasuredHub, write_part(found), name="hub.toml") == found
    assert [mark.count for mark in found.marks] == pytest.approx([MINUTE.to_si(15), MINUTE.to_si(12)])
    assert found.marks[0].plays["nut loose"] == pytest.approx((MM.to_si(2.1), MM.to_si(2.15)))


def test_a_push_that_is_not_given_keeps_the_usual_share_of_the_other():
    assert read_part(MeasuredHub, FILE, name="hub.toml").pushes == pytest.approx((2.0, 4.0))
    assert MeasuredHub(hard_push=60.0).pushes == pytest.approx((20.0, 60.0))
    assert MeasuredHub(light_push=5.0).pushes == pytest.approx((5.0, 15.0))


def test_every_mistake_of_a_file_is_said_at_once():
    wrong = """
light_push_n = 30
hard_push_n = 10
[first]
count_minutes = 90
[second]
locked_mm = [0.1, 0.2, 0.3]
[third]
clamped_mm = [-0.1]
"""
    with pytest.raises(InputProblems) as caught:
        read_part(MeasuredHub, wrong, name="hub.toml")
    said = str(caught.value)
    for words in ("light_push_n = 30", "count_minutes = 90", "3 numbers", "-0.1", "is missing"):
        assert words in said


def test_a_mark_cannot_stand_behind_one_without_a_place():
    text = "[first]\ncount_minutes = 9\n[third]\ncount_minutes = 8\n"
    with pytest.raises(InputProblems, match="second: has no count, but third after it has one"):
        read_part(MeasuredHub, text, name="hub.toml")


def test_a_count_that_cannot_be_is_not_said_to_be_missing():
    text = "[first]\ncount_minutes = -16\n[second]\ncount_minutes = -15\n"
    with pytest.raises(InputProblems) as caught:
        read_part(MeasuredHub, text, name="hub.toml")
    assert [str(each) for each in caught.value.problems] == [
        "hub.toml:2: first.count_minutes = -16: must be at least -15 min"
    ]


def test_every_play_in_a_list_that_cannot_be_is_said():
    text = '[first]\ncount_minutes = 9\nnut_loose_mm = [nan, 1e308, -0.2, "x", true, 0.2]\n'
    with pytest.raises(InputProblems) as caught:
        read_part(MeasuredHub, text, name="hub.toml")
    assert [each.value for each in caught.value.problems] == ["nan", "1e+308", "-0.2", "x", "True"]


def test_the_example_is_whole_and_no_other_kind_of_file(root):
    path = root / "scenarios" / "measured" / "rear-wheel.toml"
    assert load_measured_hub(path).marks
    with pytest.raises(InputProblems, match="command measure"):
        read_part(RealHubReadings, path.read_text(), name=path.name)
