"""The four widgets in Chromium: mouse, touch and keys, on the invented curves of widgets_page.py."""

import re
from collections.abc import Callable
from math import cos, pi, radians, sin
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.pages import Visitor
from tests.browser.server import Server

CANVAS = "[data-testid=stMain] canvas"


@pytest.fixture(scope="module")
def bench(browser: Browser, serve: Callable[[Path], Server]) -> Visitor:
    return Visitor(browser, serve(Path(__file__).with_name("widgets_page.py")).url)


@pytest.fixture(autouse=True)
def _no_errors(bench):
    before = len(bench.errors)
    yield
    assert bench.errors[before:] == []


class Hand:
    """Mouse or finger on the canvas; places in parts of its width and height."""

    def __init__(self, page: Page, *, touch: bool = False) -> None:
        """Wait for the widget."""
        self.page = page
        page.wait_for_selector(CANVAS)
        page.wait_for_timeout(150)
        box = page.locator(CANVAS).bounding_box()
        assert box is not None
        self.box = box
        self.cdp = page.context.new_cdp_session(page) if touch else None

    def place(self, x: float, y: float) -> tuple[float, float]:
        return self.box["x"] + x * self.box["width"], self.box["y"] + y * self.box["height"]

    def down(self, x: float, y: float) -> None:
        if self.cdp:
            self._touch("touchStart", x, y)
        else:
            self.page.mouse.move(*self.place(x, y))
            self.page.mouse.down()

    def move(self, x: float, y: float) -> None:
        if self.cdp:
            self._touch("touchMove", x, y)
        else:
            self.page.mouse.move(*self.place(x, y))

    def up(self) -> None:
        if self.cdp:
            self.cdp.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
        else:
            self.page.mouse.up()

    def _touch(self, kind: str, x: float, y: float) -> None:
        across, along = self.place(x, y)
        self.cdp.send(  # type: ignore[union-attr]
            "Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": across, "y": along}]}
        )

    def rock(self, *, wide: float, pause: int, steps: int, cycles: int = 2) -> None:
        self.down(0.5, 0.25)
        for i in range(1, cycles * steps + 1):
            self.move(0.5 + wide * sin(2 * pi * i / steps), 0.25)
            self.page.wait_for_timeout(pause)
        self.up()

    def round(self, start: float, turned: float, *, steps: int = 12, pause: int = 0) -> None:
        """Go round the middle from `start` by `turned` degrees, clockwise from twelve o'clock."""
        way = [radians(start + turned * i / steps) for i in range(steps + 1)]
        path = [(0.5 + 0.3 * sin(a), 0.5 - 0.3 * cos(a)) for a in way]
        self.down(*path[0])
        for x, y in path[1:]:
            self.move(x, y)
            if pause:
                self.page.wait_for_timeout(pause)
        self.up()


def returned(page: Page, sequence: int) -> dict[str, Any]:
    """Wait for gesture `sequence` and return what Python was told of it."""
    text = page.get_by_text(f"sequence={sequence},")
    text.wait_for(timeout=15_000)
    pairs = re.findall(r"(\w+)=([^,)]+)", text.inner_text())
    return {name: {"True": True, "False": False}.get(value, value) for name, value in pairs}


def status(page: Page) -> str:
    return page.locator(".felt").inner_text()


def picture(page: Page) -> str:
    return str(page.locator(CANVAS).evaluate("canvas => canvas.toDataURL()"))


# Rock


@pytest.mark.parametrize("touch", [False, True], ids=["mouse", "touch"])
def test_rocking_slowly_is_silent_and_briskly_knocks_twice_a_cycle(bench, touch):
    with bench.page("/?show=rock&play=0.5", touch=touch) as page:
        hand = Hand(page, touch=touch)
        hand.rock(wide=0.1, pause=90, steps=60, cycles=1)
        slow = returned(page, 1)
        assert (slow["knocks"], slow["brisk"]) == ("0", False)
        assert status(page) == "Clear free movement, then springy."
        hand.rock(wide=0.15, pause=16, steps=20, cycles=3)
        quick = returned(page, 2)
        assert int(quick["knocks"]) in (5, 6, 7)
        assert status(page) == "Clear free movement, then a knock."


@pytest.mark.parametrize("pause", [16, 90])
def test_without_play_nothing_knocks_at_any_speed(bench, pause):
    with bench.page("/?show=rock&play=0") as page:
        Hand(page).rock(wide=0.2, pause=pause, steps=20, cycles=2)
        assert returned(page, 1)["knocks"] == "0"
        assert status(page) == "No free movement, springy from the start."


def test_rocking_by_keys(bench):
    with bench.page("/?show=rock&play=0.5") as page:
        page.locator(CANVAS).focus()
        for key, wait in (("ArrowRight", 250), ("ArrowLeft", 400), ("ArrowRight", 400)):
            page.keyboard.down(key)
            page.wait_for_timeout(wait)
            page.keyboard.up(key)
        quick = returned(page, 1)
        assert int(quick["knocks"]) >= 2
        page.keyboard.down("Shift")
        for key in ("ArrowRight", "ArrowLeft"):
            page.keyboard.down(key)
            page.wait_for_timeout(1300)
            page.keyboard.up(key)
        page.keyboard.up("Shift")
        assert returned(page, 2)["knocks"] == "0"


@pytest.mark.parametrize(("button", "knocks"), [("Rock slowly", "0"), ("Rock briskly", "4")])
@pytest.mark.parametrize("rate", ["full", "8 frames a second"])
def test_the_frame_rate_changes_nothing_that_is_felt(bench, button, knocks, rate):
    with bench.page("/?show=rock&play=0.5") as page:
        Hand(page)
        if rate != "full":
            page.evaluate(
                "() => { window.requestAnimationFrame = f => setTimeout(() => f(performance.now()), 125); }"
            )
        page.get_by_role("button", name=button).click()
        told = returned(page, 1)
        assert (told["knocks"], told["cycles"]) == (knocks, "2")


TYRE = """canvas => {
    // The middle of the darkest pixels (the tyre) above the fingers.
    const high = Math.round(0.18 * canvas.height), from = Math.round(0.1 * canvas.height);
    const { data, width } = canvas.getContext("2d").getImageData(0, from, canvas.width, high - from);
    let sum = 0, count = 0;
    for (let i = 0; i < data.length; i += 4) {
        if (data[i + 3] > 200 && data[i] + data[i + 1] + data[i + 2] < 330) {
            sum += (i / 4) % width;
            count += 1;
        }
    }
    return count > 40 ? sum / count : null;
}"""


def tyre_swing(bench: Visitor, times: int) -> float:
    """Return how far the tyre goes on the screen [px], pushed hard from one side to the other."""
    ends = []
    with bench.page(f"/?show=rock&play=0.3&times={times}") as page:
        hand = Hand(page)
        hand.down(0.5, 0.25)
        for side in (0.6, -0.6):
            for part in (0.25, 0.5, 0.75, 1):
                hand.move(0.5 + side * part, 0.25)
            page.wait_for_timeout(500)
            ends.append(page.locator(CANVAS).evaluate(TYRE))
        hand.up()
    assert None not in ends
    return float(ends[0] - ends[1])


def test_at_true_scale_a_third_of_a_millimetre_cannot_be_seen(bench):
    assert 0 <= tyre_swing(bench, 1) < 2
    assert tyre_swing(bench, 20) > 10


WRITTEN = """() => {
    const write = CanvasRenderingContext2D.prototype.fillText;
    window.written = new Set();
    CanvasRenderingContext2D.prototype.fillText = function (text, ...place) {
        window.written.add(text);
        return write.call(this, text, ...place);
    };
}"""


def written(page: Page) -> set[str]:
    """Return all that is written in the picture."""
    page.evaluate(WRITTEN)
    page.emulate_media(color_scheme="dark")
    page.wait_for_function("window.written.size > 0")
    return set(page.evaluate("[...window.written]"))


@pytest.mark.parametrize(
    ("ask", "scale"),
    [
        ("", "movement drawn 20×"),
        ("&times=1", "movement at true scale"),
        ("&grip=axle", "movement drawn 12×"),
        ("&grip=axle&times=1", "movement at true scale"),
    ],
)
def test_the_scale_of_movement_is_always_written_with_a_bar_in_mm(bench, ask, scale):
    with bench.page(f"/?show=rock{ask}") as page:
        texts = written(page)
        assert scale in texts
        assert sum(bool(re.fullmatch(r"[\d.]+ mm", text)) for text in texts) == 1


# Turn


@pytest.mark.parametrize("minutes", [5, -3])
def test_mouse_touch_and_keys_return_the_same_angle(bench, minutes):
    angles = []
    for way in ("mouse", "touch", "keys"):
        with bench.page("/?show=turn", touch=way == "touch") as page:
            hand = Hand(page, touch=way == "touch")
            if way == "keys":
                page.locator(CANVAS).focus()
                for _ in range(abs(minutes)):
                    page.keyboard.press("ArrowRight" if minutes > 0 else "ArrowLeft")
            else:
                hand.round(20, 6 * minutes)
            angles.append(float(returned(page, 1)["angle"]))
            side = "in (clockwise)" if minutes > 0 else "out"
            assert status(page) == f"{abs(minutes)} minutes {side} from where it started. It turns freely."
    # Outward is positive.
    assert angles == pytest.approx([radians(-6 * minutes)] * 3, abs=radians(0.3))


def test_shift_turns_by_a_degree_and_the_angle_is_absolute(bench):
    with bench.page("/?show=turn") as page:
        page.locator(CANVAS).focus()
        page.keyboard.press("ArrowLeft")
        assert float(returned(page, 1)["angle"]) == pytest.approx(radians(6))
        page.keyboard.press("Shift+ArrowRight")
        again = returned(page, 2)
        assert float(again["angle"]) == pytest.approx(radians(5))
        assert float(again["turned"]) == pytest.approx(radians(-1))


def test_the_spanner_can_be_taken_round_more_than_once_with_a_regrip(bench):
    with bench.page("/?show=turn") as page:
        hand = Hand(page)
        hand.round(0, 450, steps=30)
        returned(page, 1)
        hand.round(200, 90)
        assert float(returned(page, 2)["angle"]) == pytest.approx(radians(-540), abs=radians(0.6))


@pytest.mark.parametrize("way", ["mouse", "keys"])
def test_the_cone_stops_where_the_hand_can_do_no_more(bench, way):
    # The effort starts 30° in and grows by 10 N·m a radian; the hand has 0.3 N·m.
    with bench.page("/?show=turn&stop=1") as page:
        hand = Hand(page)
        if way == "keys":
            page.locator(CANVAS).focus()
            for _ in range(8):
                page.keyboard.press("ArrowRight")
        else:
            hand.round(0, 70)
        told = returned(page, 1)
        assert float(told["angle"]) == pytest.approx(-radians(30) - 0.03, abs=1e-6)
        assert told["stopped"] is True
        assert status(page).endswith("It stiffens.")


@pytest.mark.parametrize(("ask", "shown"), [("", False), ("&degrees=1", True)])
def test_degrees_are_written_only_where_they_are_asked_for(bench, ask, shown):
    with bench.page(f"/?show=turn&pen=1&nut=1{ask}") as page:
        page.locator(CANVAS).focus()
        page.keyboard.press("ArrowLeft")
        returned(page, 1)
        texts = written(page)
        assert {"in (clockwise)", "out"} <= texts
        assert any("°" in text for text in texts) == shown
        words = page.locator(CANVAS).get_attribute("aria-valuetext") or ""
        assert "°" not in words + status(page)


# Twirl and spin


def test_a_full_turn_must_be_felt_before_anything_is_told(bench):
    with bench.page("/?show=twirl&state=tight") as page:
        hand = Hand(page)
        hand.round(0, 120, steps=20, pause=15)
        assert returned(page, 1)["full_turn"] is False
        assert status(page).startswith("Turn it once right round.")
        hand.round(0, 420, steps=60, pause=15)
        assert returned(page, 2)["full_turn"] is True
        assert status(page).startswith("Smooth, stiff.")


def test_twirling_by_touch(bench):
    with bench.page("/?show=twirl", touch=True) as page:
        Hand(page, touch=True).round(0, 400, steps=50, pause=10)
        assert returned(page, 1)["full_turn"] is True


def test_twirling_by_keys_and_a_flick_runs_on_or_stops_dead(bench):
    on = []
    for state in ("right", "tight"):
        with bench.page(f"/?show=twirl&state={state}") as page:
            page.locator(CANVAS).focus()
            page.keyboard.down("ArrowRight")
            page.wait_for_timeout(2500)
            page.keyboard.up("ArrowRight")
            assert returned(page, 1)["full_turn"] is True
            page.keyboard.press(" ")
            told = returned(page, 2)
            assert told["let_go"] is True
            on.append(float(told["turned"]))
            assert status(page).endswith("It stops dead." if state == "tight" else "It runs on.")
    assert on[0] > on[1] + 0.3


@pytest.mark.parametrize("way", ["mouse", "touch", "keys", "button"])
def test_a_spun_wheel_coasts_and_comes_to_rest(bench, way):
    with bench.page("/?show=spin&drag=0.5", touch=way == "touch") as page:
        hand = Hand(page, touch=way == "touch")
        if way == "keys":
            page.locator(CANVAS).focus()
            page.keyboard.press("ArrowRight")
        elif way == "button":
            page.get_by_role("button", name="Spin it").click()
        else:
            hand.round(0, 90, steps=12, pause=12)
        left = returned(page, 1)
        assert (left["at_rest"], left["angle"]) == (False, "None")
        assert returned(page, 2)["at_rest"] is True
        assert "The valve rests at about" in status(page)


def test_the_heavy_spot_swings_a_free_wheel_back_but_not_a_stiff_one(bench):
    for drag, swings in ((0.025, True), (0.06, False)):
        with bench.page(f"/?show=spin&drag={drag}") as page:
            Hand(page)
            page.get_by_role("button", name="Wait less").click()
            page.get_by_role("button", name="Spin it").click()
            assert returned(page, 2)["swung_back"] is swings
