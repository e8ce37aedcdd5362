"""Signs above the tops of lines stand clear of each other at every width, each above its own line. Geometry."""

import random

import pytest

from conemodel.show.charts.label_layout import NARROWEST, lift_signs

FIGURES, TALL = 15, 14
"""Width of two bold figures and height of a line of 13 px [px]; common practice, no source."""


def boxes(tops, lifts, *, across, width, height):
    up = height / max(y for _, y in tops.values())
    for sign, (x, y) in tops.items():
        middle, foot = x * width / across, y * up + lifts[sign]
        yield middle - FIGURES / 2, foot, middle + FIGURES / 2, foot + TALL


@pytest.mark.parametrize("seed", range(50))
def test_signs_of_random_lines_never_lie_on_each_other(seed):
    draw = random.Random(seed)
    across = draw.uniform(20, 400)
    tops = {str(n): (draw.uniform(0, across), draw.uniform(0.01, 1.0)) for n in range(1, draw.randint(2, 14))}
    lifts = lift_signs(tops, across=across, height=280)
    assert min(lifts.values()) == 0
    for width in (NARROWEST, 362, 571, 1206):
        placed = list(boxes(tops, lifts, across=across, width=width, height=280))
        for number, (left, foot, right, top) in enumerate(placed):
            for other_left, other_foot, other_right, other_top in placed[number + 1 :]:
                beside = right <= other_left or other_right <= left
                assert beside or top <= other_foot or other_top <= foot


def test_a_sign_alone_keeps_its_place():
    assert lift_signs({"1": (10, 0.2), "2": (90, 0.9)}, across=100, height=280) == {"1": 0, "2": 0}


def test_lines_of_nothing_are_told_apart_too():
    assert sorted(lift_signs({"1": (10, 0.0), "2": (10, 0.0)}, across=100, height=280).values()) == [0, 18]
