"""Demonstrate and Many hubs in a real browser: on the wall, by four keys, on a phone, light and dark."""

import re
from base64 import b64decode
from collections.abc import Callable
from io import BytesIO
from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Page

from conemodel.parts.lesson import LONGEST, load_story, stories
from conemodel.parts.toml_files import write_part
from conemodel.show.lesson.rows import rows_told
from conemodel.show.waterfall.rows import Row
from conemodel.tasks.lesson.lesson import play_story, view_of
from conemodel.tasks.lesson.position import Position, positions
from tests.browser.pages import findings, overflow, settle, wait_idle

Open = Callable[..., Page]
WALL = {"width": 1280, "height": 720}
STORIES = {path.stem: load_story(path) for path in stories()}


def figure(row: Row) -> str:
    """Return the size of a row as it is written, without its sign."""
    return row.size.split()[0].lstrip("+−")


CHARTS = "[data-testid=stVegaLiteChart] canvas, [data-testid=stVegaLiteChart] svg"

SMALL = """() => {
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), found = [];
    for (let text = walk.nextNode(); text; text = walk.nextNode()) {
        const part = text.parentElement, box = part.getBoundingClientRect();
        if (!text.data.trim() || !part.checkVisibility() || box.bottom < 0 || box.width < 2) continue;
        found.push([parseFloat(getComputedStyle(part).fontSize), text.data.trim()]);
    }
    for (const part of document.querySelectorAll('input'))
        if (part.checkVisibility()) found.push([parseFloat(getComputedStyle(part).fontSize), part.value]);
    return found;
}"""
"""Size and words of every text that can be seen; what stands above the window is for keyboards only."""

SCROLLS = """() => Math.max(...[document.documentElement, document.querySelector('[data-testid=stMain]')]
    .map(part => part.scrollHeight - part.clientHeight))"""

COVERED = """() => {
    const keys = document.querySelector('.st-key-cm-keys').getBoundingClientRect().top;
    return [...document.querySelectorAll('.cm-side, .cm-below, .cm-answer, .cm-caution, input')]
        .filter(part => part.getBoundingClientRect().bottom > keys + 1).map(part => part.className);
}"""
"""What the row of keys lies over."""


def address(name: str, place: Position) -> str:
    step = STORIES[name].story.steps.shown[place.step]
    return f"/demonstrate?story={name}&step={step}{'&shown=yes' if place.revealed else ''}"


def every_word(page: Page) -> str:
    """All text, alternative text and labels of a page, seen or not, and all in its pictures that is no drawing."""
    words, inside = page.evaluate(
        """() => [
            document.body.textContent + [...document.querySelectorAll('*')].map(part =>
                ['alt', 'aria-label', 'title', 'aria-description'].map(name => part.getAttribute(name) || '')
                .join(' ')).join(' '),
            [...document.querySelectorAll('img')].filter(part => part.src.startsWith('data:image/svg+xml;base64,'))
                .map(part => atob(part.src.split(',')[1]))]"""
    )
    return " ".join([words, *(re.sub(r"<[^>]*>", " ", picture) for picture in inside)])


def key(page: Page, name: str) -> None:
    page.keyboard.press(name)
    settle(page)


@pytest.mark.parametrize("name", STORIES)
def test_all_of_a_step_is_in_the_window_and_no_text_is_below_24_px(open_page: Open, name: str) -> None:
    """24 px of 720 on a wall 1.5 m high is 50 mm: about 1/80 of four metres, read at ease (computed)."""
    order = positions(STORIES[name].story)
    page = open_page(address(name, order[0]), **WALL, still=True)
    for place in order:
        if place != order[0]:
            key(page, "ArrowUp" if page.locator(".st-key-wall-reveal button").is_enabled() else "ArrowRight")
        sizes = page.evaluate(SMALL)
        assert len(sizes) > 10
        assert [each for each in sizes if each[0] < 24] == []
        assert page.evaluate(SCROLLS) <= 0
        assert page.evaluate(COVERED) == []
        assert overflow(page) == 0


def test_the_longest_words_of_an_own_story_fit_the_wall_too(open_page: Open) -> None:
    """As long as the file may have them, on the story that ends with a warning."""
    text = write_part(STORIES["proud-axle"].story)
    for field, most in LONGEST.items():
        words = ("The lever squeezes the proud axle, not the frame. " * 6)[:most].strip()
        text = re.sub(rf'^{field} = "[^"].*$', f'{field} = "{words}"', text, flags=re.MULTILINE)
    page = open_page("/demonstrate", **WALL, still=True)
    page.get_by_role("button", name="Bring your own story").click()
    file = {"name": "own.toml", "mimeType": "text/plain", "buffer": text.encode()}
    page.locator("input[type=file]").set_input_files(file)  # type: ignore[arg-type]
    page.get_by_role("heading", name="The lever squeezes").wait_for()
    page.keyboard.press("Escape")
    page.get_by_role("button", name="Show it").click()
    page.locator(".cm-side").first.wait_for()
    for name in ("ArrowRight", "ArrowUp", "ArrowUp"):
        wait_idle(page)
        assert page.evaluate(SCROLLS) <= 0
        assert page.evaluate(COVERED) == []
        key(page, name)
    assert page.locator(".cm-unsafe").count() == 1
    assert page.evaluate(SCROLLS) <= 0
    assert page.evaluate(COVERED) == []


@pytest.mark.parametrize("name", ["snug-or-worn-thread", "proud-axle", "loose-or-right-under-the-rider"])
def test_before_a_reveal_no_hidden_number_or_word_is_anywhere_in_the_page(open_page: Open, name: str) -> None:
    """What is hidden is worked out here from the story; the page is searched with its pictures' inside."""
    staged = STORIES[name]
    told, order = play_story(staged), positions(staged.story)
    for at, place in enumerate(order):
        if place.revealed:
            continue
        page = open_page(address(name, place), **WALL)
        hidden, known = view_of(told, order[at + 1]), view_of(told, place)
        said = every_word(page).replace("\N{NO-BREAK SPACE}", " ")
        for side in known.sides:  # what was measured is told
            for each in side.known:
                said = said.replace(each.words, "")
        seen = {(row.stage, row.key, row.kind) for side in known.sides for row in rows_told(side)}
        before = {figure(row) for side in known.sides for row in rows_told(side)}
        for side in hidden.sides:
            for row in rows_told(side):
                size = figure(row)
                if (
                    (row.stage, row.key, row.kind) not in seen
                    and size not in before
                    and abs(row.length) > 5e-6
                ):
                    assert not re.search(rf"(?<!\d){size}(?!\d)", said)
        assert (hidden.reveal or "-") not in said
        assert page.locator(".cm-answer").count() == 0
        assert "do not ride" not in said.lower()


def test_one_step_back_restores_the_same_picture(open_page: Open) -> None:
    page = open_page("/demonstrate?story=snug-or-worn-thread&step=backed_off&shown=yes", **WALL, still=True)
    seen = [settled(page)]
    for name in ("ArrowRight", "ArrowUp", "ArrowRight", "ArrowUp"):
        key(page, name)
        seen.append(settled(page))
    least = min(differing(one, other) for one, other in pairwise(seen))
    assert least > 2000
    for expected in reversed(seen[:-1]):
        key(page, "ArrowLeft")
        again = differing(settled(page), expected)
        assert again < least / 2  # edges of letters, set a fraction of a pixel aside


def settled(page: Page) -> NDArray[np.int16]:
    settle(page)
    return np.asarray(Image.open(BytesIO(page.screenshot())).convert("L"), dtype=np.int16)


def differing(one: NDArray[np.int16], other: NDArray[np.int16]) -> int:
    """How many pixels of two pictures are not alike."""
    return int((np.abs(one - other) > 40).sum())


def test_the_cone_is_seen_to_move_and_stands_still_where_asked(open_page: Open) -> None:
    moves = []
    for still in (False, True):
        page = open_page("/demonstrate?step=clamped", **WALL, still=still)
        before = page.locator(".cm-close").first.get_attribute("src")
        page.keyboard.press("ArrowUp")
        page.locator(".cm-answer").first.wait_for()
        wait_idle(page)
        source = page.locator(".cm-close").first.get_attribute("src")
        assert source is not None
        assert source != before
        # what a picture does can be asked only of one that is the page itself
        page.set_content(b64decode(source.split(",")[1]).decode())
        moves.append(
            page.evaluate("document.getAnimations().filter(each => each.animationName === 'm').length")
        )
    assert moves[0] > 0
    assert moves[1] == 0


def test_swapping_swaps_the_captions(open_page: Open) -> None:
    page = open_page("/demonstrate?step=locked&shown=yes", **WALL)
    captions = page.locator(".cm-side h2").all_inner_texts()
    pictures = page.locator(".cm-close").evaluate_all("all => all.map(each => each.alt)")
    key(page, "ArrowDown")
    assert page.locator(".cm-side h2").all_inner_texts() == captions[::-1]
    assert page.locator(".cm-close").evaluate_all("all => all.map(each => each.alt)") == pictures[::-1]
    assert captions[0] != captions[1]
    assert "swapped=yes" in page.url


def test_hands_are_tapped_and_a_link_leads_to_the_step(open_page: Open) -> None:
    page = open_page("/demonstrate?step=clamped", **WALL)
    more = page.get_by_role("button", name="Increment").or_(page.get_by_test_id("stNumberInputStepUp"))
    for _ in range(3):
        more.nth(2).click()
        settle(page)
    page.get_by_text("Now each is clamped").click()
    key(page, "ArrowUp")
    page.get_by_text("3 of 3 hands").wait_for()
    assert "step=clamped" in page.url
    assert "shown=yes" in page.url


def test_a_number_can_be_typed_without_turning_the_page(open_page: Open) -> None:
    page = open_page("/demonstrate?step=clamped", **WALL)
    page.get_by_role("spinbutton").first.focus()
    page.keyboard.type("12")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Enter")
    settle(page)
    assert "step=clamped" in page.url
    assert "shown" not in page.url


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(1280, 720), (390, 844)])
@pytest.mark.parametrize(
    "step", ["step=clamped", "step=clamped&shown=yes", "", "story=proud-axle&step=clamped&shown=yes"]
)
def test_the_pages_fit_and_are_accessible(
    open_page: Open, step: str, width: int, height: int, dark: bool
) -> None:
    page = open_page(f"/demonstrate?{step}", width=width, height=height, dark=dark)
    assert overflow(page) == 0
    assert findings(page) == []


def test_the_step_and_the_handouts_can_be_taken_along(open_page: Open) -> None:
    page = open_page("/demonstrate", **WALL)
    for label, name, start in (
        ("Handout to fill in (PDF)", "handout-to-fill-in.pdf", b"%PDF"),
        ("Handout with answers (PDF)", "handout-answers.pdf", b"%PDF"),
        ("This story (TOML)", "story.toml", b"title = "),
    ):
        assert taken(page, label, name).startswith(start)
    page.get_by_role("button", name="Show it").click()
    page.locator(".cm-side").first.wait_for()
    page.get_by_role("button", name="More").click()
    picture = taken(page, "This step (PNG)")
    assert picture.startswith(b"\x89PNG")
    assert (int.from_bytes(picture[16:20], "big"), int.from_bytes(picture[20:24], "big")) == (1280, 720)
    assert [each for each in page.evaluate(SMALL) if each[0] < 24] == []
    page.get_by_role("button", name="All stories").click()
    page.get_by_role("button", name="Show it").wait_for()


def taken(page: Page, label: str, name: str = "") -> bytes:
    with page.expect_download() as waiting:
        page.get_by_role("button", name=label).click()
    assert waiting.value.suggested_filename.startswith(name)
    with open(waiting.value.path(), "rb") as stream:
        return stream.read()


# many hubs


def test_many_hubs_run_are_cancelled_and_the_page_stays_usable(open_page: Open) -> None:
    page = open_page("/many-hubs?many_hubs=10000&many_seed=7")
    page.get_by_text("of 10,000 hubs land").first.wait_for()
    page.get_by_role("combobox", name="Hubs").click()
    page.get_by_role("option", name="10,000,000").click()
    page.get_by_role("progressbar").first.wait_for()
    page.get_by_text("of the hubs worked out").wait_for()
    page.get_by_text("Why: end play, preload and pressure").click()  # usable meanwhile
    page.get_by_text("Preload, N").wait_for()
    assert page.get_by_role("button", name="Cancel").is_visible()
    page.get_by_role("button", name="Cancel").click()
    page.get_by_text("Stopped. What you entered is still there.").wait_for()
    assert page.get_by_text("of 10,000 hubs land").first.is_visible()
    assert page.get_by_role("button", name="Work it out").is_visible()


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(1280, 900), (390, 844)])
def test_many_hubs_fit_and_are_accessible(open_page: Open, width: int, height: int, dark: bool) -> None:
    page = open_page("/many-hubs?many_hubs=10000", width=width, height=height, dark=dark)
    page.get_by_text("of 10,000 hubs land").first.wait_for()
    wait_idle(page)
    page.locator(CHARTS).nth(2).wait_for()
    assert overflow(page) == 0
    assert findings(page) == []


@pytest.mark.parametrize(
    ("label", "start"),
    [
        ("Numbers (JSON)", b"{"),
        ("Back-off curve (CSV)", b"back_off_deg,"),
        ("Every hub (CSV)", b"kind,back_off_deg,"),
        ("Picture (PNG)", b"\x89PNG"),
    ],
)
def test_a_study_can_be_taken_along(open_page: Open, label: str, start: bytes) -> None:
    page = open_page("/many-hubs?many_hubs=10000")
    page.get_by_text("of 10,000 hubs land").first.wait_for()
    page.locator(CHARTS).nth(2).wait_for()
    settle(page)
    page.get_by_role("button", name="Take it with you").click()
    data = taken(page, label)
    assert data.startswith(start)
    if label == "Every hub (CSV)":
        assert data.count(b"\n") == 10_001
