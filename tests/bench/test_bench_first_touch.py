"""How soon the hub of the start page can be touched, held against a page with one slider and one caption."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext

from tests.browser.conftest import browser, chromium, serve, server  # noqa: F401
from tests.browser.server import Server
from tests.patience import PATIENCE_MS

ROUNDS = 9
MOST = 1.3
"""Time to the hub over time to the bare slider [-]; the project's own."""

WATCH = """() => {
    const inside = where => [...document.querySelectorAll(where)]
        .map(node => node.shadowRoot?.querySelector('[data-step] [role=slider]')).find(Boolean);
    const find = () => document.querySelector('[data-testid=stSlider] input')
        || inside('[data-testid=stMain] *');
    const look = () => find()
        ? requestAnimationFrame(() => { window.touchable = performance.now(); }) : requestAnimationFrame(look);
    look();
}"""


def first_touch(context: BrowserContext, url: str) -> float:
    """Return the time from the start of loading until there is something to take hold of, painted [ms]."""
    page = context.new_page()
    page.add_init_script(f"({WATCH})()")
    page.goto(url, wait_until="commit")
    time = float(page.wait_for_function("() => window.touchable").json_value())
    page.close()
    return time


@pytest.mark.benchmark(group="start")
def test_the_hub_can_be_touched_as_soon_as_a_bare_page(
    benchmark: Any,
    browser: Any,  # noqa: F811
    server: Server,  # noqa: F811
    serve: Callable[[Path], Server],  # noqa: F811
) -> None:
    """Turn about, so that both meet the same machine; of each the quickest, since disturbance only adds."""
    bare, context = serve(Path(__file__).with_name("bare_page.py")), browser.new_context()
    context.set_default_timeout(PATIENCE_MS)
    pairs: list[tuple[float, float]] = []

    def turn() -> None:
        pairs.append((first_touch(context, server.url), first_touch(context, bare.url)))

    benchmark.pedantic(turn, rounds=ROUNDS, iterations=1, warmup_rounds=2)
    context.close()
    ours, least = map(min, zip(*pairs, strict=True))
    benchmark.extra_info |= {
        "ms to the hub": round(ours),
        "ms to a bare slider": round(least),
        "ratio": round(ours / least, 2),
        "budget": MOST,
    }
    assert ours <= MOST * least
