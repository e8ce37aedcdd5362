"""Look closer and Method in a real browser: on a desk and on a phone, light and dark, by its address, to take along."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from tests.browser.pages import findings, overflow, wait_idle

Open = Callable[..., Page]
LOOKS = [(1280, 900, False), (390, 844, True)]
PARTS = {
    "rider": "on one ball of the",
    "turning": "Fingers say",
    "rocking": "In the frame the rim moves",
    "life": "a light preload",
    "binds": "Loose side: no play felt at the rim",
}


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize(("width", "height", "dark"), LOOKS, ids=["desk light", "phone dark"])
def test_each_part_fits_reads_and_is_accessible(
    open_page: Open, part: str, width: int, height: int, dark: bool
) -> None:
    page = open_page(f"/set-the-cone?closer={part}", width=width, height=height, dark=dark)
    page.get_by_text(PARTS[part], exact=False).first.wait_for()
    wait_idle(page)
    assert overflow(page) == 0
    assert findings(page) == []


@pytest.mark.parametrize(("width", "height", "dark"), [(1280, 900, True), (390, 844, False)])
def test_the_other_ground_too(open_page: Open, width: int, height: int, dark: bool) -> None:
    page = open_page("/set-the-cone?closer=turning&hub=dented-cone", width=width, height=height, dark=dark)
    page.get_by_text("Fingers say: notchy").wait_for()
    assert page.get_by_text("Will not come right by the cone alone").is_visible()
    wait_idle(page)
    assert overflow(page) == 0
    assert findings(page) == []


def test_a_part_is_chosen_by_a_click_and_stands_in_the_address(open_page: Open) -> None:
    page = open_page("/set-the-cone")
    assert page.get_by_text("Fingers say", exact=False).count() == 0
    page.get_by_role("radio", name="Rocking it").click()
    page.get_by_text("In the frame the rim moves", exact=False).wait_for()
    wait_idle(page)
    assert "closer=rocking" in page.url
    page.reload()
    page.get_by_text("In the frame the rim moves", exact=False).wait_for()


def test_the_rings_have_a_picture_for_each_width_with_words(open_page: Open) -> None:
    for width, kind in ((1280, "wide"), (390, "narrow")):
        page = open_page("/set-the-cone?closer=rider&case=side", width=width)
        picture = page.locator(f".picture.rings.{kind}")
        picture.locator("svg").wait_for()
        assert picture.is_visible()
        assert "clockwise from the top" in (picture.get_attribute("aria-label") or "")


def test_a_limit_switched_off_lets_the_next_bind(open_page: Open) -> None:
    page = open_page("/set-the-cone?closer=binds")
    page.get_by_text("Fatigue life", exact=True).last.click()
    page.get_by_text("Tight side: turning torque", exact=False).wait_for()
    wait_idle(page)
    assert "use_life_ratio=no" in page.url


@pytest.mark.parametrize(
    ("part", "label", "start"),
    [
        ("rider", "Every ball (CSV)", b"row,ball,"),
        ("rider", "The sweep (CSV)", b"cone_out_deg,"),
        ("rocking", "Take these numbers (CSV)", b"push_n,"),
        ("binds", "Take these numbers (CSV)", b"limit,side,"),
    ],
)
def test_what_is_shown_can_be_taken_along(open_page: Open, part: str, label: str, start: bytes) -> None:
    page = open_page(f"/set-the-cone?closer={part}")
    button = page.get_by_role("button", name=label)
    button.wait_for()
    with page.expect_download() as waiting:
        button.click()
    with open(waiting.value.path(), "rb") as stream:
        assert stream.read(len(start)) == start


@pytest.mark.parametrize(("width", "height", "dark"), LOOKS, ids=["desk light", "phone dark"])
def test_method_fits_reads_and_is_accessible(open_page: Open, width: int, height: int, dark: bool) -> None:
    page = open_page("/method", width=width, height=height, dark=dark)
    page.get_by_text(" hold", exact=False).first.wait_for()
    for summary in page.locator("summary").all():
        summary.click()
    page.locator(".katex").last.wait_for()
    wait_idle(page)
    assert page.get_by_text("218 bearing", exact=False).first.is_visible()
    # what is drawn, not the copy for screen readers beside it
    clipped = page.locator(".katex-display").evaluate_all(
        """all => all.filter(one => [...one.querySelectorAll('.base')].some(
            base => base.getBoundingClientRect().right > one.getBoundingClientRect().right + 1
        )).map(one => one.textContent)"""
    )
    assert page.locator(".katex-display .base").count() > 10
    assert clipped == []
    assert overflow(page) == 0
    assert findings(page) == []
