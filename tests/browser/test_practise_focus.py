"""Where the focus is led on Practise, and what then lies in view: by keys and by touch."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.browser.bench import heard, lines
from tests.browser.hands import END, Hand
from tests.browser.pages import settle

Open = Callable[..., Page]

FOCUSED = """() => {
    let node = document.activeElement;
    while (node.shadowRoot?.activeElement) node = node.shadowRoot.activeElement;
    return node;
}"""
ON_BENCH = f"() => ({FOCUSED})().matches('.whole-bench')"
ON_VERDICT = f"() => ({FOCUSED})().matches('.cm-verdict')"
DONE, AGAIN = "Done: it is right", "Again, another hub"
TARGET = 44  # px, for a finger; WCAG 2.2, 2.5.5, from memory


def press(page: Page, name: str, *, touch: bool = False) -> None:
    button = page.get_by_role("button", name=name, exact=True)
    if touch:
        button.tap()
        return
    button.focus()
    page.keyboard.press("Enter")


def choose(page: Page, label: str, exercise: str) -> None:
    page.get_by_role("combobox", name=label).focus()
    page.keyboard.type(exercise)
    page.keyboard.press("Enter")


def in_view(page: Page, what: str) -> bool:
    box, size = page.locator(what).bounding_box(), page.viewport_size
    assert box is not None
    assert size is not None
    return box["y"] >= 0 and box["y"] + box["height"] <= size["height"]


def test_letters_work_at_once_on_a_bench_that_was_opened(open_page: Open) -> None:
    page = open_page("/practise")
    for label, exercise in (("Or choose an exercise", "5."), ("Exercise", "4.")):
        choose(page, label, exercise)
        page.wait_for_function(ON_BENCH)
        page.keyboard.press("n")
        expect(page.get_by_role("slider", name="Locknut spanner", exact=True)).to_be_focused()
    page.get_by_role("button", name="Name, link").click()
    press(page, "Start over, another hub")
    page.wait_for_function(ON_BENCH)


@pytest.mark.parametrize("touch", [False, True], ids=["keys", "touch"])
def test_the_last_word_leads_to_the_verdict_and_the_next_hub_to_the_bench(
    open_page: Open, touch: bool
) -> None:
    page = open_page("/practise?link=05-quick-release.focus.1", width=390, height=844, touch=touch)
    assert page.evaluate("document.activeElement === document.body")  # what a page opens with is no act
    press(page, DONE, touch=touch)
    page.wait_for_function(ON_VERDICT)
    assert in_view(page, ".st-key-cm-result")
    press(page, AGAIN, touch=touch)
    page.wait_for_function(ON_BENCH)
    assert in_view(page, ".cm-next")
    settle(page)
    assert page.evaluate(ON_BENCH)


def test_on_a_phone_the_picture_that_a_button_moves_stands_above_it(open_page: Open) -> None:
    page = open_page("/practise?link=05-quick-release.focus.1", width=390, height=844, touch=True)
    moved = []
    for section in (".from-side", ".from-end"):
        picture, buttons = page.locator(f"{section} .view"), page.locator(f"{section} .rows button:visible")
        for button in buttons.all():
            button.evaluate("button => button.scrollIntoView({block: 'center'})")
            told, seen, pressed = (each.bounding_box() for each in (page.locator(".told"), picture, button))
            assert told is not None
            assert seen is not None
            assert pressed is not None
            assert told["y"] + told["height"] <= seen["y"] + 1
            assert seen["y"] + seen["height"] <= pressed["y"] + 1
            assert pressed["height"] >= TARGET
            moved.append(button.get_attribute("aria-label"))
    assert len(moved) == 11


SCROLLED = "() => document.querySelector('[data-testid=stMain]').scrollTop"


def swipe_up(page: Page, x: float, y: float) -> float:
    """Draw a finger up from a place of the picture from the end, in parts of it; how far the page went [px]."""
    finger = Hand(page, touch=True, on=END)
    before = float(page.evaluate(SCROLLED))
    finger.down(x, y)
    for step in range(1, 13):
        finger.move(x, y - 0.06 * step)
        page.wait_for_timeout(20)
    finger.up()
    settle(page)
    return float(page.evaluate(SCROLLED)) - before


def test_a_finger_beside_the_ring_scrolls_the_page_and_one_on_it_turns_the_cone(open_page: Open) -> None:
    page = open_page("/practise?link=01-first-touch.focus.1", width=390, height=844, touch=True)
    page.get_by_role("button", name="Axle: vice").tap()
    settle(page)
    before = lines(page)
    assert swipe_up(page, 0.05, 0.85) > 0
    assert lines(page) == before
    assert swipe_up(page, 0.68, 0.75) == 0
    assert heard(page, before)


def test_the_next_hub_of_a_round_hears_letters_at_once_and_what_came_of_the_last_is_in_view(
    open_page: Open,
) -> None:
    page = open_page("/practise?link=01-first-touch.focus.1.training", width=390, height=844)
    page.get_by_role("button", name="Axle: vice").click()
    page.get_by_role("button", name="In (clockwise)").click()
    page.get_by_role("button", name=DONE, exact=True).click()
    page.get_by_text("Hub 2 is on the bench.").first.wait_for()
    page.wait_for_function(ON_BENCH)
    assert in_view(page, ".st-key-cm-before")
    page.keyboard.press("v")
    expect(page.get_by_role("button", name="Axle: vice")).to_have_attribute("aria-pressed", "true")
    page.keyboard.press("c")
    expect(page.get_by_role("slider", name="Cone spanner")).to_be_focused()
