"""Scenario files: strict, every mistake at once with its line, and nothing lost on the way back."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import conemodel as cm
from conemodel.base.errors import InputProblems
from conemodel.parts import library
from conemodel.parts.foreign_file import FILE_SIZE_LIMIT
from conemodel.parts.readings import Readings
from conemodel.parts.toml_files import load_scenario, read_part, read_scenario, write_part

SCENARIOS = sorted((library.SCENARIOS).glob("*.toml"))
REAR = next(path for path in SCENARIOS if path.stem == "touring-rear")


def problems_of(text: str) -> list[str]:
    with pytest.raises(InputProblems) as refused:
        read_scenario(text, name="hub.toml")
    return [str(problem) for problem in refused.value.problems]


def changed(old: str, new: str) -> str:
    text = REAR.read_text()
    assert old in text
    return text.replace(old, new, 1)


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda path: path.stem)
def test_every_scenario_says_that_it_is_invented_and_survives_writing(path: Path) -> None:
    scenario = load_scenario(path)
    assert "Invented for this project" in scenario.story
    assert len(scenario.story) > 150
    assert read_scenario(write_part(scenario), name="again") == scenario


def test_all_mistakes_are_reported_together_with_their_lines() -> None:
    text = (
        REAR.read_text()
        .replace("ball_diameter_mm = 6.35", "ball_diameter_mm = -6.35", 1)
        .replace("bore_mm = 5.1", "bore_mm = 9.9")
        .replace("rim_radius_mm", "rim_raduis_mm")
        .replace("length_mm = 146", 'length_mm = "long"')
        .replace("back_off_turns = 0.25", 'back_off_turns = "a bit"')
    )
    said = problems_of(text)
    lines = text.splitlines()
    for key, words in {
        "hub.left.ball_diameter_mm = -6.35": "must be above 0.5 mm",
        "axle.bore_mm = 9.9": "must be smaller than the thread root, 8.77313 mm",
        "wheel.rim_raduis_mm = 311": "did you mean rim_radius_mm?",
        "axle.length_mm = long": "must be a number",
        "setting.back_off_turns = a bit": "must be a number",
    }.items():
        (one,) = [line for line in said if key in line]
        assert words in one
        number = int(one.split(":")[1])
        assert key.split(" = ")[0].rsplit(".", 1)[-1] in lines[number - 1]
    assert len(said) == 5


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("bore_mm = 5.1", "bore_mm = nan", "must be a finite number"),
        ("bore_mm = 5.1", "bore_mm = inf", "must be a finite number"),
        ("ball_count = 9", "ball_count = 10", "at most 9 such balls fit"),
        ("ball_count = 9", "ball_count = true", "whole number"),
        ("[frame]", "[frame]\nspread_stiffness_n_per_mm = -1", "must be above 1 N/mm"),
        (
            'kind = "quick release"',
            'kind = "string"',
            "must be one of 'quick release', 'nuts' or 'thru-axle'",
        ),
        ("dropout_width_mm = 135\n", "", "frame.dropout_width_mm: is missing"),
        (
            "[axle]",
            "[axle]\ncone_distance_mm = 40",
            "must be at least 72.5 mm",
        ),
        ("rod_diameter_mm = 5\n", "rod_diameter_mm = 5.2\n", "must be smaller than the axle's bore, 5.1 mm"),
        ("[wheel]", "[condition.left]\nball_oversize_um = [1, 2]\n[wheel]", "one for each of the 9 balls"),
        ("[wheel]", "wheel = 3\n[whee1]", "is not a known key"),
        ("[axle]", "[axle]\naxle_thread_class = 7", "is not TOML"),
        ("thread_pitch_mm = 1", "thread_pitch_mm = 1" + "0" * 400, "finite"),
        ("thread_pitch_mm = 1", "thread_pitch_mm = 0.97692", "give thread_clearance_um"),
        (
            "[stack.left]",
            "[stack.left]\nwasher_outer_diameter_mm = 9",
            "must be larger than the axle's thread, 10 mm",
        ),
        (
            "[wheel]",
            "[condition.right]\nball_oversize_um = 200\n[wheel]",
            "do not go in between cone and cup",
        ),
    ],
)
def test_one_message_names_field_value_and_limit(old: str, new: str, said: str) -> None:
    assert any(said in line for line in problems_of(changed(old, new)))


def test_a_misspelt_key_is_not_also_reported_as_missing() -> None:
    assert len(problems_of(changed("thread_diameter_mm", "thread_diamter_mm"))) == 1


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"\xff\xfe\x00", "is not UTF-8 text"),
        (b"this is not TOML", "is not TOML"),
        (b"a = " + b"[" * 20000, "must not have a line of more than"),
        (b"a = " + b"1" * 5000, "must not have a key or a number of more than"),
        (b"# " + b"x" * FILE_SIZE_LIMIT, "must not be larger than 64 KB"),
        (b"", "name: is missing"),
    ],
)
def test_what_is_no_scenario_is_refused_in_words(raw: bytes, said: str) -> None:
    with pytest.raises(InputProblems, match=said):
        read_scenario(raw, name="hub.toml")


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(InputProblems, match=r"nowhere\.toml: cannot be read \(No such file"):
        load_scenario(tmp_path / "nowhere.toml")


def test_a_byte_order_mark_does_no_harm() -> None:
    assert read_scenario(b"\xef\xbb\xbf" + REAR.read_bytes(), name="hub.toml") == cm.load_scenario(REAR)


@given(st.text(max_size=300))
def test_no_text_gives_anything_but_a_scenario_or_words(text: str) -> None:
    with pytest.raises(InputProblems) as refused:
        read_scenario(text, name="hub.toml")
    assert all(str(problem).startswith("hub.toml") for problem in refused.value.problems)


@given(st.floats(0.6e-3, 24e-3), st.floats(-0.99, 2.99))
def test_numbers_survive_writing_to_the_last_digit(ball: float, turns: float) -> None:
    scenario = cm.load_scenario(REAR).with_setting(back_off=turns * 6.283185307179586)
    row = scenario.hub.left.replace(ball_diameter=ball, ball_count=3, pitch_diameter=60e-3)
    scenario = scenario.replace(hub=scenario.hub.replace(left=row))
    again = read_scenario(write_part(scenario), name="again")
    # not every double is a thousandth of another: one unit in the last place may go
    assert again.hub.left.ball_diameter == pytest.approx(ball, rel=2.5e-16)
    assert again.setting.back_off == pytest.approx(scenario.setting.back_off, rel=2.5e-16, abs=1e-300)


def test_what_a_table_leaves_out_is_as_declared_where_it_stands() -> None:
    """An axle's length is read off less finely than a protrusion: the same table, another usual uncertainty."""
    readings = read_part(
        Readings, "axle_length = {size_mm = 141}\nprotrusion_left = {size_mm = 5}", name="readings"
    )
    for name in ("axle_length", "protrusion_left"):
        declared = Readings.model_fields[name].default
        assert getattr(readings, name).uncertainty == declared.uncertainty
    assert readings.axle_length.uncertainty != readings.protrusion_left.uncertainty
