"""Turning the cone, twirling the axle and spinning the wheel in Chromium, by mouse, touch and keys."""

from collections.abc import Callable, Iterator
from math import radians
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page
from playwright.sync_api import TimeoutError as TooLate

from tests.browser.hands import CANVAS, Hand, cone_spanner, returned, status, written
from tests.browser.pages import Visitor
from tests.browser.server import Server


@pytest.fixture(scope="module")
def bench(browser: Browser, serve: Callable[[Path], Server]) -> Iterator[Visitor]:
    """Return the way to the page of widgets; the tests of the file fail if it reported an error."""
    visitor = Visitor(browser, serve(Path(__file__).with_name("widgets_page.py")).url)
    yield visitor
    assert visitor.errors == []


@pytest.mark.parametrize("minutes", [5, -3])
def test_mouse_touch_and_keys_return_the_same_angle(bench, minutes):
    angles = []
    for way in ("mouse", "touch", "keys"):
        with bench.page("/?show=turn", touch=way == "touch") as page:
            hand = Hand(page, touch=way == "touch")
            if way == "keys":
                cone_spanner(page).focus()
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
        cone_spanner(page).focus()
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
            cone_spanner(page).focus()
            for _ in range(8):
                page.keyboard.press("ArrowRight")
        else:
            hand.round(0, 70)
        told = returned(page, 1)
        assert float(told["angle"]) == pytest.approx(-radians(30) - 0.03, abs=1e-6)
        assert told["stopped"] is True
        assert status(page).endswith("It stiffens.")


def test_how_far_the_cone_was_turned_is_told_without_degrees(bench):
    with bench.page("/?show=turn&pen=1") as page:
        cone_spanner(page).focus()
        page.keyboard.press("ArrowLeft")
        returned(page, 1)
        texts = written(page)
        assert {"in ↻", "↺ out"} <= texts
        assert "finger contact" not in texts
        assert not any("°" in text for text in texts)
        words = cone_spanner(page).get_attribute("aria-valuetext") or ""
        assert "°" not in words + status(page)


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


def flick(page: Page, hand: Hand) -> None:
    """Push the rim round until it runs: on a busy machine a push may come out too slow to set it going."""
    for steps, pause in ((12, 12), (12, 0), (6, 0), (3, 0), (3, 0)):
        hand.round(0, 90, steps=steps, pause=pause)
        try:
            page.get_by_text("sequence=1,").wait_for(timeout=5000)
        except TooLate:
            continue
        return


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
            flick(page, hand)
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
