"""Rocking the wheel in Chromium, on the invented curves of widgets_page.py."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.hands import CANVAS, Hand, returned, status, written
from tests.browser.pages import Visitor
from tests.browser.server import Server


@pytest.fixture(scope="module")
def bench(browser: Browser, serve: Callable[[Path], Server]) -> Iterator[Visitor]:
    """Return the way to the page of widgets; the tests of the file fail if it reported an error."""
    visitor = Visitor(browser, serve(Path(__file__).with_name("widgets_page.py")).url)
    yield visitor
    assert visitor.errors == []


@pytest.mark.parametrize("touch", [False, True], ids=["mouse", "touch"])
def test_rocking_slowly_is_silent_and_briskly_knocks_twice_a_cycle(bench, touch):
    with bench.page("/?show=rock&play=0.5", touch=touch) as page:
        hand = Hand(page, touch=touch)
        hand.rock(wide=0.1, pause=90, steps=60, cycles=1)
        slow = returned(page, 1)
        assert (slow["knocks"], slow["brisk"]) == ("0", False)
        assert status(page) == "Clear free movement, then springy."
        hand.rock(wide=0.2, pause=16, steps=20, cycles=3)
        quick = returned(page, 2)
        assert int(quick["knocks"]) in (5, 6, 7)
        assert status(page) == "Clear free movement, then a knock."


@pytest.mark.parametrize("pause", [16, 90])
def test_without_play_nothing_knocks_at_any_speed(bench, pause):
    with bench.page("/?show=rock&play=0") as page:
        Hand(page).rock(wide=0.2, pause=pause, steps=20, cycles=2)
        assert returned(page, 1)["knocks"] == "0"
        assert status(page) == "No free movement, springy from the start."


def test_rocking_by_keys(bench):
    with bench.page("/?show=rock&play=0.5") as page:
        page.locator(CANVAS).focus()
        for key, wait in (("ArrowRight", 250), ("ArrowLeft", 400), ("ArrowRight", 400)):
            page.keyboard.down(key)
            page.wait_for_timeout(wait)
            page.keyboard.up(key)
        quick = returned(page, 1)
        assert int(quick["knocks"]) >= 2
        page.keyboard.down("Shift")
        for key in ("ArrowRight", "ArrowLeft"):
            page.keyboard.down(key)
            page.wait_for_timeout(1300)
            page.keyboard.up(key)
        page.keyboard.up("Shift")
        assert returned(page, 2)["knocks"] == "0"


@pytest.mark.parametrize(("button", "knocks"), [("Rock slowly", "0"), ("Rock briskly", "4")])
@pytest.mark.parametrize("rate", ["full", "8 frames a second"])
def test_the_frame_rate_changes_nothing_that_is_felt(bench, button, knocks, rate):
    with bench.page("/?show=rock&play=0.5") as page:
        Hand(page)
        if rate != "full":
            page.evaluate(
                "() => { window.requestAnimationFrame = f => setTimeout(() => f(performance.now()), 125); }"
            )
        page.get_by_role("button", name=button).click()
        told = returned(page, 1)
        assert (told["knocks"], told["cycles"]) == (knocks, "2")


TYRE = """canvas => {
    const tyre = canvas.parentElement.querySelector('[data-group="rim top"] .tyre').getBoundingClientRect();
    return (tyre.left + tyre.right) / 2;
}"""


def tyre_swing(bench: Visitor, times: int) -> float:
    """Return how far the tyre goes on the screen [px], pushed hard from one side to the other."""
    ends = []
    with bench.page(f"/?show=rock&play=0.3&times={times}") as page:
        hand = Hand(page)
        hand.down(0.5, 0.25)
        for side in (0.6, -0.6):
            for part in (0.25, 0.5, 0.75, 1):
                hand.move(0.5 + side * part, 0.25)
            page.wait_for_timeout(500)
            ends.append(page.locator(CANVAS).evaluate(TYRE))
        hand.up()
    return float(ends[0] - ends[1])


def test_at_true_scale_a_third_of_a_millimetre_cannot_be_seen(bench):
    assert 0 <= tyre_swing(bench, 1) < 2
    assert tyre_swing(bench, 20) > 10


@pytest.mark.parametrize(
    ("ask", "scale"),
    [
        ("", "movement drawn 20×"),
        ("&times=1", "movement at true scale"),
        ("&grip=axle", "movement drawn 12×"),
        ("&grip=axle&times=1", "movement at true scale"),
    ],
)
def test_the_scale_of_movement_is_always_written_with_a_bar_in_mm(bench, ask, scale):
    with bench.page(f"/?show=rock{ask}") as page:
        texts = written(page)
        assert scale in texts
        assert sum(bool(re.fullmatch(r"[\d.]+ mm", text)) for text in texts) == 1
