"""An exercise goes on where it was left when the page is loaded anew or the server is killed and started again."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.bench import drag, heard, lines, press
from tests.browser.pages import Visitor, findings, settle, wait_idle
from tests.browser.server import Server

JOB = "/practise?link=12-the-whole-job.browser.5"
GOING_ON = "Going on where it was left"


@pytest.fixture
def mortal(chromium: str, root: Path, tmp_path: Path) -> Iterator[Server]:
    """A server of the test's own, that it may kill."""
    server = Server(script=root / "app.py", folder=root, scratch=tmp_path)
    server.start()
    yield server
    server.stop()


def work(page: Page) -> None:
    """Do the first half of the whole job."""
    press(page, "Axle: vice")
    drag(page, -60)
    before = lines(page)
    press(page, "Rock briskly")
    heard(page, before)


def seen(page: Page) -> tuple[str, str]:
    """What stands on the bench, and all that was done and felt."""
    return page.locator(".cm-standing").inner_text(), page.locator(".cm-log").inner_text()


def test_a_server_killed_in_the_middle_gives_the_same_bench_back(browser: Browser, mortal: Server) -> None:
    with Visitor(browser, mortal.url).page(JOB, height=1400) as page:
        work(page)
        before, said = seen(page), lines(page)
        assert mortal.process is not None
        mortal.process.kill()
        mortal.process.wait()
        mortal.start()
        page.get_by_text(GOING_ON).wait_for()  # the page has found the new server by itself
        settle(page)
        assert seen(page) == before
        press(page, "Rock briskly")
        heard(page, said)
        assert lines(page) == said + 1
        press(page, "Done: it is right")
        page.locator(".cm-state").wait_for()


def test_a_page_loaded_anew_shows_the_same_bench_and_can_start_afresh(open_page: Callable[..., Page]) -> None:
    page = open_page(JOB, width=390, height=1400)
    work(page)
    before, said = seen(page), lines(page)
    page.reload()
    wait_idle(page)
    assert page.get_by_text(GOING_ON).is_visible()
    assert (seen(page), lines(page)) == (before, said)
    assert findings(page) == []
    link = page.url
    press(page, "Start afresh")
    assert lines(page) == 0
    assert page.url != link
