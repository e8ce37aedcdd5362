"""Somebody's own hub in a real browser: entered by thumb in a few taps, the same wherever its link is opened."""

from collections.abc import Callable
from urllib.parse import urlsplit

from playwright.sync_api import Page

from tests.browser.pages import findings, go_to, overflow, settle

Open = Callable[..., Page]

TITLE = "Front hub with axle nuts, 96 mm, 3/8 × 26"

TAPS = (
    ("button", "My hub"),
    ("radio", "front"),
    ("radio", "axle nuts"),
    ("radio", "3/8 × 26"),
    ("button", "Balls, left: more"),
    ("radio", "96 mm"),
    ("button", "Axle out of the locknut, left: more"),
    ("radio", "not keyed"),
    ("button", "Use this hub"),
)
"""Nine taps from Set the cone to an own nutted front hub of which five things are known, and no typing."""

SMALL = """form => [...form.querySelectorAll('button, summary')]
    .map(each => [each.innerText, each.getBoundingClientRect()])
    .filter(([words, box]) => box.width < 47.5 || box.height < 47.5).map(([words]) => words)"""


def test_a_hub_is_entered_by_thumb_and_opens_elsewhere(open_page: Open) -> None:
    page = open_page("/set-the-cone", width=820, height=1180, touch=True)
    for role, name in TAPS:
        page.get_by_role(role, name=name, exact=True).tap()  # type: ignore[arg-type]
        settle(page)
        form = page.locator(".st-key-cm-mine")
        if (role, name) == TAPS[-2]:
            assert form.evaluate(SMALL) == []
            assert findings(page) == []
            assert overflow(page) == 0
    assert TITLE in page.get_by_label("Hub", exact=True).input_value()
    page.get_by_text("5 known, 9 assumed").first.wait_for()
    link = urlsplit(page.url)

    other = open_page(f"{link.path}?{link.query}", width=390, height=844, dark=True)
    other.get_by_text("5 known, 9 assumed").first.wait_for()
    settle(other)
    assert overflow(other) == 0
    assert findings(other) == []

    damaged = open_page(f"{link.path}?{link.query[:-30]}", width=390, height=844)
    damaged.get_by_text("The hub in this address could not be read.").wait_for()

    go_to(page, "Show it", "Demonstrate")
    page.get_by_role("combobox", name="Story").click()
    page.get_by_role("option", name="Your own hub, backed off two ways").click()
    settle(page)
    assert TITLE in page.get_by_label("Hub", exact=True).input_value()
    go_to(page, "Sort out a hub", "Check a hub")
    page.get_by_text(f"the hub of the other screens: {TITLE}").wait_for()


def test_a_form_that_was_closed_by_its_x_holds_what_was_entered(open_page: Open) -> None:
    page = open_page("/set-the-cone", width=390, height=844, touch=True)
    for role, name in (*TAPS[:3], ("button", "Close")):
        page.get_by_role(role, name=name, exact=True).tap()  # type: ignore[arg-type]
        settle(page)
    page.get_by_role("button", name="My hub", exact=True).tap()
    settle(page)
    assert page.get_by_role("radio", name="axle nuts", exact=True).is_checked()
    page.get_by_text("What you entered before is still here.").wait_for()
