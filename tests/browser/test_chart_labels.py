"""Words in charts never lie on each other or over the side: all ready hubs and 50 random settings, three widths."""

from collections.abc import Callable
from itertools import combinations
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from conemodel.ui.choose_hub import ready_hubs
from tests.browser.pages import Visitor
from tests.browser.server import Server

WORDS = """() => [...document.querySelectorAll('[data-testid=stVegaLiteChart] svg')].map(chart => {
    const about = chart.getBoundingClientRect();
    return {width: about.width, words: [...chart.querySelectorAll('text')]
        .filter(text => text.textContent.trim() && !text.hasAttribute('stroke') && +getComputedStyle(text).opacity > 0)
        .map(text => ({text, box: text.getBoundingClientRect()}))
        .map(({text, box}) => ({text: text.textContent, left: box.left - about.left, right: box.right - about.left,
            top: box.top, bottom: box.bottom}))}})"""

EMPTY = 3
"""A line box is taller than its letters by this much at its top and at its foot, at 13 px [px]."""

CHARTS = 2 * (len(ready_hubs()) + 50) + 1
"""Two of each hub, and one of many hubs."""


@pytest.fixture(scope="module")
def charts(browser: Browser, serve: Callable[[Path], Server]) -> Visitor:
    return Visitor(browser, serve(Path(__file__).with_name("charts_page.py")).url)


def lies_on(one, other):
    across = one["left"] < other["right"] - 1 and other["left"] < one["right"] - 1
    return across and one["top"] < other["bottom"] - 2 * EMPTY and other["top"] < one["bottom"] - 2 * EMPTY


def troubles(page):
    found = []
    for chart in page.evaluate(WORDS):
        for one, other in combinations(chart["words"], 2):
            if lies_on(one, other):
                found.append(f"{one['text']} on {other['text']}, {chart['width']:.0f} px wide")
        for each in chart["words"]:
            if each["left"] < -EMPTY or each["right"] > chart["width"] + EMPTY:
                found.append(f"{each['text']} over the side, {chart['width']:.0f} px wide")
    return found


BEARING_CHARTS = 6 * 3 * 7
"""Seven of each of six hubs at three settings."""


@pytest.fixture(scope="module")
def bearing_charts(browser: Browser, serve: Callable[[Path], Server]) -> Visitor:
    return Visitor(browser, serve(Path(__file__).with_name("bearing_charts_page.py")).url)


def test_words_in_charts_stand_clear_of_each_other(charts: Visitor):
    check_words(charts, CHARTS)


def test_words_in_charts_of_bearings_stand_clear_of_each_other(bearing_charts: Visitor):
    """Torque, drag, spin, pressure, life and rocking: what Set the cone draws under Look closer."""
    check_words(bearing_charts, BEARING_CHARTS)


def check_words(charts: Visitor, least: int) -> None:
    """Find no trouble at three widths, once `least` charts are drawn."""
    with charts.page(width=1366) as page:
        for width in (1366, 820, 390):
            page.set_viewport_size({"width": width, "height": 900})
            wide = f"""() => [...document.querySelectorAll('[data-testid=stVegaLiteChart] svg')]
                .filter(chart => chart.getBoundingClientRect().width <= {width}).length >= {least}"""
            page.wait_for_function(wide)
            page.evaluate("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")
            found = troubles(page)
            assert not found, "\n".join(sorted(set(found)))
