"""The picture of a link is read back, by a reader of its own, and is as a camera wants it."""

import re

import numpy as np
import pytest

from conemodel.show.practice.qr_code import qr_svg
from tests.show.practice.qr_reader import read_qr

LINKS = (
    "http://192.168.1.20:8501/practise?exercise=05-quick-release&link=05-quick-release.evening-2.12.training",
    "http://192.168.1.20:8501/practise?exercise=01-first-touch&link=01-first-touch.b.1",
    "http://[fd00::2]:8501/",
)
QUIET = 4
"""Squares of margin that a reader wants. ISO/IEC 18004, from memory, page not seen."""


def squares(words):
    svg = qr_svg(words)
    found = re.search(r'viewBox="0 0 (\d+) \1"', svg)
    assert found
    dark = np.zeros((int(found[1]),) * 2, dtype=bool)
    for x, y in re.findall(r"M(\d+) (\d+)h1v1h-1z", svg):
        dark[int(y), int(x)] = True
    return dark


@pytest.mark.parametrize("words", LINKS)
def test_what_is_read_is_the_link(words):
    assert read_qr(squares(words)[QUIET:-QUIET, QUIET:-QUIET]) == words


@pytest.mark.parametrize("words", LINKS)
def test_it_has_a_margin_and_its_three_corners(words):
    dark = squares(words)
    inside = dark[QUIET:-QUIET, QUIET:-QUIET]
    assert dark.sum() == inside.sum()
    ring = np.ones((7, 7), dtype=bool)
    ring[1:6, 1:6] = False
    ring[2:5, 2:5] = True
    for corner in (inside[:7, :7], inside[:7, -7:], inside[-7:, :7]):
        assert np.array_equal(corner, ring)


def test_a_link_for_a_class_is_read_from_afar():
    """A camera reads a code from ten times its width (common practice, no source): one of 0.4 m from 4 m.

    Its squares are then 0.4 m / 45 wide, 9 mm; a finer code would ask for a nearer phone.
    """
    assert squares(LINKS[0]).shape[0] <= 45
