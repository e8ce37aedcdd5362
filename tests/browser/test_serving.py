"""The app on the network: opened by an address that was printed, and by a name that is not allowed."""

from pathlib import Path

from playwright.sync_api import Browser, expect

from tests.browser.conftest import FLAGS
from tests.browser.pages import Visitor, findings, settle
from tests.browser.server import Server, free_port
from tests.cli.serving import ADDRESS, served
from tests.patience import PATIENCE_MS

STRANGER = "office.example"


def test_what_is_served_works_by_its_address(browser: Browser, root: Path, tmp_path: Path) -> None:
    port = free_port()
    visitor = Visitor(browser, f"http://{ADDRESS}:{port}")
    with (
        served(root, port, tmp_path),
        visitor.page("/check-a-hub", width=820, height=1180, touch=True) as page,
    ):
        page.locator("summary").filter(has_text="Axle, dropouts, thread").tap()
        settle(page)
        thickness = page.get_by_role("spinbutton", name="Thickness of the dropouts [mm]")
        thickness.fill("6.8")
        page.keyboard.press("Enter")
        settle(page)
        expect(thickness).to_have_value("6.80")
        assert "6.8" in page.url
    assert not visitor.errors


def test_a_name_that_is_not_allowed_gets_a_sentence(browser: Browser, chromium: str, server: Server) -> None:
    # The app as the README starts it; only this second browser takes the invented name for this machine.
    rules = f"--host-resolver-rules=MAP {STRANGER} 127.0.0.1"
    with browser.browser_type.launch(executable_path=chromium, args=[*FLAGS, rules]) as stranger:
        for scheme in ("light", "dark"):
            page = stranger.new_page(viewport={"width": 390, "height": 844}, color_scheme=scheme)
            page.set_default_timeout(PATIENCE_MS)
            answer = page.goto(f"http://{STRANGER}:{server.port}/set-the-cone")
            assert answer is not None
            assert answer.status == 403
            page.get_by_role("heading", name="Not under this address").wait_for()
            assert f"does not answer under {STRANGER}:{server.port}" in page.inner_text("body")
            assert "python -m conemodel serve" in page.inner_text("body")
            assert findings(page) == []
            assert page.evaluate("document.documentElement.scrollWidth") <= 390
