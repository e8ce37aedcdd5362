"""The bench in a real browser: by mouse, by touch and by keys through to the mark; every part of it on every screen."""

from collections.abc import Callable
from statistics import median
from typing import Any

import pytest
from playwright.sync_api import Page

from conemodel.tasks.practice.commitment import AT_THE_END
from conemodel.ui.practice.say_felt import IN_WORDS
from tests.browser.bench import drag, heard, lines, pick, press, told
from tests.browser.hands import END, SIDE, Hand
from tests.browser.pages import findings, overflow, settle

Open = Callable[..., Page]


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(1280, 900), (390, 844)])
def test_the_bench_fits_reads_and_is_accessible(open_page: Open, width: int, height: int, dark: bool) -> None:
    page = open_page("/practise?exercise=12-the-whole-job", width=width, height=height, dark=dark)
    assert page.get_by_text("Next →").is_visible()
    page.get_by_text("Trim cone and locknut together").click()
    settle(page)
    assert overflow(page) == 0
    assert findings(page) == []
    press(page, "Done: it is right")
    assert page.get_by_role("alert").first.inner_text().startswith("Never ride it like this")
    assert overflow(page) == 0
    assert findings(page) == []


def test_what_to_do_next_stands_on_the_first_screen_of_a_phone(open_page: Open) -> None:
    page = open_page("/practise?exercise=01-first-touch", width=390, height=844)
    for piece in (page.locator(".cm-next"), page.get_by_role("button", name="Axle: vice", exact=True)):
        box = piece.bounding_box()
        assert box is not None
        assert box["y"] + box["height"] < 844


@pytest.mark.parametrize("number", ["04-locknut", "01-first-touch"])
def test_what_hands_do_lies_in_the_window_of_a_projector(open_page: Open, number: str) -> None:
    page = open_page(f"/practise?link={number}.browser.3", width=1280, height=720)
    for canvas in page.locator(f"{SIDE}, {END}").all():
        box = canvas.bounding_box()
        assert box is None or box["y"] + box["height"] <= 720
    assert page.locator(".cm-next").is_visible()


def test_what_is_told_stays_in_view_of_a_phone_with_either_picture(open_page: Open) -> None:
    page = open_page("/practise?link=05-quick-release.browser.3", width=390, height=844)
    for picture in (SIDE, END):
        page.locator(picture).evaluate("canvas => canvas.scrollIntoView({block: 'end'})")
        box, seen = page.locator(".told").bounding_box(), page.locator(picture).bounding_box()
        assert box is not None
        assert seen is not None
        assert 0 <= box["y"] <= box["y"] + box["height"] <= seen["y"] + 1 < 844
        assert seen["y"] + seen["height"] <= 845
    assert page.locator("[role=status]:visible").count() == 1


def test_first_touch_found_by_mouse(open_page: Open) -> None:
    page = open_page("/practise?link=01-first-touch.browser.2", height=1300)
    page.get_by_text(IN_WORDS).click()
    settle(page)
    for hub in range(4):
        press(page, "Axle: vice")
        words = drag(page, 60)
        while "freely" in words:
            words = drag(page, 60)
        drag(page, -40)
        words = drag(page, 6)
        while "freely" in words:
            words = drag(page, 6)
        press(page, "Done: it is right")
        if hub < 3:
            assert f"{hub + 2} of 4" in page.locator(".cm-standing").inner_text()
    assert "Passed" in page.locator(".cm-state").inner_text()
    assert "4 of 4 right" in page.locator(".cm-turn").inner_text()


def test_a_fault_felt_and_named_by_touch(open_page: Open) -> None:
    page = open_page("/practise?link=11-what-is-wrong.browser.4", width=390, height=1800, touch=True)

    def tap(name: str, role: Any = "radio") -> None:
        page.get_by_role(role, name=name, exact=True).first.tap()
        settle(page)

    for turned in range(3):
        before = lines(page)
        Hand(page, touch=True, on=SIDE).rock(wide=0.2, pause=15, steps=16)
        assert AT_THE_END in heard(page, before)
        if turned < 2:
            tap("Turn the wheel a quarter", "button")
    before = lines(page)
    Hand(page, touch=True, on=END).round(0, 420, steps=60, pause=25)
    assert AT_THE_END in heard(page, before)
    tap("Bent axle", "button")
    page.locator(".cm-state").wait_for()
    assert "it was: " in page.locator(".cm-turn").inner_text()
    assert page.get_by_text("felt in at least three positions").is_visible()


def test_hubs_are_named_on_the_line_by_keys_and_no_truth_comes_before_the_end(open_page: Open) -> None:
    page = open_page("/practise?link=02-loose-right-tight.browser.4", width=390, height=1800)
    for hub in range(2):
        for button in ("Rock briskly", "Turn once round"):
            before = lines(page)
            press(page, button)
            assert AT_THE_END in heard(page, before)
        page.get_by_role("slider", name="It feels: loose").focus()
        page.keyboard.press("ArrowRight")
        settle(page)
        pick(page, "guessing")
        assert findings(page) == []
        assert overflow(page) == 0
        press(page, "That is what I felt")
        assert f"Hub {hub + 2} is on the bench" in told(page)
        assert "It is" not in page.locator(".cm-log").inner_text()


LAGS = """() => {
    const { arc } = CanvasRenderingContext2D.prototype;
    window.lags = [];
    CanvasRenderingContext2D.prototype.arc = function (x, y, r, from, to, ...way) {
        window.lags.push(Math.abs(to - from));
        return arc.call(this, x, y, r, from, to, ...way);
    };
}"""
"""Keep every wedge between hand and axle that is drawn."""


def lag_on_screen(page: Page) -> float:
    """Return how far the axle is drawn behind the fingers that turn it by keys [rad], mostly."""
    page.evaluate(LAGS)
    page.get_by_role("slider", name="Axle", exact=True).focus()
    page.keyboard.down("ArrowRight")
    page.wait_for_function("window.lags.length > 60")
    page.keyboard.up("ArrowRight")
    return float(median(page.evaluate("window.lags.slice(20)")))


def test_the_first_hub_takes_three_hubs_and_two_gestures(open_page: Open) -> None:
    page = open_page("/first-hub", width=390, height=1300)
    lags = []
    for title in ("a loose hub", "a hub that is too tight", "a hub that is right"):
        page.get_by_role("heading", name="Loose, right or too tight?").wait_for()
        page.get_by_role("button", name="Rock briskly").click()
        page.get_by_text("2 of 3").wait_for()
        settle(page)
        lags.append(lag_on_screen(page))
        page.get_by_role("button", name="Turn once round").click()
        page.get_by_text("3 of 3").wait_for()
        press(page, "Right")
        page.get_by_role("heading", name=f"That was {title}").wait_for()
        on = page.get_by_role("button", name="Next hub").or_(
            page.get_by_role("button", name="What you now know")
        )
        on.wait_for()
        assert findings(page) == []
        on.click()
        settle(page)
    assert page.get_by_text("Only twirling finds too tight").is_visible()
    assert overflow(page) == 0
    assert lags[1] > 5 * lags[2] > 0


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(1280, 900), (390, 844)])
def test_progress_and_classes_fit_and_are_accessible(
    open_page: Open, width: int, height: int, dark: bool
) -> None:
    page = open_page("/progress?part=class", width=width, height=height, dark=dark)
    for part, name in (("A class", "evening"), ("My progress", "Kim"), ("Write an exercise", "Monday")):
        pick(page, part)
        page.get_by_role("textbox").first.fill(name)
        page.keyboard.press("Enter")
        settle(page)
        assert overflow(page) == 0
        assert findings(page) == []
