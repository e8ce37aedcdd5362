"""A job card on a real page: a tap that was shown as chosen is in the record, whatever becomes of tab and server."""

import random
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Browser, Page

from conemodel.record.cards import find_card
from conemodel.record.database import Database
from conemodel.tasks.job_card.card import Place, Value
from tests.browser.pages import Visitor
from tests.browser.server import Server
from tests.browser.test_job_card import begin, chip
from tests.patience import PATIENCE

TAPS: dict[tuple[str, str], tuple[Place, Value]] = {
    ("Wheel", "rear"): (Place("wheel"), "rear"),
    ("What holds it in the frame", "quick release"): (Place("held_by"), "quick release"),
    ("Brake", "rim"): (Place("brake"), "rim"),
    ("Cone, left", "pitted"): (Place("cone", "left"), "pitted"),
    ("Cone, right", "good"): (Place("cone", "right"), "good"),
}
"""What is tapped, and the answer that is in the record then."""

KILLS = 3


def id_of(page: Page) -> str:
    """Return the id of the card in hand, which stands in the address."""
    return parse_qs(urlsplit(page.url).query)["card"][0]


def answers_in(server: Server, card_id: str) -> set[tuple[Place, Value]]:
    """Return what stands on a card in the record."""
    return set(find_card(card_id, Database(server.scratch / "conemodel" / "record.sqlite3")).answers.items())


def wait_for_answers(server: Server, card_id: str, wanted: Iterable[tuple[Place, Value]]) -> None:
    """Wait until answers stand on a card in the record."""
    deadline = time.monotonic() + PATIENCE
    while missing := set(wanted) - answers_in(server, card_id):
        assert time.monotonic() < deadline, f"not in the record: {missing}"
        time.sleep(0.1)


def waiting(page: Page) -> int:
    """Return how many taps the page still keeps because the app did not say that they are in the record."""
    kept = "Object.keys(sessionStorage).filter(key => key.startsWith('job-card ')).map(key => sessionStorage[key])"
    return int(page.evaluate(f"{kept}.flatMap(taps => JSON.parse(taps)).length"))


def test_a_tab_closed_at_once_leaves_every_tap_in_the_record(
    open_page: Callable[..., Page], server: Server
) -> None:
    page = open_page("/job-cards", width=820, height=1180)
    card = begin(page)
    card_id = id_of(page)
    chips = [chip(card, *asked).element_handle() for asked in TAPS]
    page.evaluate("chips => chips.forEach(chip => chip.click())", chips)
    assert card.locator("[aria-pressed=true]").count() >= len(TAPS)
    page.close()
    wait_for_answers(server, card_id, TAPS.values())


@pytest.mark.slow
def test_a_server_killed_while_taps_come_loses_none(
    browser: Browser, serve: Callable[[Path], Server], root: Path
) -> None:
    server = serve(root / "app.py")
    visitor = Visitor(browser, server.url)  # what it hears of a lost connection is no error here
    with visitor.page("/job-cards", width=820, height=1180) as page:
        card, dice = begin(page), random.Random(1)
        tapped: list[tuple[Place, Value]] = []
        for asked, answer in list(TAPS.items())[:KILLS]:
            chip(card, *asked).click()
            tapped.append(answer)
            time.sleep(dice.uniform(0, 0.3))  # any moment will do: nothing waits for it
            kept = len(tapped) - waiting(page)
            assert server.process is not None
            server.process.kill()
            server.process.wait()
            assert set(tapped[:kept]) <= answers_in(server, id_of(page))
            server.start()
            wait_for_answers(server, id_of(page), tapped)
