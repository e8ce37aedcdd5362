"""A host that is not allowed is answered in words; the browser opens at a desk."""

import asyncio
import re
from collections.abc import Coroutine, Iterator
from concurrent.futures import ThreadPoolExecutor
from signal import SIGINT
from typing import Any

import pytest
import streamlit as st
from streamlit import config

from conemodel.ui import serving
from conemodel.ui.serving import RefuseForeignHosts, begin_serving
from tests.browser.server import Server
from tests.patience import PATIENCE

ALLOWED = ["192.0.2.7", "pc.local", "localhost", "fd00::2"]


@pytest.fixture(autouse=True)
def _allowed() -> Iterator[None]:
    before = {
        name: st.get_option(name) for name in ("server.allowedHosts", "server.headless", "server.address")
    }
    config.set_option("server.allowedHosts", ALLOWED)
    yield
    for name, value in before.items():
        config.set_option(name, value)


def run(work: Coroutine[Any, Any, None]) -> None:
    """Run `work` to its end on a thread of its own: a browser that an earlier test opened holds this one's loop."""
    with ThreadPoolExecutor(1) as threads:
        threads.submit(asyncio.run, work).result()


def ask(
    host: str | None, *, kind: str = "http", server: tuple[str, int] = ("192.0.2.7", 8501), query: bytes = b""
) -> tuple[int, str]:
    """Return status and text of an answer; the app behind the door says 200 and "the app"."""
    sent: list[dict[str, Any]] = []

    async def app(_scope: Any, _receive: Any, send: Any) -> None:
        await send({"type": "http.response.start", "status": 200})
        await send({"type": "http.response.body", "body": b"the app"})

    async def receive() -> dict[str, Any]:
        return {"type": "http.request"}

    async def send(message: Any) -> None:
        sent.append(message)

    scope = {
        "type": kind,
        "method": "GET",
        "path": "/practise",
        "query_string": query,
        "headers": [(b"host", host.encode())] if host is not None else [],
        "server": server,
    }
    run(RefuseForeignHosts(app)(scope, receive, send))
    return sent[0]["status"], sent[1]["body"].decode()


@pytest.mark.parametrize(
    "host", ["192.0.2.7:8501", "192.0.2.7", "PC.local:8501", "localhost:1", "[fd00::2]:8501"]
)
def test_an_allowed_host_reaches_the_app(host):
    assert ask(host) == (200, "the app")


@pytest.mark.parametrize(
    "host", ["pc.example", "192.0.2.8:8501", "localhost.example", "", None, "a@localhost", "[::1"]
)
def test_any_other_gets_a_sentence_and_the_address_it_came_in_at(host):
    status, page = ask(host, query=b"link=a%20b")
    assert status == 403
    assert "does not answer under" in page
    assert 'Open this instead: <a href="http://192.0.2.7:8501/practise?link=a+b">' in page


def test_a_host_is_shown_letter_for_letter():
    assert "under <b>&lt;img src=x&gt;</b>" in ask("<img src=x>")[1]


@pytest.mark.parametrize(
    "server", [("127.0.0.1", 8501), ("192.0.2.8", 8501)], ids=["loopback", "not allowed"]
)
def test_an_address_of_no_use_is_not_offered(server):
    page = ask("pc.example", server=server)[1]
    assert "http://localhost:8501" in page
    assert "python -m conemodel serve" in page
    assert "Open this instead" not in page


def test_a_web_socket_is_left_to_the_frame():
    assert ask("pc.example", kind="websocket") == (200, "the app")


@pytest.mark.parametrize(("headless", "opened"), [(False, ["http://127.0.0.1:8501"]), (True, [])])
def test_the_browser_opens_at_a_desk(monkeypatch, headless, opened):
    seen: list[str] = []
    monkeypatch.setattr(serving, "open_browser", seen.append)
    config.set_option("server.headless", headless)
    config.set_option("server.address", "127.0.0.1")

    async def begin() -> None:
        async with begin_serving(None):
            assert seen == opened

    run(begin())
    assert seen == opened


def test_the_start_of_the_readme_ends_without_a_word(root, tmp_path):
    server = Server(script=root / "app.py", folder=root, scratch=tmp_path)
    server.start()
    assert server.process is not None
    server.process.send_signal(SIGINT)
    assert server.process.wait(PATIENCE) == 0
    assert not re.search("Aborted|Traceback|Error", server.log.read_text())
