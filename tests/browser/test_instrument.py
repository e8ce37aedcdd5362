"""The instrument in Chromium: by mouse, touch and keys, alone on a page."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.instrument_hands import Spanner, drawn, said, told, wait_rest
from tests.browser.pages import Visitor, findings, overflow
from tests.browser.server import Server

SIZES = {"wide": (1366, 768), "tablet": (820, 1180), "phone": (390, 844)}


@pytest.fixture(scope="module")
def bench(browser: Browser, serve: Callable[[Path], Server]) -> Iterator[Visitor]:
    """Return the way to the page; the tests of the file fail if it reported an error."""
    visitor = Visitor(browser, serve(Path(__file__).with_name("instrument_page.py")).url)
    yield visitor
    assert visitor.errors == []


def asked(page: Page) -> int:
    return int(page.evaluate("() => traffic.asked"))


@pytest.mark.parametrize("way", ["mouse", "touch", "keys"])
def test_the_cone_is_turned_by_mouse_touch_and_keys(bench, way):
    with bench.page("/?stage=backed_off", touch=way == "touch") as page:
        hand = Spanner(page, touch=way == "touch")
        if way == "keys":
            page.get_by_role("slider", name="Cone spanner").focus()
            for _ in range(5):
                page.keyboard.press("ArrowRight")
        else:
            hand.drag(-90, -60)
        moved = told(page, 1)
        assert float(moved["angle"]) == pytest.approx(60, abs=1)
        assert moved["stage"] == "backed_off"
        assert moved["way"] == {"mouse": "pointer"}.get(way, way)
        assert said(page).startswith("10 minutes out from finger contact. Backed off: play ")


def test_nothing_is_asked_of_the_server_while_a_finger_moves(bench):
    with bench.page("/?stage=backed_off") as page:
        hand = Spanner(page)
        before = asked(page)
        hand.down(-90)
        seen = set()
        for angle in range(-89, -49):
            hand.move(angle)
            page.evaluate("() => new Promise(requestAnimationFrame)")
            seen.add(drawn(page)["gap"])
        assert asked(page) == before
        assert len(seen) > 30  # while the picture followed
        hand.up()
        told(page, 1)
        assert asked(page) == before + 1


def test_a_locked_cone_is_undone_before_it_turns_and_locked_again(bench):
    with bench.page("/?stage=clamped") as page:
        hand = Spanner(page)
        hand.down(-90)
        page.wait_for_function("() => true")
        for angle in range(-89, -69):
            hand.move(angle)
        page.get_by_text("In the vice").wait_for()
        assert drawn(page)["stage"] == "backed_off"
        hand.up()
        assert told(page, 1)["stage"] == "clamped"
        assert drawn(page)["stage"] == "clamped"
        assert drawn(page)["angle"] == pytest.approx(70, abs=1)


def test_what_moves_is_what_was_grabbed(bench):
    with bench.page("/?stage=locked") as page:
        hand = Spanner(page)
        hand.drag(100, 56, share=0.6)
        assert told(page, 1)["stage"] == "backed_off"
        assert drawn(page)["angle"] == 90


def test_the_turn_advised_is_made_in_one_press_and_taken_back_by_the_page(bench):
    with bench.page("/?stage=clamped&hub=city-nutted") as page:
        wait_rest(page)
        advised = page.locator(".turn .words").inner_text()
        page.get_by_role("button", name="Make that turn").click()
        turned = 90 - float(told(page, 1)["angle"])
        assert advised == f"{turned:.0f}° in"
        assert page.locator(".go").is_hidden()
        page.get_by_role("button", name="Undo").click()
        page.locator(".turned", has_text="12 minutes out").wait_for()
        wait_rest(page)
        assert drawn(page)["angle"] == 72


def test_hands_on_a_fault_never_read_that_the_cone_may_be_left(bench):
    with bench.page("/?hub=proud-axle") as page:
        wait_rest(page)
        for angle in ("clamped", "locked"):
            page.locator(f".acts [data-stage={angle}]").click()
            wait_rest(page)
            assert drawn(page)["sign"] == "⚠"
            assert drawn(page)["words"] == "Do not ride"
            assert "Leave" not in page.locator(".head").inner_text()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("dark", [False, True])
def test_it_fits_and_has_no_accessibility_findings(bench, size, dark):
    width, height = SIZES[size]
    with bench.page("/", width=width, height=height, dark=dark) as page:
        wait_rest(page)
        assert findings(page) == []
        assert overflow(page) == 0
        frame = page.locator(".instrument").bounding_box()
        assert frame is not None
        assert frame["height"] <= height - 64


def test_the_headline_stays_in_sight_on_a_phone_and_at_twice_the_size(bench):
    for width, height in ((390, 844), (683, 384)):
        with bench.page("/", width=width, height=height) as page:
            wait_rest(page)
            page.locator(".whole").scroll_into_view_if_needed()
            page.mouse.wheel(0, 150)
            box = page.locator(".state .words").bounding_box()
            assert box is not None
            assert 0 <= box["y"] <= height / 3


def test_what_is_hidden_is_nowhere(bench):
    with bench.page("/?hide=good headline numbers") as page:
        wait_rest(page)
        text = page.locator(".instrument").inner_text()
        assert "mm" not in text
        assert "\N{CHECK MARK}" not in text
        assert page.locator(".good-zone").is_hidden()
        assert page.locator(".head").is_hidden()
