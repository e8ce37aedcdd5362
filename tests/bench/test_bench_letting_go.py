"""How soon exact numbers stand on the instrument once a hand lets go, beside a page with one slider and a caption.

While a hand moves nothing is sent at all, which a browser test holds: so many people who turn their hubs at once cost
the server nothing until they let go.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import browser, chromium, serve, server  # noqa: F401
from tests.browser.instrument_hands import Spanner, wait_rest
from tests.browser.pages import Visitor
from tests.browser.server import Server

TURNS = 24
REST = 600
BUDGET = 1.3
"""Letting go to the exact numbers over a bare page's key to its caption [-]; the project's own."""

WATCH = """({ event, read }) => {
    const shown = new Function(read);
    window.addEventListener(event, () => {
        const start = performance.now(), before = shown();
        window.painted = new Promise(done => {
            const look = () => shown() === before
                ? requestAnimationFrame(look) : requestAnimationFrame(() => done(performance.now() - start));
            look();
        });
    }, true);
}"""
"""Times an answer from an event to its being painted; `read` gives what the answer changes."""

LET_GO = {
    "event": "pointerup",
    "read": "return [...document.querySelectorAll('*')]"
    ".map(node => node.shadowRoot?.querySelector('.instrument')).find(Boolean).dataset.exact",
}
BARE = {
    "event": "keydown",
    "read": "return document.querySelector('[data-testid=stCaptionContainer]').textContent",
}


def let_go(page: Page, hand: Spanner, i: int) -> float:
    """Turn the cone a little and let go; return the time until the exact prediction is shown [ms]."""
    hand.drag(-90, -90 + (12 if i % 2 else -12) - i % 5, steps=4)
    time = painted(page)
    wait_rest(page)
    return time


def press(page: Page) -> float:
    """Move the bare slider by a key; return the time until its caption is shown [ms]."""
    page.keyboard.press("ArrowRight")
    return painted(page)


def painted(page: Page) -> float:
    """Return the time that was watched [ms], and let the page rest."""
    time = float(page.evaluate("() => window.painted"))
    page.wait_for_timeout(REST)
    return time


@pytest.mark.benchmark(group="instrument")
def test_exact_numbers_stand_there_hardly_later_than_on_a_bare_page(
    benchmark: Any,
    browser: Browser,  # noqa: F811
    server: Server,  # noqa: F811
    serve: Callable[[Path], Server],  # noqa: F811
) -> None:
    """Turn about, so that both meet the same machine."""
    bare = Visitor(browser, serve(Path(__file__).with_name("bare_page.py")).url)
    times: list[tuple[float, float]] = []
    with Visitor(browser, server.url).page("/set-the-cone?stage=backed_off") as ours, bare.page("/") as least:
        hand = Spanner(ours)
        ours.evaluate(WATCH, LET_GO)
        least.get_by_role("slider").focus()
        least.evaluate(WATCH, BARE)
        turns = iter(range(TURNS + 2))

        def turn() -> None:
            times.append((let_go(ours, hand, next(turns)), press(least)))

        benchmark.pedantic(turn, rounds=TURNS, iterations=1, warmup_rounds=2)
    ours_ms, least_ms = (sorted(each)[len(times) // 2] for each in zip(*times[2:], strict=True))
    benchmark.extra_info |= {
        "ms to the exact numbers": round(ours_ms),
        "ms on a bare page": round(least_ms),
        "ratio": round(ours_ms / least_ms, 2),
        "budget": BUDGET,
    }
    assert ours_ms <= BUDGET * least_ms
