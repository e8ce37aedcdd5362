"""A job card in a real browser: filled by thumb in few taps, kept through a reload, whole at every width."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, Page

from tests.browser.pages import findings, overflow, settle

Open = Callable[..., Page]

MOST_TAPS = 45
"""From the first tap to a complete card of an ordinary rear hub."""

SMALLEST = 44
"""Least height and width of what is tapped [px]."""

BEYOND = "Fixed side: axle beyond the locknut, after locking"

BEFORE_STRIP = (
    ("Wheel", "rear"), ("What holds it in the frame", "quick release"), ("Brake", "rim"), ("Drive", "freehub"),
    ("Play at the rim, clamp closed", "slight"), ("Play at the rim, wheel out, clamp open", "clear"),
    ("Turning", "free"), ("Far side locked", "yes"),
    ("Balls counted, left", "9 × 1/4 in, as usual"), ("Cone, left", "pale track"), ("Cup, left", "good"),
    ("Seal or cap, left", "good"), ("Washer's tab, left", "good"), ("Axle's thread, left", "good"),
)  # fmt: skip
AFTER_STRIP = (
    ("Balls", "all new, grade 25"), ("Grease", "bearing grease"), ("How much", "a bed in each cup"),
    ("Freehub body", "left on"), (BEYOND, f"{BEYOND}: more"),
    ("Over both locknuts, after locking", "130"),
    ("Finger contact found", "nut loose"), ("Cone turned, Round 1", "out 10"),
    ("Locked, clamped, rocked and twirled, Round 1", "right"), ("Locknut", "by feel"),
    ("Far side locked, tried again", "yes"),
    ("Lever", "firm, marks the palm"), ("Rim central", "yes"), ("Brake connected and working", "yes"),
    ("Advice given", "recheck after the first rides"), ("Recheck on", "in 2 weeks"), ("or after", "100 km"),
)  # fmt: skip
IN_FRAME = (("Play at the rim, clamp closed", "none"), ("Turning", "free"))


def begin(page: Page) -> Locator:
    """Begin a card and return it."""
    page.get_by_role("button", name="New card").click()
    settle(page)
    return page.locator(".job-card")


def chip(card: Locator, asked: str, words: str, *, section: str = "") -> Locator:
    """Return a chip of what is asked, of a section where two ask the same."""
    part = card.locator("section.part", has=card.page.locator("h2", has_text=section)) if section else card
    group = part.get_by_role("group", name=asked, exact=True).first
    return group.get_by_role("button", name=words, exact=True)


def test_an_ordinary_rear_hub_takes_few_taps_and_no_typing_but_the_tag(open_page: Open) -> None:
    page = open_page("/job-cards", width=820, height=1180, touch=True)
    taps = 1
    card = begin(page)
    card.get_by_label("Tag number").tap()
    page.keyboard.type("A 7")
    page.keyboard.press("Enter")
    taps += 1
    settle(page)
    for asked, words in BEFORE_STRIP:
        chip(card, asked, words).tap()
    settle(page)
    card.get_by_role("button", name="Right: all that is open as on the left").tap()
    for asked, words in AFTER_STRIP:
        chip(card, asked, words).tap()
    for asked, words in IN_FRAME:
        chip(card, asked, words, section="Frame").tap()
    settle(page)
    taps += len(BEFORE_STRIP) + 1 + len(AFTER_STRIP) + len(IN_FRAME)
    assert taps <= MOST_TAPS
    complete = card.locator(".head", has_text="Complete")
    complete.wait_for()
    page.reload()
    complete.wait_for()
    assert "safe" not in card.inner_text().lower()


def test_a_turn_has_its_way_by_chip_and_a_value_tapped_twice_by_two_chips_stands(open_page: Open) -> None:
    page = open_page("/job-cards", width=820, height=1180, touch=True)
    card = begin(page)
    chip(card, "Wheel", "rear").tap()
    settle(page)
    chip(card, "Balls counted, left", "9 × 1/4 in, as usual").tap()
    settle(page)
    size = chip(card, "Ball size, left", "1/4 in")
    size.tap()
    settle(page)
    assert size.get_attribute("aria-pressed") == "true"
    card.get_by_label("Cone turned, Round 1 in min").fill("3")
    page.keyboard.press("Enter")
    chip(card, "Cone turned, Round 1", "in (clockwise)").tap()
    settle(page)
    card.get_by_text("3 min in (clockwise)").wait_for()


def test_a_chip_looks_chosen_after_a_tap_only_and_a_second_takes_it_back(open_page: Open) -> None:
    page = open_page("/job-cards", width=390, height=844, touch=True)
    card = begin(page)
    assert card.locator("[aria-pressed=true]").count() == 0
    brake = chip(card, "Brake connected and working", "not looked")
    brake.tap()
    settle(page)
    assert brake.get_attribute("aria-pressed") == "true"
    card.locator(".state", has_text="Do not ride").wait_for()
    brake.tap()
    settle(page)
    assert card.locator("[aria-pressed=true]").count() == 0
    card.locator(".state", has_text="not answered").wait_for()


@pytest.mark.parametrize(("width", "height", "dark"), [(390, 844, True), (1366, 768, False)])
def test_the_card_is_whole_at_every_width(open_page: Open, width: int, height: int, dark: bool) -> None:
    page = open_page("/job-cards", width=width, height=height, dark=dark)
    card = begin(page)
    for asked, words in (("Wheel", "rear"), ("Cone turned, Round 1", "out 10")):
        chip(card, asked, words).click()
        settle(page)
    for target in card.locator("button:visible, input:visible, summary:visible").all():
        box = target.bounding_box()
        assert box is not None
        assert min(box["height"], box["width"]) >= SMALLEST, target.inner_text()
    for jump in card.locator("nav button").all():  # a section off the side is one that nobody finds
        box = jump.bounding_box()
        assert box is not None
        assert box["x"] + box["width"] <= width
    way = card.get_by_text("10 min out (anticlockwise)")
    assert way.evaluate("one => one.scrollWidth <= one.clientWidth")
    assert overflow(page) == 0
    assert findings(page) == []


def test_a_card_is_taken_along_on_paper(open_page: Open) -> None:
    page = open_page("/job-cards", width=820, height=1180, touch=True)
    begin(page)
    with page.expect_download() as waiting:
        page.get_by_role("button", name="This card on paper").tap()
    with open(waiting.value.path(), "rb") as stream:
        assert stream.read(4) == b"%PDF"
    assert page.locator("[data-testid=stException]").count() == 0
