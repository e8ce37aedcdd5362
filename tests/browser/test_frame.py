"""The frame our pages stand in, and the tools the other tests of this folder use.

Contrast is checked with axe-core against WCAG 2 AA (4.5 : 1 for text).
"""

import http.client
import socket
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.pages import FRAME_FAILURES, Visitor, findings, overflow, settle
from tests.browser.server import Server
from tests.patience import PATIENCE


@pytest.fixture(scope="module")
def frame(browser: Browser, serve: Callable[[Path], Server]) -> Visitor:
    return Visitor(browser, serve(Path(__file__).with_name("frame_page.py")).url)


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_our_theme_reaches_the_contrast_of_wcag_aa(frame, dark):
    with frame.page(dark=dark) as page:
        assert findings(page) == []


def test_every_excused_failure_still_happens(frame):
    with frame.page() as page:
        page.wait_for_selector("[data-testid=stDataFrame] th", state="attached")
        for excuse in FRAME_FAILURES:
            assert findings(page, allowed=FRAME_FAILURES - {excuse}), f"{excuse} is no longer needed"


def test_a_failure_of_our_own_is_found(frame):
    with frame.page() as page:
        page.evaluate("document.querySelector('[data-testid=stMain]').innerHTML += '<img src=\"data:,\">'")
        assert any(line.startswith("image-alt") for line in findings(page))


def test_two_themes_are_set(frame):
    grounds = set()
    for dark in (False, True):
        with frame.page(dark=dark) as page:
            app = "getComputedStyle(document.querySelector('[data-testid=stApp]'))"
            grounds.add(page.evaluate(f"{app}.backgroundColor"))
    assert len(grounds) == 2


def test_no_full_collection_ends_a_run(frame):
    # With runner.postScriptGC left on, each of the five runs would add one.
    with frame.page() as page:
        before = _collections(page)
        for _ in range(5):
            page.get_by_role("button", name="Again").click()
            settle(page)
        assert _collections(page) - before < 3


def test_nothing_runs_over_the_side_of_a_telephone(frame):
    with frame.page(width=390, height=800) as page:
        assert overflow(page) == 0
        wide = "<div style='width: 600px'>wide</div>"
        page.evaluate(f'document.querySelector("[data-testid=stMainBlockContainer]").innerHTML += "{wide}"')
        assert overflow(page) > 0


def test_an_error_on_the_console_is_kept(browser, frame):
    visitor = Visitor(browser, frame.url)
    with visitor.page() as page:
        page.evaluate("console.error('a planted mistake')")
    assert visitor.errors == ["/: a planted mistake"]


def test_the_server_is_reached_from_this_machine_only(frame):
    port = int(frame.url.rsplit(":", 1)[1])
    # 127.0.0.2 is this machine too, but only a server on every address answers there.
    with pytest.raises(ConnectionRefusedError):
        socket.create_connection(("127.0.0.2", port), timeout=PATIENCE).close()


@pytest.mark.parametrize(("host", "status"), [("localhost", 101), ("example.org", 403)])
def test_a_foreign_host_name_gets_no_session(frame, host, status):
    connection = http.client.HTTPConnection("127.0.0.1", int(frame.url.rsplit(":", 1)[1]), timeout=PATIENCE)
    connection.putrequest("GET", "/_stcore/stream", skip_host=True)
    asked = {
        "Host": host,
        "Origin": f"http://{host}",
        "Connection": "Upgrade",
        "Upgrade": "websocket",
        "Sec-WebSocket-Version": "13",
        "Sec-WebSocket-Key": "AAAAAAAAAAAAAAAAAAAAAA==",
    }
    for name, value in asked.items():
        connection.putheader(name, value)
    with closing(connection):
        connection.endheaders()
        assert connection.getresponse().status == status


def _collections(page: Page) -> int:
    text = page.get_by_text("collections:").inner_text()
    return int(text.split(":")[1])
