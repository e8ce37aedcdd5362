"""Paragraphs in a column: all of them where they fit, smaller where they must be, counted where they do not."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conemodel.show.paper.flow import SHRINKS, Block, write_blocks
from conemodel.show.paper.sheet import PAPERS, new_sheet
from tests.show.paper.words import boxes, off_the_sheet, overlapping, said

HIGH = 60.0


def written(blocks, *, foot=HIGH + 10):
    sheet = new_sheet(PAPERS["A5"])
    end = write_blocks(sheet, (10, 10), blocks, room=128, foot=foot)
    return sheet, end


def test_all_that_fits_stands_there_as_large_as_asked():
    sheet, _ = written([Block(words="one", size=12), Block(words=""), Block(words="two", sign="–")])
    assert said(sheet.figure) == "one – two"
    assert sheet.axes.texts[0].get_fontsize() == 12


@pytest.mark.parametrize(("many", "shrink"), [(12, SHRINKS[0]), (14, SHRINKS[-2]), (15, SHRINKS[-1])])
def test_more_is_smaller_before_anything_is_left_out(many, shrink):
    sheet, _ = written([Block(words=f"line {number}", size=9) for number in range(many)])
    assert "no room" not in said(sheet.figure)
    assert sheet.axes.texts[0].get_fontsize() == pytest.approx(9 * shrink)


@settings(max_examples=6, deadline=None)
@given(st.lists(st.integers(1, 60), min_size=1, max_size=25))
def test_nothing_lies_over_anything_or_below_the_foot_and_all_is_told_or_counted(lengths):
    sheet, end = written([Block(words=f"b{n} " + "word " * long, sign="–") for n, long in enumerate(lengths)])
    assert end <= HIGH + 10 + 1e-9
    assert overlapping(sheet.figure) == []
    assert off_the_sheet(sheet.figure) == []
    told = sum(words.startswith("b") for words, _ in boxes(sheet.figure))
    left_out = [words for words, _ in boxes(sheet.figure) if "no room" in words]
    assert told + (int(left_out[0].split()[2]) if left_out else 0) == len(lengths)
