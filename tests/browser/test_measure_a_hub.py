"""Measure a hub in a real browser: plays entered by thumb until there is a turn, kept through a reload."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from tests.browser.pages import findings, overflow, settle

Open = Callable[..., Page]


def read(page: Page, light: str, hard: str) -> None:
    """Enter a play under both pushes, in hundredths of a millimetre, and write it down."""
    for push, value in (("Light", light), ("Hard", hard)):
        field = page.get_by_label(f"{push} push", exact=False)
        field.fill(value)
        field.press("Enter")
        settle(page)
    page.get_by_role("button", name="Write it down").click()
    settle(page)


def test_three_readings_give_a_turn_that_lives_through_a_reload_and_is_taken_over(open_page: Open) -> None:
    page = open_page("/measure-a-hub", width=820, height=1180, touch=True)
    for state, light, hard in (("locknut", "24", "25"), ("tighten", "15", "15"), ("Close", "10", "10")):
        page.get_by_text(state, exact=False).first.wait_for()
        read(page, light, hard)
    said = "6 minutes in (clockwise)"
    page.locator(".cm-state", has_text=said).wait_for()
    page.reload()
    settle(page)
    page.locator(".cm-state", has_text=said).wait_for()
    page.get_by_role("button", name="Take this hub").click()
    settle(page)
    assert page.get_by_text("measured").count() > 0
    page.get_by_role("button", name="Take back the last").click()
    settle(page)
    page.get_by_text("Close the clamp", exact=False).wait_for()


@pytest.mark.parametrize(("width", "height", "dark"), [(390, 844, True), (1366, 768, False)])
def test_the_page_is_whole_at_every_width_and_a_thumb_hits_it(open_page: Open, width, height, dark):
    page = open_page("/measure-a-hub", width=width, height=height, dark=dark)
    chips = page.locator(".st-key-cm-measure [data-testid=stButtonGroup] button")
    for chip in chips.all():
        box = chip.bounding_box()
        assert box is not None
        assert box["x"] + box["width"] <= width - 15  # whole, inside the page's margin
    read(page, "24", "25")
    buttons = [page.get_by_role("button", name=name) for name in ("Write it down", "Take back the last")]
    for touched in (*page.locator(".st-key-cm-plays [data-testid=stNumberInputContainer]").all(), *buttons):
        box = touched.bounding_box()
        assert box is not None
        assert box["height"] >= 48
    assert page.get_by_role("img", name="End play over minutes of the cone").count() == 1
    assert overflow(page) == 0
    assert findings(page) == []
