"""A real hub in a real browser: counts entered by thumb, kept through a reload, in both themes and at three widths."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from tests.browser.pages import findings, overflow, settle

Open = Callable[..., Page]

COUNTS = "loose_play=2&loose_drag=0&locked_play=8&locked_drag=6&clamped_play=12&clamped_drag=10"


def test_a_count_is_entered_and_lives_through_a_reload(open_page: Open) -> None:
    page = open_page("/real-hub", width=820, height=1180, touch=True)
    field = page.get_by_label("Play from, locked", exact=True)
    field.fill("8.5")
    field.press("Enter")
    settle(page)
    page.get_by_text("Your threshold is not told yet").wait_for()
    page.reload()
    settle(page)
    assert page.get_by_label("Play from, locked", exact=True).input_value() == "8.5"
    page.get_by_text("Your threshold is not told yet").wait_for()


@pytest.mark.parametrize(("width", "height", "dark"), [(390, 844, True), (1366, 768, False)])
def test_the_page_is_whole_at_every_width_and_a_thumb_hits_its_numbers(open_page: Open, width, height, dark):
    page = open_page(f"/real-hub?{COUNTS}", width=width, height=height, dark=dark)
    page.get_by_text("You feel play from").wait_for()
    fields = page.locator("[class*=st-key-cm-counts] [data-testid=stNumberInputContainer]")
    assert fields.count() == 12
    for number in range(fields.count()):
        box = fields.nth(number).bounding_box()
        assert box is not None
        assert box["height"] >= 48
        written = fields.nth(number).locator("input").bounding_box()
        assert written is not None
        assert written["width"] >= 30  # two figures and a half can be read
    assert page.get_by_role("img", name="End play over minutes of the cone").count() == 1
    assert overflow(page) == 0
    assert findings(page) == []
