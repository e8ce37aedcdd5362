"""Today's plan in a real browser: the name is asked once, also over a reload; every size of screen can read it."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from tests.browser.bench import press
from tests.browser.pages import findings, overflow, settle

Open = Callable[..., Page]


@pytest.mark.parametrize(("width", "dark"), [(1280, False), (390, True)])
def test_the_name_is_asked_once_and_today_leads_to_the_bench(open_page: Open, width: int, dark: bool) -> None:
    page = open_page("/practise", width=width, height=844, dark=dark)
    assert page.get_by_role("heading", name="Today: four hubs, about four minutes").is_visible()
    assert overflow(page) == 0
    assert findings(page) == []
    field = page.get_by_label("Your name, or none")
    field.fill("Zoë; max-age=0, O'N")  # nothing in a name ends the text or the cookie it is kept in
    field.press("Enter")
    settle(page)
    page.wait_for_function("document.cookie.includes('practise_name')")
    page.reload()
    field.wait_for()
    settle(page)
    assert field.input_value() == "Zoë; max-age=0, O'N"
    press(page, "Begin today's hubs")
    assert page.get_by_role("combobox", name="Exercise").first.is_visible()
    assert "01-first-touch" in page.url
