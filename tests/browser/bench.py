"""What a visitor does at the practice bench, and what is read off it."""

from playwright.sync_api import Page

from tests.browser.hands import END, Hand
from tests.browser.pages import settle


def pick(page: Page, name: str) -> None:
    page.get_by_role("radio", name=name, exact=True).first.click()
    settle(page)


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).first.click()
    settle(page)


def told(page: Page) -> str:
    return page.locator(".told").first.inner_text()


def lines(page: Page) -> int:
    return int(page.locator(".cm-log").first.get_attribute("data-said") or 0)


def heard(page: Page, before: int) -> str:
    """Wait until the bench has answered a gesture; what it said."""
    page.wait_for_function("n => document.querySelector('.cm-log').dataset.said > n", arg=before)
    settle(page)
    return told(page)


def drag(page: Page, turn: float) -> str:
    """Drag the spanner round by degrees, clockwise; the answer."""
    before = lines(page)
    Hand(page, on=END).round(20, turn)
    return heard(page, before)
