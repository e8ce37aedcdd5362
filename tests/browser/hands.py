"""A hand on a widget: by mouse, touch or keys; and what can be read off afterwards."""

import re
from math import cos, pi, radians, sin
from typing import Any

from playwright.sync_api import Locator, Page

from tests.browser.pointer import Pointer

CANVAS = "[data-testid=stMain] canvas:visible"
SIDE, END = ".from-side canvas", ".from-end canvas"
"""A widget of its own, and the two pictures of the bench."""

AXLE = """canvas => {
    const { e: x, f: y } = canvas.parentElement.querySelector('svg .parts').getScreenCTM();
    const { left, top } = canvas.getBoundingClientRect();
    return { x: x - left, y: y - top };
}"""


class Hand:
    """Mouse or finger on the canvas; places in parts of its width and height."""

    def __init__(self, page: Page, *, touch: bool = False, on: str = CANVAS) -> None:
        """Wait for the picture, and bring it into view."""
        self.page, self.canvas = page, page.locator(on)
        self.canvas.wait_for()
        self.canvas.scroll_into_view_if_needed()
        page.wait_for_timeout(150)
        box = self.canvas.bounding_box()
        assert box is not None
        self.box = box
        self.pointer = Pointer(page, touch=touch)

    def place(self, x: float, y: float) -> tuple[float, float]:
        return self.box["x"] + x * self.box["width"], self.box["y"] + y * self.box["height"]

    def down(self, x: float, y: float) -> None:
        self.pointer.press(*self.place(x, y))

    def move(self, x: float, y: float) -> None:
        self.pointer.move(*self.place(x, y))

    def up(self) -> None:
        self.pointer.lift()

    def rock(self, *, wide: float, pause: int, steps: int, cycles: int = 2) -> None:
        self.down(0.5, 0.25)
        for i in range(1, cycles * steps + 1):
            self.move(0.5 + wide * sin(2 * pi * i / steps), 0.25)
            self.page.wait_for_timeout(pause)
        self.up()

    def round(
        self,
        start: float,
        turned: float,
        *,
        steps: int = 12,
        pause: int = 0,
        far: float = 0.3,
        rest: bool = False,
    ) -> None:
        """Go round the axle as it is drawn, so `far` away, from `start` by `turned` degrees clockwise.

        With a `rest` the hand lets go once the picture has followed it.
        """
        axle = self.canvas.evaluate(AXLE)
        wide, high = self.box["width"], self.box["height"]
        reach = far * min(wide, high)
        way = [radians(start + turned * i / steps) for i in range(steps + 1)]
        path = [((axle["x"] + reach * sin(a)) / wide, (axle["y"] - reach * cos(a)) / high) for a in way]
        self.down(*path[0])
        for x, y in path[1:]:
            self.move(x, y)
            if pause:
                self.page.wait_for_timeout(pause)
        if rest:
            wait_frames(self.page)
        self.up()


def wait_frames(page: Page) -> None:
    """Wait until a few frames have been drawn, however long they take."""
    page.evaluate("async () => { for (let i = 0; i < 6; i += 1) await new Promise(requestAnimationFrame); }")


def returned(page: Page, sequence: int) -> dict[str, Any]:
    """Wait for gesture `sequence` and return what Python was told of it."""
    text = page.get_by_text(f"sequence={sequence},")
    text.wait_for()
    pairs = re.findall(r"(\w+)=([^,)]+)", text.inner_text())
    return {name: {"True": True, "False": False}.get(value, value) for name, value in pairs}


def status(page: Page) -> str:
    return page.get_by_role("status").and_(page.locator(".felt, .told")).inner_text()


def cone_spanner(page: Page) -> Locator:
    return page.get_by_role("slider", name="Cone spanner", exact=True)


PICTURE = "canvas => canvas.toDataURL() + canvas.parentElement.querySelector('svg').outerHTML"
"""The hand and the hub below it."""


def picture(page: Page) -> str:
    return str(page.locator(CANVAS).evaluate(PICTURE))


WRITTEN = """() => {
    const pen = CanvasRenderingContext2D.prototype, { fillText, clearRect } = pen;
    window.written = new Set();
    pen.fillText = function (text, ...place) {
        window.written.add(text);
        return fillText.call(this, text, ...place);
    };
    pen.clearRect = function (...box) {
        window.drawnAgain = true;
        return clearRect.call(this, ...box);
    };
}"""


def written(page: Page) -> set[str]:
    """Return all that is written in the picture, over the hub and on it."""
    page.evaluate(WRITTEN)
    page.emulate_media(color_scheme="dark")
    page.wait_for_function("window.drawnAgain")
    on_hub = page.locator("[data-testid=stMain] .view svg text").all_text_contents()
    return {*page.evaluate("[...window.written]"), *on_hub}
