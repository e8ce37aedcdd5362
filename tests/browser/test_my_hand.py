"""My hand in a real browser: pairs felt by mouse, touch and keys, a reload in the middle, and what was found.

Nothing here comes from a book: what a page must not give away is what would name the hub that has more.
"""

from collections.abc import Callable
from datetime import UTC, datetime

import pytest
from playwright.sync_api import Page

from conemodel.record.database import Database
from conemodel.record.hand_sittings import Sitting, begin_sitting, keep_answer
from conemodel.tasks.hand.kinds import KINDS
from conemodel.tasks.hand.procedure import PAIRS, Answer
from tests.browser.hands import CANVAS, Hand, picture, status
from tests.browser.pages import findings, overflow, settle
from tests.browser.server import Server

Open = Callable[..., Page]


def begin(page: Page, name: str = "") -> None:
    page.get_by_label("Your name, or none").fill(name)
    page.get_by_role("button", name="Begin").click()
    settle(page)
    page.wait_for_selector(CANVAS)


def answers(page: Page) -> list[bool]:
    """Return which of the two answers can be given."""
    return [page.get_by_role("button", name=f"{hub} has more play").is_enabled() for hub in "AB"]


def felt(page: Page, hub: str) -> None:
    page.get_by_role("button", name=f"Hub {hub}: felt").wait_for()


def pair_number(page: Page, number: int) -> None:
    page.get_by_text(f"Pair {number} of {PAIRS}, some").wait_for()


def feel_by_keys(page: Page) -> None:
    page.locator(CANVAS).focus()
    for arrow in ("ArrowRight", "ArrowLeft"):
        page.keyboard.down(arrow)
        page.wait_for_timeout(400)
        page.keyboard.up(arrow)


def test_a_sitting_by_mouse_and_keys_goes_on_after_a_reload(open_page: Open) -> None:
    page = open_page("/my-hand", height=1000)
    begin(page)
    pair_number(page, 1)
    assert answers(page) == [False, False]
    Hand(page).rock(wide=0.3, pause=15, steps=16)
    felt(page, "A")
    assert answers(page) == [False, False]
    page.get_by_role("button", name="Hub B").click()
    settle(page)
    Hand(page).rock(wide=0.3, pause=15, steps=16)
    felt(page, "B")
    page.get_by_role("button", name="B has more play").click()
    pair_number(page, 2)
    feel_by_keys(page)
    felt(page, "A")
    page.keyboard.press("b")
    settle(page)
    feel_by_keys(page)
    felt(page, "B")
    page.keyboard.press("1")
    pair_number(page, 3)
    page.reload()
    settle(page)
    pair_number(page, 3)
    assert answers(page) == [False, False]
    page.get_by_role("button", name="Another person").click()
    settle(page)
    page.get_by_role("button", name="Begin").wait_for()


def test_a_finger_and_the_buttons_feel_as_well(open_page: Open) -> None:
    page = open_page("/my-hand?measure=tightness", width=390, height=844, dark=True, touch=True)
    begin(page, "Touch")
    for piece in (page.get_by_role("button", name="B is tighter"), page.locator(CANVAS)):
        box = piece.bounding_box()
        assert box is not None
        assert box["y"] + box["height"] < 844  # answers and hub in the first window of a phone
    Hand(page, touch=True).round(0, 200, pause=15)
    felt(page, "A")
    page.get_by_role("button", name="Hub B").click()
    settle(page)
    page.get_by_role("button", name="Turn once round").click()
    felt(page, "B")
    assert overflow(page) == 0
    assert findings(page) == []
    page.get_by_role("button", name="A is tighter").click()
    pair_number(page, 2)
    page.goto(page.url.split("&sitting")[0])
    settle(page)
    page.get_by_label("Your name, or none").fill("Touch")
    page.keyboard.press("Enter")
    settle(page)
    pair_number(page, 2)  # left under a name, gone on with by the name


def test_neither_words_nor_the_hub_at_rest_tell_the_hubs_of_a_pair_apart(open_page: Open) -> None:
    page = open_page("/my-hand", height=1000)
    begin(page)
    seen = []
    for hub in "AB":
        page.get_by_role("button", name=f"Hub {hub}").click()
        settle(page)
        rest = picture(page)
        page.get_by_role("button", name="Rock briskly").click()
        felt(page, hub)
        seen.append((rest, status(page)))
    assert seen[0] == seen[1]


def test_a_hub_put_down_before_it_was_felt_says_so_and_the_answers_come_once_both_were(
    open_page: Open,
) -> None:
    page = open_page("/my-hand", height=1000)
    begin(page)
    page.get_by_role("button", name="Rock slowly").click()
    page.get_by_text("Still rocking: wait.").wait_for()
    page.get_by_role("button", name="Hub B").click()
    page.get_by_text("put down before it was felt").wait_for()
    settle(page)
    for hub in "BA":
        page.get_by_role("button", name=f"Hub {hub}").click()
        settle(page)
        page.get_by_role("button", name="Rock briskly").click()
        felt(page, hub)
    settle(page)
    assert answers(page) == [True, True]


def sat(server: Server, kind: str, *days: int) -> Sitting:
    """Keep a finished sitting for each day in the record of the app, nearly all right, and return the last."""
    file = Database(server.scratch / "conemodel" / "record.sqlite3")
    for day in days:
        now = datetime(2026, 3, day, tzinfo=UTC)
        sitting = begin_sitting(KINDS[kind], file, name="Result", now=now)
        for number in range(PAIRS):
            difference = KINDS[kind].usual * (1 if number % 2 else -1)
            right = number % 8 != 0
            sitting = keep_answer(
                sitting, Answer(difference=difference, second=(difference > 0) == right), file
            )
    return sitting


@pytest.mark.parametrize(
    ("kind", "width", "dark"), [("play", 1280, False), ("tightness", 390, True)], ids=["play", "tightness"]
)
def test_what_was_found_reads_and_fits(
    open_page: Open, server: Server, kind: str, width: int, dark: bool
) -> None:
    number = sat(server, kind, 1, 8).id
    page = open_page(f"/my-hand?measure={kind}&sitting={number}", width=width, height=844, dark=dark)
    said = page.locator(".cm-state").inner_text()
    assert said.startswith("You tell 0.") if kind == "play" else "N·mm at the axle" in said
    page.get_by_text("35 of 40 pairs named rightly").wait_for()
    assert page.get_by_role("row").count() == 3
    assert overflow(page) == 0
    assert findings(page) == []
