"""Opening a page as a person would see it, and what is looked at on every page."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, ConsoleMessage, Page

from tests.patience import PATIENCE_MS

TRAFFIC = Path(__file__).with_name("traffic.js")
TIMERS_MS = 400
"""Longest that the frame or a widget holds back what was entered before it is sent [ms]."""

IDLE = """() => traffic.asked > 0 && traffic.asked === traffic.answered
    && document.querySelector('[data-testid=stApp][data-test-script-state=notRunning]') !== null
    && document.querySelectorAll('[data-testid=stSkeleton], [data-testid=stSpinner]').length === 0"""

# Failures of the frame itself, as (rule, a piece of the markup it fails on): nothing of ours can mend them.
# test_frame.py sees to it that each is still needed.
FRAME_FAILURES: frozenset[tuple[str, str]] = frozenset(
    {
        ("aria-dialog-name", "stToast"),
        ("empty-table-header", 'role="columnheader"'),
        ("empty-table-header", "blank index_name"),
        ("presentation-role-conflict", "stFileUploaderDropzone"),
    }
)


def wait_idle(page: Page) -> None:
    """Wait until all that the page asked of the app was answered and the page stands still."""
    page.wait_for_function(IDLE)


def settle(page: Page) -> None:
    """Wait for what an entry sets going: the page's own timers first, on its own clock, then the app's answer."""
    page.evaluate("wait => new Promise(done => setTimeout(done, wait))", TIMERS_MS)
    wait_idle(page)


def go_to(page: Page, door: str, name: str) -> None:
    """Open another page by the menu: the door it is behind, then its name unless the door has no other."""
    menu = page.locator(".st-key-cm-menu")
    menu.get_by_role("link", name=door, exact=True).click()
    settle(page)
    if (inside := menu.get_by_role("link", name=name, exact=True)).count():
        inside.click()
        settle(page)


def findings(page: Page, *, allowed: frozenset[tuple[str, str]] = FRAME_FAILURES) -> list[str]:
    """Return what the accessibility check finds wrong on `page`, one line each.

    `allowed` holds pairs of a rule and a piece of the markup it may fail on; everything else counts.
    """
    answer: dict[str, Any] = Axe().run(page).response
    lines = []
    for violation in answer["violations"]:
        rule = violation["id"]
        for node in violation["nodes"]:
            markup = node["html"]
            if not any(rule == known and piece in markup for known, piece in allowed):
                lines.append(f"{rule} ({violation['impact']}): {markup[:200]}")
    return lines


def overflow(page: Page) -> int:
    """Return by how many pixels the page, or its main part, is wider than its window."""
    extra = page.evaluate(
        """() => Math.max(...[document.documentElement, document.querySelector('[data-testid=stMain]')]
            .map(part => part.scrollWidth - part.clientWidth))"""
    )
    return int(extra)


@dataclass
class Visitor:
    """Opens pages of one server in one browser, and keeps what goes wrong on them.

    Attributes:
        browser: Chromium.
        url: the address of the server.
        errors: every script error and every error line of the console so far.
    """

    browser: Browser
    url: str
    errors: list[str] = field(default_factory=list)

    @contextmanager
    def page(
        self,
        path: str = "/",
        *,
        width: int = 1280,
        height: int = 900,
        dark: bool = False,
        still: bool = False,
        touch: bool = False,
    ) -> Iterator[Page]:
        """Open `path` (with its query) in a window of `width` × `height` pixels; wait until it stands still.

        `dark` asks for the dark theme, `still` for no motion, `touch` for a touch screen.
        """
        context = self.browser.new_context(
            viewport={"width": width, "height": height},
            color_scheme="dark" if dark else "light",
            reduced_motion="reduce" if still else "no-preference",
            has_touch=touch,
            accept_downloads=True,
        )
        context.set_default_timeout(PATIENCE_MS)
        context.add_init_script(path=TRAFFIC)
        page = context.new_page()
        page.on("pageerror", lambda error: self.errors.append(f"{path}: {error}"))
        page.on("console", lambda message: self._hear(path, message))
        try:
            page.goto(self.url + path)
            wait_idle(page)
            yield page
        finally:
            context.close()

    def _hear(self, path: str, message: ConsoleMessage) -> None:
        # a page opened by its own address makes the frame look for the server beside it first
        if message.type == "error" and "/_stcore/" not in message.location["url"]:
            self.errors.append(f"{path}: {message.text}")
