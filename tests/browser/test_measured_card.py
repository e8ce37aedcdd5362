"""A hub is measured from its job card in a real browser, and what was measured stands on the card."""

from collections.abc import Callable

from playwright.sync_api import Page, expect

from tests.browser.pages import findings, overflow, settle

Open = Callable[..., Page]

LEAST = 48
"""Height of what a thumb hits [px]."""


def test_a_hub_is_measured_from_its_card_and_stands_there(open_page: Open) -> None:
    page = open_page("/job-cards", width=820, height=1180, touch=True)
    page.get_by_role("button", name="New card").click()
    settle(page)
    row = page.locator(".job-card .row.measured")
    expect(row).to_contain_text("Not measured yet.")
    tall = [row.get_by_role("button").bounding_box()]
    row.get_by_role("button", name="Measure this hub").tap()
    for state, plays in (("locknut", "24"), ("tighten", "15")):
        page.get_by_text(state, exact=False).first.wait_for()
        field = page.get_by_label("Light push", exact=False)
        field.fill(plays)
        field.press("Enter")
        settle(page)
        page.get_by_role("button", name="Write it down").click()
        settle(page)
    page.reload()  # the address holds the readings and the card they are of
    put = page.get_by_role("button", name="Put it on the card without a tag")
    put.wait_for()
    tall.append(put.bounding_box())
    put.click()
    to_card = page.get_by_role("link", name="To the card without a tag")
    to_card.wait_for()
    tall.append(to_card.bounding_box())
    assert all(box and box["height"] >= LEAST for box in tall)
    assert overflow(page) == 0
    to_card.click()
    expect(row).to_contain_text("thread slack 0.0")
    expect(row).to_contain_text("(clockwise)")
    expect(page.locator(".job-card .advice").filter(has_text="from the pen line").first).to_be_visible()
    assert overflow(page) == 0
    assert findings(page) == []
