"""A correction on the bench in a real browser: nine acts by keys, by mouse and by a finger, each seen and said.

Nine is the project's own measure, of the user's.
"""

from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, Page

from tests.browser.bench import heard, lines, pick, press
from tests.browser.hands import END, SIDE, Hand, wait_frames
from tests.browser.pages import findings
from tests.browser.pointer import Pointer
from tests.ui.practice.test_nine_acts import MOST

Open = Callable[..., Page]
OUT = 8
"""Minutes of the clock that the cone is brought out."""
SPANNER = 58.0
"""Where the loose locknut's spanner points, clockwise from twelve [°]; tight it is 42° further."""


def slider(page: Page, name: str) -> Locator:
    return page.get_by_role("slider", name=name, exact=True)


def leave_it_too_tight(page: Page) -> None:
    """Set the hub as somebody would who has not felt one: screwed in, locked, clamped on spacers."""
    press(page, "Axle: far-side spanners")
    press(page, "Screw in by finger")
    before = lines(page)
    press(page, "Tighten")
    heard(page, before)
    pick(page, "spacers on both locknuts")
    press(page, "Close the lever")
    heard(page, before + 2)
    press(page, "Axle: far-side spanners")


class Keys:
    """Letters take a hand up, arrows move it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        slider(page, "Rim").focus()

    def press(self, *keys: str) -> None:
        for key in keys:
            self.page.keyboard.press(key)

    def lever(self) -> None:
        self.press("l")

    def hold(self) -> None:
        self.press("h")

    def hold_axle(self) -> None:
        self.press("f")

    def undo(self) -> None:
        self.press("n", "Enter")

    def turn(self) -> None:
        self.press("c", *["ArrowLeft"] * OUT)

    def tighten(self) -> None:
        self.press("n", "Enter")

    def rock(self) -> None:
        self.press("r")
        rim = slider(self.page, "Rim").element_handle()
        for arrow, way in (("ArrowLeft", -1), ("ArrowRight", 1)) * 2:
            self.page.keyboard.down(arrow)
            self.page.wait_for_function(
                "([rim, way]) => way * Number(rim.getAttribute('aria-valuenow')) > 70", arg=[rim, way]
            )
            self.page.keyboard.up(arrow)

    def twirl(self) -> None:
        self.press("t")
        self.page.keyboard.down("ArrowRight")
        axle = slider(self.page, "Axle").element_handle()
        for turned in (45, 15, 50):  # minutes round the clock: by each of them once, and past where it began
            self.page.wait_for_function(
                "([axle, at]) => Math.abs(Number(axle.getAttribute('aria-valuenow')) - at) < 6",
                arg=[axle, turned],
            )
        self.page.keyboard.up("ArrowRight")


class Fingers:
    """A mouse, or a finger: everything where it is drawn."""

    def __init__(self, page: Page, *, touch: bool) -> None:
        self.page, self.touch = page, touch
        self.twice = 1

    def on(self, picture: str) -> Hand:
        return Hand(self.page, touch=self.touch, on=picture)

    def press(self, name: str) -> None:
        button = self.page.get_by_role("button", name=name, exact=True)
        button.tap() if self.touch else button.click()

    def lever(self) -> None:
        self.page.locator(SIDE).scroll_into_view_if_needed()
        box = self.page.locator(".from-side .part.lever").bounding_box()
        assert box is not None
        finger = Pointer(self.page, touch=self.touch)
        x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        finger.press(x, y)
        finger.move(x, y - 60)
        wait_frames(self.page)
        finger.lift()

    def hold(self) -> None:
        self.press("Hold the cone")

    def hold_axle(self) -> None:
        self.press("Axle: far-side spanners")

    def undo(self) -> None:
        self.on(END).round(SPANNER + 42, -60, rest=True)

    def turn(self) -> None:
        self.on(END).round(200, -6 * OUT, rest=True)

    def tighten(self) -> None:
        self.on(END).round(SPANNER, 95, rest=True)

    def rock(self) -> None:
        self.on(SIDE).rock(wide=0.2, pause=15, steps=16)

    def twirl(self) -> None:
        self.on(END).round(0, 420, steps=60, pause=25, far=0.05)


ACTS = ("lever", "hold_axle", "hold", "undo", "turn", "tighten", "lever", "rock", "twirl")


@pytest.mark.slow
@pytest.mark.parametrize("by", ["keys", "mouse", "touch"])
def test_a_correction_takes_at_most_nine_acts(open_page: Open, by: str) -> None:
    width, height = (390, 844) if by == "touch" else (1280, 900)
    page = open_page(
        "/practise?link=05-quick-release.acts.6", width=width, height=height, touch=by == "touch"
    )
    leave_it_too_tight(page)
    first = lines(page)
    hand = Keys(page) if by == "keys" else Fingers(page, touch=by == "touch")
    for act in ACTS:
        before = lines(page)
        getattr(hand, act)()
        heard(page, before)
        assert lines(page) == before + 1, act
    assert lines(page) - first == len(ACTS) <= MOST
    log = page.locator(".cm-log").inner_text()
    assert "not possible" not in log
    assert f"Cone turned out, {OUT} minutes" in log
    standing = page.locator(".cm-standing").inner_text()
    assert "spacers on both locknuts, closed" in standing
    assert "tight" in standing
    assert findings(page) == []
