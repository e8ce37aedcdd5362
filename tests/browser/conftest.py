"""Chromium and a running app for the tests in this folder.

``CONEMODEL_BROWSER=required`` turns every skip in this folder into a failure, ``=off`` skips all of it.
"""

import os
import shutil
from collections.abc import Callable, Generator, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from conemodel.ui.widgets.mount import read_text
from tests.browser.pages import Visitor
from tests.browser.server import Server

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
)
HERE = Path(__file__).parent
collect_ignore_glob = ["*_page.py"]  # Streamlit scripts, which run when imported
WANTED = os.environ.get("CONEMODEL_BROWSER", "")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark every test of this folder, so that nobody has to remember to."""
    for item in items:
        if HERE in item.path.parents:
            item.add_marker("browser")


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Fail a test that would be skipped where the browser is required."""
    report = yield
    if WANTED == "required" and report.skipped and not hasattr(report, "wasxfail"):
        reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else report.longrepr
        report.outcome = "failed"
        report.longrepr = f"CONEMODEL_BROWSER=required: {reason}"
    return report


@pytest.fixture(scope="session")
def chromium() -> str:
    """Return the path of Chromium; skip without one."""
    if WANTED == "off":
        pytest.skip("browser tests are switched off by CONEMODEL_BROWSER")
    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if path is None:
        pytest.skip("no Chromium on this machine")
    return path


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[Browser]:
    """Start Chromium once for all tests."""
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium, args=list(FLAGS))
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def feel(browser: Browser) -> Iterator[Callable[..., Any]]:
    """Return a function that runs a script with one argument in a page where `F` holds what hands meet."""
    page = browser.new_page()
    page.evaluate(
        """async (text) => {
            window.F = await import(URL.createObjectURL(new Blob([text], { type: "text/javascript" })));
        }""",
        read_text("feel.js", "feel_twirl.js", "feel_turn.js"),
    )
    yield lambda code, given=None: page.evaluate(code, given)
    page.close()


@pytest.fixture(scope="session")
def serve(root: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[[Path], Server]]:
    """Return a function that starts a Streamlit script and gives back its server; all end with the run."""
    with ExitStack() as running:

        def start(script: Path) -> Server:
            server = Server(script=script, folder=root, scratch=tmp_path_factory.mktemp("server"))
            running.callback(server.stop)
            server.start()
            return server

        yield start


@pytest.fixture(scope="session")
def server(chromium: str, serve: Callable[[Path], Server], root: Path) -> Server:
    """Start the app itself once for all tests."""
    return serve(root / "app.py")


@pytest.fixture
def visit(browser: Browser, server: Server) -> Iterator[Visitor]:
    """Return the way into the app; the test fails if a page or its console reported an error."""
    visitor = Visitor(browser, server.url)
    yield visitor
    assert not visitor.errors, "\n".join(visitor.errors)


@pytest.fixture
def open_page(visit: Visitor) -> Iterator[Callable[..., Page]]:
    """Return a function that opens a page of the app; its arguments are those of `Visitor.page`."""
    with ExitStack() as opened:

        def open_one(path: str = "/", **window: int | bool) -> Page:
            return opened.enter_context(visit.page(path, **window))  # type: ignore[arg-type]

        yield open_one
