"""How the widgets behave in a page: reruns, themes, reduced motion, sound, traffic, accessibility."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.hands import CANVAS, PICTURE, Hand, cone_spanner, picture, returned, status
from tests.browser.pages import Visitor, findings, overflow, settle
from tests.browser.server import Server


@pytest.fixture(scope="module")
def bench(browser: Browser, serve: Callable[[Path], Server]) -> Iterator[Visitor]:
    """Return the way to the page of widgets; the tests of the file fail if it reported an error."""
    visitor = Visitor(browser, serve(Path(__file__).with_name("widgets_page.py")).url)
    yield visitor
    assert visitor.errors == []


SHOWS = ["rock", "rock&grip=axle", "twirl", "turn&pen=1", "spin"]


def test_a_rerun_leaves_the_widget_as_it_is(bench):
    with bench.page("/?show=turn&pen=1") as page:
        Hand(page).round(0, 48)
        returned(page, 1)
        page.locator(CANVAS).evaluate("canvas => { canvas.ours = 'the same one'; canvas.blur(); }")
        page.mouse.move(5, 5)
        before = picture(page)
        page.get_by_role("button", name="Run again").click()
        settle(page)
        assert page.locator(CANVAS).evaluate("canvas => canvas.ours") == "the same one"
        assert picture(page) == before
        assert "8 minutes in (clockwise)" in status(page)


def flick(page: Page, sequence: int) -> tuple[int, float, float]:
    """Set the axle going; on which state of the hub that was, from where to where it ran [rad]."""
    page.get_by_role("button", name="Flick, let go").click()
    told = returned(page, sequence)
    return int(told["set_id"]), float(told["angle"]) - float(told["turned"]), float(told["angle"])


def test_hidden_and_shown_again_it_stands_where_it_stood_and_counts_on(bench):
    with bench.page("/?show=twirl") as page:
        *_, stopped = flick(page, 1)
        for _ in range(2):
            page.get_by_text("Hide").click()
            settle(page)
        assert flick(page, 2)[1] == pytest.approx(stopped, abs=1e-9) != 0


def test_another_hub_forgets_what_was_felt(bench):
    with bench.page("/?show=twirl") as page:
        flick(page, 1)
        page.get_by_role("button", name="Next hub").click()
        page.get_by_text("Nothing felt yet.").wait_for()
        assert page.locator(CANVAS).get_attribute("aria-valuenow") == "0"
        set_id, start, _ = flick(page, 2)
        assert set_id == 1
        assert start == pytest.approx(0, abs=1e-9)


SEEN = """() => [...document.querySelectorAll('*')]
    .flatMap(e => [...(e.shadowRoot?.querySelectorAll('canvas') ?? [])]).find(canvas => canvas.clientWidth)"""
"""The canvas that is to be seen, among the widgets' own."""


@pytest.mark.parametrize("show", SHOWS)
def test_the_picture_follows_the_theme_without_a_reload(bench, show):
    with bench.page(f"/?show={show}") as page:
        Hand(page)
        light = picture(page)
        page.emulate_media(color_scheme="dark")
        page.wait_for_function(f"before => ({PICTURE})(({SEEN})()) !== before", arg=light)


FRAMES = f"""canvas => {{
    const looks = {PICTURE};
    let now = performance.now();
    window.seen = new Set();
    window.requestAnimationFrame = frame => setTimeout(() => {{
        frame(now += 1000 / 60);
        seen.add(looks(canvas));
    }}, 16);
}}"""
"""Keep what each frame shows; a frame counts as a sixtieth of a second, however long it takes to draw."""


@pytest.mark.parametrize(
    ("show", "button"), [("rock", "Rock briskly"), ("twirl", "Turn once round"), ("spin", "Spin it")]
)
def test_reduced_motion_shows_states_without_moving(bench, show, button):
    seen = []
    for still in (False, True):
        with bench.page(f"/?show={show}&drag=0.5", still=still) as page:
            Hand(page)
            page.locator(CANVAS).evaluate(FRAMES)
            page.get_by_role("button", name=button).click()
            returned(page, 1)
            seen.append(page.evaluate("seen.size"))
    assert seen[0] > 10
    assert seen[1] <= 3


AUDIO = """() => {
    const Real = window.AudioContext;
    window.contexts = [];
    window.AudioContext = class extends Real {
        constructor(...given) {
            super(...given);
            window.contexts.push(this);
        }
    };
}"""


def test_sound_is_off_until_asked_for_and_closed_with_the_widget(bench):
    with bench.page("/?show=rock") as page:
        hand = Hand(page)
        page.evaluate(AUDIO)
        hand.rock(wide=0.15, pause=16, steps=20)
        returned(page, 1)
        assert page.evaluate("contexts.length") == 0
        button = page.get_by_role("button", name="Sound on")
        button.click()
        page.get_by_role("button", name="Sound off").wait_for()
        assert page.evaluate("contexts.map(c => c.state)") == ["running"]
        page.get_by_text("Hide").click()
        page.wait_for_function("contexts[0].state === 'closed'")


def test_nothing_is_sent_while_the_hand_moves_and_one_message_after(bench):
    with bench.page("/?show=rock") as page:
        hand = Hand(page)
        page.evaluate(
            """() => {
                const send = WebSocket.prototype.send;
                window.sent = 0;
                WebSocket.prototype.send = function (...given) {
                    window.sent += 1;
                    return send.apply(this, given);
                };
            }"""
        )
        hand.down(0.5, 0.25)
        for i in range(60):
            hand.move(0.5 + (0.1 if i % 20 < 10 else -0.1), 0.25)
            page.wait_for_timeout(16)
        assert page.evaluate("sent") == 0
        hand.up()
        returned(page, 1)
        assert page.evaluate("sent") == 1


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("show", SHOWS)
def test_on_a_telephone_it_fits_and_passes_the_accessibility_check(bench, show, dark):
    with bench.page(f"/?show={show}", width=390, height=800, dark=dark) as page:
        Hand(page)
        assert overflow(page) == 0
        assert findings(page) == []
        box = page.locator(CANVAS).bounding_box()
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 390


def test_keys_that_are_not_ours_still_reach_the_page(bench):
    with bench.page("/?show=turn") as page:
        page.evaluate("window.heard = []; addEventListener('keydown', e => heard.push(e.key))")
        cone_spanner(page).focus()
        for key in ("ArrowLeft", "Escape", "Tab"):
            page.keyboard.press(key)
        assert page.evaluate("heard") == ["Escape", "Tab"]


def test_sound_is_offered_once_and_its_level_kept(bench):
    with bench.page("/?show=rock") as page:
        page.evaluate(AUDIO)
        asked = page.get_by_text("Can you hear and feel this?")
        assert asked.is_visible()
        page.get_by_role("button", name="Louder").click()
        page.get_by_role("button", name="Yes", exact=True).click()
        asked.wait_for(state="detached")
        kept = page.evaluate("JSON.parse(localStorage.getItem('conemodel sound'))")
        assert kept["on"] is True
        assert kept["level"] > 1
        page.reload()
        Hand(page)
        page.evaluate(AUDIO)
        assert page.evaluate("contexts.length") == 0
        assert asked.count() == 0
        page.locator(CANVAS).click()
        page.get_by_role("button", name="Sound off").wait_for()
