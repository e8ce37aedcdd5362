"""A checked hub on paper: what was found stands largest, every reading is there, and nothing lies over anything."""

import re
from dataclasses import replace

import pytest
from matplotlib.text import Text

from conemodel.parts.readings import ROUNDS, load_readings
from conemodel.show.diagnosis.sheet import check_figure
from conemodel.show.paper.files import to_pdf
from conemodel.show.paper.sheet import PAPERS
from conemodel.show.setting.text import CAUTION
from conemodel.tasks.diagnosis.diagnose import diagnose
from conemodel.tasks.diagnosis.looks import LOOKS
from conemodel.tasks.diagnosis.procedure import percent
from tests.hostile import HOSTILE
from tests.show.paper.pdf_paths import page_size
from tests.show.paper.words import off_the_sheet, overlapping, said

FILES = ("comes-back", "dial-gauge", "play-elsewhere", "proud-axle", "three-answers")


def checked(root, name):
    return diagnose(load_readings(root / "scenarios" / "readings" / f"{name}.toml"))


@pytest.mark.parametrize("name", FILES)
def test_what_is_said_largest_is_largest_and_nothing_lies_over_anything(root, name):
    diagnosis = checked(root, name)
    figure = check_figure(diagnosis)
    words = said(figure)
    largest = max(figure.findobj(Text), key=lambda text: text.get_fontsize()).get_text()
    assert diagnosis.headline.answer.words in largest
    assert CAUTION in words
    for answer in diagnosis.headline.answers:
        assert answer.words in words
        assert answer.act in words
    assert overlapping(figure) == []
    assert off_the_sheet(figure, margin_mm=6) == []
    assert page_size(to_pdf(figure)) == pytest.approx(PAPERS["A5"], abs=0.1)


def test_the_turn_stands_there_with_its_chances_and_every_reading(root):
    diagnosis = checked(root, "dial-gauge")
    words = said(check_figure(diagnosis))
    move = diagnosis.move
    assert move is not None
    assert f"after this turn: {percent(move.chance)}; too tight then: {percent(move.tight)}" in words
    assert diagnosis.next_steps[0].why in words
    # as the file has them
    for read in ("0.86 mm by dial gauge", "0.43 mm", "0.66 mm", "0.18 mm", "15° in (clockwise)", "130.10 mm",
                 "141.20 mm", "9 × 6.350 mm", "M10 x 1", f"{LOOKS['far_side_unlocked'].asked}: no"):  # fmt: skip
        assert read in words


@pytest.mark.parametrize("name", FILES)
def test_a_fault_that_is_said_as_ten_percent_or_more_stands_on_it(root, name):
    """The screen's table rounds 9.9 % to 10 %: paper and screen hold to what is said."""
    diagnosis = checked(root, name)
    words = said(check_figure(diagnosis)).lower()
    for fault in diagnosis.faults:
        found = re.search(r"\d+", percent(fault.chance))
        if found and int(found[0]) >= 10 and fault.found == "likely":
            assert f"{fault.label.lower()}: " in words
    if name == "dial-gauge":
        assert "dented (brinelled) or pitted race: 10 %" in words


def test_invented_readings_are_not_what_is_the_matter(root):
    words = said(check_figure(checked(root, "dial-gauge")))
    assert "About these readings: Invented for this project." in words
    assert "What is the matter" not in words


def test_a_wheel_that_may_come_out_is_told_no_turn(root):
    words = said(check_figure(checked(root, "proud-axle")))
    assert "⚠ Do not ride" in words
    assert "good range" not in words


def test_foreign_words_and_the_longest_file_stay_on_the_sheet(root):
    text = " ".join(HOSTILE.values())
    usual = checked(root, "dial-gauge")
    readings = usual.readings.replace(
        name=text, story=text * 3, **dict.fromkeys(ROUNDS[1:], usual.readings.round_2)
    )
    figure = check_figure(replace(usual, readings=readings))
    assert overlapping(figure) == []
    assert off_the_sheet(figure, margin_mm=6) == []
    assert to_pdf(figure).startswith(b"%PDF")
    assert "no room here" in said(figure)
