"""What the instrument shows on a phone, where the keys are, past its rule's end, and of a turn beside the green."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.instrument_hands import told, wait_rest
from tests.browser.pages import Visitor
from tests.browser.server import Server

PHONE = {"width": 390, "height": 844}


@pytest.fixture(scope="module")
def bench(browser: Browser, serve: Callable[[Path], Server]) -> Iterator[Visitor]:
    """Return the way to the page; the tests of the file fail if it reported an error."""
    visitor = Visitor(browser, serve(Path(__file__).with_name("instrument_page.py")).url)
    yield visitor
    assert visitor.errors == []


def names(page: Page) -> set[str]:
    """Return the names of parts that are seen on the close view."""
    return set(
        page.locator(".close .label text").evaluate_all(
            "all => all.filter(each => each.checkVisibility({ visibilityProperty: true }))"
            ".map(each => each.textContent)"
        )
    )


def test_a_phone_names_the_parts_has_units_and_shows_the_ball_that_carries(bench):
    with bench.page("/?stage=ridden", **PHONE, still=True) as page:
        wait_rest(page)
        assert {"cone", "cup", "ball", "locknut", "a ball below"} <= names(page)
        assert page.locator(".close .inset-edge").is_visible()
        for stage in ("contact", "locked", "clamped"):
            assert " mm" in page.locator(f".acts [data-stage={stage}]").inner_text()


def test_two_pointers_of_which_one_place_speaks_are_told_apart_by_their_signs(bench):
    with bench.page("/?stage=contact&angle=0", **PHONE, still=True) as page:
        wait_rest(page)
        assert page.locator(".rule text", has_text="once clamped").text_content() == "▽ now, ▼ once clamped"


@pytest.mark.parametrize(
    ("key", "angle"), [("PageUp", 120), ("PageDown", 60), ("ArrowUp", 96), ("Home", 0), ("End", 240)]
)
def test_the_cone_goes_by_the_keys_of_a_slider(bench, key, angle):
    """Up is more, Page goes further, Home and End to where it starts and ends: ARIA Authoring Practices, slider."""
    with bench.page("/?stage=clamped", still=True) as page:
        wait_rest(page)
        page.get_by_role("slider", name="Cone spanner").focus()
        page.keyboard.press(key)
        assert float(told(page, 1)["angle"]) == angle


def test_where_the_keys_are_is_drawn_round_the_handle_itself(bench):
    with bench.page("/?stage=clamped", still=True) as page:
        wait_rest(page)
        page.get_by_role("slider", name="Cone spanner").focus()
        for name in ("Locknut spanner", "Quick-release lever"):
            page.keyboard.press("Tab")
            handle = page.get_by_role("slider", name=name)
            assert handle.evaluate("node => node.matches(':focus-visible')")
            assert handle.evaluate("node => getComputedStyle(node).outlineStyle") == "none"
            ring = handle.locator(".focus").first
            assert ring.evaluate("node => getComputedStyle(node).stroke") != "none"
            outline = handle.locator(".part").first
            assert ring.get_attribute("d") == outline.get_attribute("d")


@pytest.mark.parametrize(("angle", "words"), [(240, "now 0.495 mm play"), (-30, "now 0.")])
def test_what_is_past_the_end_of_the_rule_points_on_and_has_its_value(bench, angle, words):
    with bench.page(f"/?stage=clamped&angle={angle}", still=True) as page:
        wait_rest(page)
        said = page.locator(".rule text", has_text="now").text_content() or ""
        assert said.startswith(words)
        play = page.locator(".play").text_content() or ""
        assert said == f"now {play}"


def test_a_turn_that_ends_beside_the_green_says_why_and_one_that_ends_in_it_does_not(bench):
    """A locked thread whose slack was not measured may be tighter than it is thought to be."""
    for hub, why in (
        ("touring-rear", "to the loose side of green: thread slack not measured"),
        ("city-nutted", None),
    ):
        with bench.page(f"/?hub={hub}&stage=clamped", still=True) as page:
            wait_rest(page)
            more = page.locator(".turn .sure").inner_text()
            assert ("green" in more) == (why is not None)
            assert why is None or more.endswith(why)


@pytest.mark.parametrize(("width", "height"), [(390, 844), (683, 384)])
def test_scrolled_past_its_place_the_headline_is_a_bar_and_nothing_jumps(bench, width, height):
    with bench.page("/?angle=72", width=width, height=height, still=True) as page:
        wait_rest(page)
        root = page.locator(".instrument")
        down = root.evaluate("node => node.querySelector('.acts').offsetTop")
        assert page.locator(".state .over").is_visible()
        page.mouse.move(width / 2, height - 20)
        page.mouse.wheel(0, 300)
        page.locator(".head[data-stuck]").wait_for()
        assert not page.locator(".state .over").is_visible()
        for words in page.locator(".head .words").all():
            box = words.bounding_box()
            assert box is not None
            assert box["y"] >= 0
            assert box["y"] + box["height"] <= 54
        assert root.evaluate("node => node.querySelector('.acts').offsetTop") == down
