"""Files of readings: strict, everything optional, every mistake at once."""

import tomllib

import pytest

from conemodel.base.errors import InputProblems
from conemodel.parts import library
from conemodel.parts.priors import CAUSES, Beliefs
from conemodel.parts.readings import Play, Readings, Round, load_readings
from conemodel.parts.toml_files import read_part, write_part

EXAMPLES = sorted((library.SCENARIOS / "readings").glob("*.toml"))


def read(text: str) -> Readings:
    return read_part(Readings, text, name="hub.toml")


def test_an_empty_file_is_a_hub_nobody_looked_at():
    assert read("") == Readings()
    assert Readings().rounds == (Round(),)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_examples_are_read_and_written_back_the_same(path):
    readings = load_readings(path)
    assert read(write_part(readings)) == readings
    assert "Invented" in readings.story


def test_units_and_turns():
    readings = read(
        "[found]\nrim_open = {play_mm = 0.4}\n[round_2]\nturned_in_deg = 90\nrim_open = {hand = 'none'}\n"
    )
    first, second = readings.rounds
    assert first.rim_open.play == pytest.approx(0.4e-3)
    assert second.turned == pytest.approx(-1.5707963)
    assert list(second.plays) == ["rim_open"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[found]\nrim_open = {play_mm = -0.1}", "must be at least 0 mm"),
        ("[found]\nrim_open = {play_mm = 40}", "must be at most 10 mm"),
        ("[found]\nrim_open = {play_mm = 0.1, hand = 'clear'}", "cannot stand beside a measured play"),
        ("[found]\nrim_open = {hand = 'a bit'}", "must be one of"),
        ("[found]\nrim_open = {hand = 'none', uncertainty_mm = 0.1}", "belongs to a measured play"),
        ("[found]\nrim_open = {play_mm = 0.1, uncertainty_mm = 0}", "must be above 0 mm"),
        ("[found]\nrim_open = {push_n = 2}", "belongs to a measured play"),
        ("[found]\nrim_open = {play_mm = 0.1, push_n = -2}", "must be at least 0 N"),
        ("[found]\nrim_open = {play_mm = 0.1, push_n = 70}", "must be at most 50 N"),
        ("[found]\nrim_open = {play_mm = 0.1, push_n = 2, play_hard_mm = 0.2}", "is missing beside play_hard"),
        ("[found]\nrim_open = {play_mm = 0.1, push_n = 2, push_hard_n = 6}", "is missing beside push_hard"),
        ("[found]\nrim_open = {play_mm = 0.1, play_hard_mm = 0.2, push_hard_n = 6}", "push_n"),
        (
            "[found]\nrim_open = {play_mm = 0.1, push_n = 6, play_hard_mm = 0.2, push_hard_n = 6}",
            "must be above the first push, 6 N",
        ),
        ("[found]\naxle_end_open = {play_mm = 0.1, push_n = 2}", "belongs to a play at the rim"),
        ("[found]\naxle_along_closed = {hand = 'none'}", "cannot be told by hand along the axle"),
        ("[found]\nrim_play = 3", "did you mean rim_open?"),
        ("[found]\nturned_in_deg = 20", "nothing was turned yet"),
        ("[round_2]\nturned_in_deg = 20\nturned_out_deg = 5", "cannot stand beside turned_in"),
        ("[round_3]\nturned_in_deg = 20", "stands after an empty round"),
        ("axle_length = {size_mm = 120}\nover_locknut_width = {size_mm = 130}", "must not be below the width"),
        ("balls_left = {count = 9.5}", "must be a whole number"),
        ("clamp = 'rope'", "must be one of"),
        ("[checks]\nspokes_loose = 'perhaps'", "must be one of"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_named(text, said):
    with pytest.raises(InputProblems) as caught:
        read(text)
    assert said in str(caught.value)
    assert "hub.toml" in str(caught.value)


def test_every_mistake_is_said_at_once():
    with pytest.raises(InputProblems) as caught:
        read("clamp = 'rope'\nthread = 'M8'\n[found]\nrim_open = {play_mm = -1}\n")
    assert len(caught.value.problems) == 3


def test_a_missing_file_is_a_problem(tmp_path):
    with pytest.raises(InputProblems, match="cannot be read"):
        load_readings(tmp_path / "nowhere.toml")


def test_play_that_nobody_looked_for():
    assert not Play().given
    assert Play(play=0.0).given


def test_beliefs_sum_to_one_and_must_leave_room():
    assert sum(Beliefs().chance(cause) for cause in CAUSES) == pytest.approx(1.0)
    with pytest.raises(InputProblems, match=r"below 0\.9"):
        Beliefs(bent=0.4, dented=0.4, gritty=0.3)
    assert tomllib.loads(write_part(Beliefs()))["bent"] == Beliefs().bent
