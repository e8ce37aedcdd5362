"""The menu: three doors at every width, by hand, by keyboard and by screen reader."""

from collections.abc import Callable
from itertools import pairwise

import pytest
from playwright.sync_api import Locator, Page

from conemodel.ui.start import DOORS
from tests.browser.pages import findings, go_to, overflow, settle

Open = Callable[..., Page]

DOOR_NAMES = [door.name for door in DOORS]


def link(page: Page, name: str) -> Locator:
    return page.locator(".st-key-cm-menu").get_by_role("link", name=name, exact=True)


@pytest.mark.parametrize(("width", "height"), [(1366, 768), (820, 1180), (390, 844)])
@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_the_three_doors_stand_in_one_line(open_page, width, height, dark):
    page = open_page("/practise", width=width, height=height, dark=dark)
    boxes = [box for name in DOOR_NAMES if (box := link(page, name).bounding_box())]
    assert len(boxes) == len(DOOR_NAMES)
    assert len({box["y"] for box in boxes}) == 1
    for left, right in pairwise(boxes):
        assert left["x"] + left["width"] <= right["x"]
    assert boxes[-1]["x"] + boxes[-1]["width"] <= width
    assert min(box["y"] for box in boxes) >= 0
    assert min(box["height"] for box in boxes) >= 44  # high enough for a finger: WCAG 2.2, 2.5.5
    for name in ("First hub", "Practise", "Progress", "Set the cone"):
        assert link(page, name).is_visible()
    assert findings(page) == []
    assert overflow(page) == 0


def test_the_doors_lead_on_by_keyboard(open_page: Open):
    page = open_page("/check-a-hub")
    link(page, "Start").focus()
    page.keyboard.press("Tab")
    assert link(page, "Learn it").evaluate("link => link === document.activeElement")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="First hub", level=1).wait_for()
    settle(page)
    assert page.url.split("?")[0].endswith("/first-hub")


def test_the_door_and_the_page_that_are_shown_stand_out(open_page: Open):
    page = open_page("/check-a-hub")
    strong = page.locator(".st-key-cm-menu strong")
    assert strong.all_inner_texts() == ["Sort out a hub", "Check a hub"]
    go_to(page, "Learn it", "Progress")
    page.get_by_role("heading", name="Progress and classes", level=1).wait_for()
    assert strong.all_inner_texts() == ["Learn it", "Progress"]
