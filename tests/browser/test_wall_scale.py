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


LYING = """() => [...document.querySelectorAll('.cm-side')].flatMap(side => {
    const picture = side.querySelector('.cm-close'), words = side.querySelector('.cm-reading');
    if (!picture || !words) return [];
    const svg = new DOMParser().parseFromString(atob(picture.src.split(',')[1]), 'image/svg+xml').documentElement;
    const [left, top, wide] = svg.getAttribute('viewBox').split(' ').map(Number);
    const box = picture.getBoundingClientRect(), scale = box.width / wide, range = new Range();
    range.selectNodeContents(words);
    const lines = [...range.getClientRects()];
    return [...svg.querySelectorAll('text')].filter(text => {
        const x = box.left + (Number(text.getAttribute('x')) - left) * scale;
        const y = box.top + (Number(text.getAttribute('y')) - top) * scale;
        const size = Number(text.getAttribute('font-size')) * scale, long = 0.54 * size * text.textContent.length;
        const from = x - long * ({ start: 0, end: 1 }[text.getAttribute('text-anchor')] ?? 0.5);
        const meets = line => line.right > from && line.left < from + long;
        return lines.some(line => line.bottom > y - 0.7 * size && line.top < y && meets(line));
    }).map(text => `${words.innerText} on ${text.textContent}`);
})"""
"""What is written over a name in the picture; letters are some 0.54 of their height wide."""


@pytest.mark.parametrize(("width", "height"), [(820, 1180), (1024, 768), (1280, 720)])
def test_what_was_found_lies_on_no_name_and_an_upright_window_is_used(
    open_page: Open, width: int, height: int
) -> None:
    for step in (
        "quick-release-or-nuts&step=clamped",
        "proud-axle&step=clamped",
        "loose-or-right-under-the-rider&step=ridden",
    ):
        page = open_page(f"/demonstrate?story={step}&shown=yes", width=width, height=height)
        assert page.evaluate(LYING) == []
        boxes = [part.bounding_box() for part in page.locator(".cm-drawn").all()]
        if height > width:
            assert sum(box["height"] for box in boxes if box) > height / 2
            whose = page.locator(".cm-whose")  # answers stand side by side under hubs that do not
            assert whose.count() == page.locator(".cm-answer").count() > 0
            assert all(each.is_visible() for each in whose.all())


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
