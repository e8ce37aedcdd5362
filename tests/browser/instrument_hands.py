"""A hand on the instrument, and what can be read off its picture."""

import re
from math import cos, radians, sin
from typing import Any

from playwright.sync_api import Page

from tests.browser.pointer import Pointer

AT_REST = """() => {
    const frame = [...document.querySelectorAll('*')]
        .map(e => e.shadowRoot?.querySelector('.instrument')).find(Boolean);
    return frame && frame.dataset.busy === 'no';
}"""

DRAWN = """() => {
    const find = what => [...document.querySelectorAll('*')]
        .map(e => e.shadowRoot?.querySelector('.instrument')).find(Boolean).querySelector(what);
    const shift = name => Number(
        find(`.close [data-group="${name}"]`).getAttribute('transform')?.match(/translate\\(([-\\d.e]+)/)?.[1] ?? 0);
    const tip = what => Number(find(what).getAttribute('d').match(/M([-\\d.]+)/)?.[1]);
    const turned = find('.dial [data-group="cone"]').getAttribute('transform').match(/rotate\\(([-\\d.e]+)/)[1];
    return {
        gap: shift('cone') - shift('wheel'), now: tip('.pointer.hollow'), pointer: tip('.pointer:not(.hollow)'),
        angle: -Number(turned), play: find('.play').textContent, words: find('.state .words').textContent,
        sign: find('.state .sign').textContent, stage: find('.acts [aria-current]').dataset.stage,
        acts: [...find('.acts').querySelectorAll('b')].map(node => node.textContent),
    };
}"""


class Spanner:
    """Mouse or finger on the dial; places by clockwise angle [°] and share of the ring's radius."""

    def __init__(self, page: Page, *, touch: bool = False) -> None:
        """Wait for the dial."""
        self.page = page
        wait_rest(page)
        box = page.locator(".dial .ring").first.bounding_box()
        assert box is not None
        self.radius = box["width"] / 2
        self.middle = box["x"] + self.radius, box["y"] + box["height"] / 2
        self.pointer = Pointer(page, touch=touch)

    def place(self, angle: float, share: float) -> tuple[float, float]:
        x, y = self.middle
        turned = radians(angle)
        return x + share * self.radius * sin(turned), y - share * self.radius * cos(turned)

    def down(self, angle: float, share: float = 0.75) -> None:
        self.pointer.press(*self.place(angle, share))

    def move(self, angle: float, share: float = 0.75) -> None:
        self.pointer.move(*self.place(angle, share))

    def up(self) -> None:
        self.pointer.lift()

    def drag(self, start: float, end: float, *, share: float = 0.75, steps: int = 12) -> None:
        self.down(start, share)
        for i in range(1, steps + 1):
            self.move(start + (end - start) * i / steps, share)
        self.up()


def wait_rest(page: Page) -> None:
    """Wait until nothing on the instrument moves by itself any more."""
    page.wait_for_function(AT_REST)


def drawn(page: Page) -> dict[str, Any]:
    """Return what stands in the picture: mm of the sheets, px of the rule, and the words."""
    return dict(page.evaluate(DRAWN))


def told(page: Page, sequence: int) -> dict[str, Any]:
    """Wait for gesture `sequence` and return what Python was told of it."""
    text = page.get_by_text(f"sequence={sequence},")
    text.wait_for()
    wait_rest(page)
    pairs = re.findall(r"(\w+)='?([^,')]+)", text.inner_text())
    return dict(pairs)


def said(page: Page) -> str:
    """Return what a screen reader was told last."""
    return page.locator(".said").inner_text()
