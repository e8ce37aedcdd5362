"""Words fit the room they have, and sheets are as large as their standard says."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.show.paper.sheet import PAPERS, new_sheet, shorten, text_width, wrap
from tests.show.paper.words import boxes

LETTERS = st.text(st.characters(min_codepoint=32, max_codepoint=0x17F, exclude_categories=["Cc", "Cf", "Cs"]))


@pytest.mark.parametrize(
    ("name", "size"),
    # ISO 216: A3, A4, A5; Letter is 8.5 × 11 in (ANSI/ASME Y14.1), quoted from memory, page not seen
    [("A3", (297, 420)), ("A4", (210, 297)), ("A5", (148, 210)), ("Letter", (8.5 * 25.4, 11 * 25.4))],
)
def test_sheets_are_as_large_as_their_standard(name, size):
    assert pytest.approx(size, abs=1e-9) == PAPERS[name]
    figure = new_sheet(PAPERS[name]).figure
    assert figure.get_size_inches() * 25.4 == pytest.approx(size, abs=1e-9)


@given(LETTERS, st.floats(5, 60))
def test_no_line_is_wider_than_its_room_and_no_letter_is_lost(words, room):
    lines = wrap(words, room=room, size=9)
    assert all(text_width(line, size=9) <= room + 1e-9 or len(line) == 1 for line in lines)
    assert "".join("".join(lines).split()) == "".join(words.split())


@given(LETTERS, st.floats(8, 60), st.integers(1, 3))
def test_no_more_lines_than_asked_for_and_a_sign_where_words_are_left_out(words, room, most):
    lines = wrap(words, room=room, size=9, most=most)
    assert len(lines) <= most
    kept = "".join("".join(lines).split())
    whole = "".join(words.split())
    assert kept == whole or (lines[-1].endswith("…") and text_width(lines[-1], size=9) <= room + 1e-9)


def test_what_fits_is_not_shortened_and_what_does_not_keeps_its_beginning():
    assert shorten("cone", room=50, size=10) == "cone"
    cut = shorten("a cone " * 20, room=50, size=10)
    assert cut.startswith("a cone a cone")
    assert cut.endswith("…")


def test_the_width_is_that_of_the_drawn_words():
    sheet = new_sheet(PAPERS["A5"])
    sheet.write((10, 30), "Locknut, cone and cup", size=12, bold=True)
    ((words, box),) = boxes(sheet.figure)
    drawn = box.width / sheet.figure.dpi * 25.4
    # on a screen each letter is moved to a whole pixel, here 0.08 mm
    assert text_width(words, size=12, bold=True) == pytest.approx(drawn, abs=0.55)
