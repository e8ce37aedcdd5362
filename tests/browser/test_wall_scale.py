"""The close-ups of a story on the wall: large, of one enlargement, and with words that carry."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from conemodel.tasks.lesson.position import positions
from tests.browser.test_demonstrate import STORIES, address

Open = Callable[..., Page]

CLOSE = """() => [...document.querySelectorAll('.cm-close')].map(part =>
    [part.getBoundingClientRect().width, atob(part.src.split(',')[1])])"""
"""Width of each close-up, and its drawing."""


@pytest.mark.parametrize("name", ["quick-release-or-nuts", "held-or-unheld-cone"])
@pytest.mark.parametrize(("width", "height"), [(1280, 720), (1366, 768), (1920, 1080)])
def test_each_close_up_has_a_third_of_the_window_and_both_have_one_scale_at_every_step(
    open_page: Open, name: str, width: int, height: int
) -> None:
    """The close-up is the picture above the rule, which begins where `below` covers the axle."""
    order, scales = positions(STORIES[name].story), set()
    for place in order:
        page = open_page(address(name, place), width=width, height=height, still=True)
        for wide, source in page.evaluate(CLOSE):
            view = [float(v) for v in re.findall(r'viewBox="([^"]*)"', source)[0].split()]
            factor = float(re.findall(r'data-factor="([^"]*)"', source)[0])
            base = float(re.findall(r'class="below" d="M[-\d.]+ ([-\d.]+)L[-\d.]+ ([-\d.]+)', source)[0][1])
            sizes = [float(size) for size in re.findall(r'font-size="([^"]*)"', source)]
            assert (base - view[1]) * wide / view[2] >= height / 3
            assert min(sizes) * wide / view[2] >= 24 * height / 720
            scales.add(round(factor * wide / view[2], 2))
    assert len(scales) == 1
