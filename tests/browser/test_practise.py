"""The bench in a real browser: by mouse, touch and keys to the mark; and what leaves the server before it."""

import re
import struct
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from math import degrees
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, WebSocket

from conemodel.parts.files import load_scenario
from conemodel.parts.part import Part
from conemodel.tasks.bench.draw import SCENARIOS
from conemodel.tasks.bench.ladder import open_link
from conemodel.tasks.bench.state import Bench, end_play_of, terms_of, window_for
from tests.browser.hands import Hand
from tests.browser.pages import Visitor, findings, overflow, wait_idle
from tests.browser.server import Server

Open = Callable[..., Page]


def settle(page: Page) -> None:
    wait_idle(page)
    page.wait_for_timeout(150)
    wait_idle(page)


def pick(page: Page, name: str) -> None:
    page.get_by_role("radio", name=name, exact=True).first.click()
    settle(page)


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).first.click()
    settle(page)


def told(page: Page) -> str:
    return page.locator(".cm-told").first.inner_text()


def lines(page: Page) -> int:
    return int(page.locator(".cm-log").first.get_attribute("data-said") or 0)


def heard(page: Page, before: int) -> str:
    """Wait until the bench has answered a gesture; what it said."""
    page.wait_for_function(
        "n => document.querySelector('.cm-log').dataset.said > n", arg=before, timeout=15_000
    )
    settle(page)
    return told(page)


def drag(page: Page, turn: float) -> str:
    """Drag the spanner round by degrees, clockwise; the answer."""
    before = lines(page)
    Hand(page).round(20, turn)
    return heard(page, before)


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(1280, 900), (390, 844)])
def test_every_step_fits_reads_and_is_accessible(
    open_page: Open, width: int, height: int, dark: bool
) -> None:
    page = open_page("/practise?exercise=12-the-whole-job", width=width, height=height, dark=dark)
    for step in ("Cone", "Lock", "Clamp", "Feel", "Look", "Say"):
        pick(page, step)
        assert page.get_by_text("Next →").is_visible()
        assert overflow(page) == 0
        assert findings(page) == []
    press(page, "Done: it is right")
    assert page.get_by_role("alert").first.inner_text().startswith("Never ride it like this")
    assert overflow(page) == 0
    assert findings(page) == []


def test_what_to_do_next_stands_on_the_first_screen_of_a_phone(open_page: Open) -> None:
    page = open_page("/practise", width=390, height=844)
    for piece in (page.locator(".cm-next"), page.get_by_role("radio", name="Vice", exact=True)):
        box = piece.bounding_box()
        assert box is not None
        assert box["y"] + box["height"] < 844


def test_first_touch_found_by_mouse(open_page: Open) -> None:
    page = open_page("/practise?link=01-first-touch.browser.2", height=1300)
    for hub in range(4):
        pick(page, "Cone")
        pick(page, "Vice")
        words = drag(page, 60)
        while "freely" in words:
            words = drag(page, 60)
        drag(page, -40)
        words = drag(page, 6)
        while "freely" in words:
            words = drag(page, 6)
        pick(page, "Say")
        press(page, "Done: it is right")
        if hub < 3:
            assert f"{hub + 2} of 4" in page.locator(".cm-standing").inner_text()
    assert "Passed" in page.locator(".cm-state").inner_text()
    assert "4 of 4 right" in page.locator(".cm-turn").inner_text()


def test_a_fault_felt_and_named_by_touch(open_page: Open) -> None:
    page = open_page("/practise?link=11-what-is-wrong.browser.4", width=390, height=1800, touch=True)
    tap = lambda name, role="radio": (page.get_by_role(role, name=name, exact=True).first.tap(), settle(page))  # noqa: E731
    for turned in range(3):
        before = lines(page)
        Hand(page, touch=True).rock(wide=0.2, pause=15, steps=16)
        assert "At the rim, clamped" in heard(page, before)
        if turned < 2:
            tap("Turn the wheel a quarter", "button")
    tap("Twirl the axle")
    before = lines(page)
    Hand(page, touch=True).round(0, 420, steps=60, pause=25)
    assert "let go" in heard(page, before)
    tap("Say")
    tap("Bent axle", "button")
    page.locator(".cm-state").wait_for()
    assert "it was: " in page.locator(".cm-turn").inner_text()
    assert page.get_by_text("felt in at least three positions").is_visible()


def test_a_hub_set_by_keys_alone(open_page: Open) -> None:
    page = open_page("/practise?link=04-locknut.browser.6", height=1300)

    def key(name: str, role: str = "radio") -> None:
        page.get_by_role(role, name=name, exact=True).first.focus()  # type: ignore[arg-type]
        page.keyboard.press("Space" if role == "radio" else "Enter")
        settle(page)

    key("tighter")
    key("Cone")
    key("Vice")
    key("Screw in by finger", "button")
    before = lines(page)
    page.locator("canvas").first.focus()
    for _ in range(10):
        page.keyboard.press("ArrowLeft")
    assert "turns freely" in heard(page, before)
    assert "Cone turned out, 10 minutes" in told(page)
    key("Lock")
    key("Spanner on it")
    key("Tighten the locknut", "button")
    key("Clamp")
    key("spacers on both locknuts")
    key("Close the lever", "button")
    key("Feel")
    before = lines(page)
    page.locator("canvas").first.focus()
    for arrow in ("ArrowLeft", "ArrowRight") * 2:
        page.keyboard.down(arrow)
        page.wait_for_timeout(200)
        page.keyboard.up(arrow)
    assert "At the rim, clamped" in heard(page, before)
    key("Say")
    key("Done: it is right", "button")
    page.locator(".cm-state").wait_for()
    assert "Hint:" in page.inner_text("body")
    assert (
        page.get_by_text("Where the play went").first.is_visible()
        or page.locator("[data-testid=stVegaLiteChart]").count()
    )


def _numbers(thing: Any) -> Iterator[float]:
    """Every number in a part, a dataclass or a tuple, however deep."""
    if isinstance(thing, float):
        yield thing
    elif isinstance(thing, Part):
        for name in type(thing).model_fields:
            yield from _numbers(getattr(thing, name))
    elif is_dataclass(thing):
        for field in fields(thing):
            yield from _numbers(getattr(thing, field.name))
    elif isinstance(thing, tuple | list):
        for item in thing:
            yield from _numbers(item)


def hidden_numbers(bench: Bench) -> set[float]:
    """What nobody may know before the last word, and no file of a ready hub has."""
    secret, hub = bench.secret, bench.hub
    known = set(_numbers(load_scenario(SCENARIOS / f"{bench.exercise.scenario}.toml")))
    found = {*_numbers(secret.scenario), hub.cone, end_play_of(secret, hub)}
    found |= {term.length for term in terms_of(secret, hub)} | set(_numbers(window_for(secret, hub)))
    return {number for number in found - known if number and number not in (1.0, -1.0)}


def ways_to_write(number: float) -> set[bytes]:
    """A number as a page could carry it: seven digits in a unit of use, or as eight bytes."""
    units = (1.0, 1e3, 1e6, 1e-3, degrees(1.0))
    texts = {f"{abs(number) * unit:.12f}"[:12].rstrip("0") for unit in units}
    digits = {text.encode() for text in texts if len(text.strip("0.").replace(".", "")) >= 7}
    return {*digits, *(struct.pack("<d", number * unit) for unit in units)}


def test_no_hidden_number_leaves_the_server_before_the_last_word(visit: Visitor, server: Server) -> None:
    code = "05-quick-release.browser.8"
    sent: list[bytes] = []

    def listen(socket: WebSocket) -> None:
        socket.on(
            "framereceived", lambda data: sent.append(data if isinstance(data, bytes) else data.encode())
        )

    with visit.page("/", height=1400) as page:
        page.on("websocket", listen)
        page.goto(f"{visit.url}/practise?link={code}")
        wait_idle(page)
        pick(page, "Vice")
        drag(page, 60)
        pick(page, "Lock")
        pick(page, "Spanner on it")
        press(page, "Tighten the locknut")
        pick(page, "Clamp")
        pick(page, "spacers on both locknuts")
        press(page, "Close the lever")
        pick(page, "Feel")
        press(page, "Rock briskly")
        heard(page, lines(page) - 1)
        body = page.inner_text("body")
        before, number = b"".join(sent), len(sent)
        key = next(Path(server.scratch).rglob("practice.key")).read_text().strip()
        bench = open_link(code, key=key)
        hidden = hidden_numbers(bench)
        assert len(hidden) > 8
        leaks = {n: way for n in hidden for way in ways_to_write(n) if way in before}
        assert not leaks
        assert key.encode() not in before
        assert bench.secret.key.encode() not in before
        assert not any(mark in body for mark in ("°", "µm", "kN"))
        assert not re.search(r"\d\.\d", body)
        pick(page, "Say")
        press(page, "Done: it is right")
        page.locator(".cm-state").wait_for()
        settle(page)
        after = b"".join(sent[number:])
        # the same eyes do find the truth once it is told
        assert any(
            way in after
            for n in set(_numbers(window_for(bench.secret, bench.hub)))
            for way in ways_to_write(n)
        )


def test_two_visitors_do_not_see_each_others_bench(visit: Visitor) -> None:
    with visit.page("/practise?link=05-quick-release.pair.1") as one:
        pick(one, "Vice")
        with visit.page("/practise?link=05-quick-release.pair.1") as other:
            assert "by nothing" in other.locator(".cm-standing").inner_text()
            assert lines(other) == 0
        assert "in the vice" in one.locator(".cm-standing").inner_text()


def test_the_bench_is_as_it_was_after_another_page(open_page: Open) -> None:
    page = open_page("/practise?link=05-quick-release.back.1")
    pick(page, "Vice")
    page.get_by_role("link", name="Set the cone").first.click()
    settle(page)
    page.get_by_role("link", name="Practise").first.click()
    settle(page)
    assert "in the vice" in page.locator(".cm-standing").inner_text()
    assert "link=05-quick-release.back.1" in page.url


def test_the_first_hub_takes_three_hubs_and_two_gestures(open_page: Open) -> None:
    page = open_page("/first-hub", width=390, height=1300)
    for title in ("A loose hub", "A hub that is too tight", "A hub that is right"):
        page.get_by_role("heading", name=title).wait_for()
        page.get_by_role("button", name="Rock briskly").click()
        page.get_by_role("button", name="Turn once round").wait_for(timeout=15_000)
        settle(page)
        page.get_by_role("button", name="Turn once round").click()
        on = page.get_by_role("button", name="Next hub").or_(
            page.get_by_role("button", name="What you now know")
        )
        on.wait_for(timeout=20_000)
        assert findings(page) == []
        on.click()
        settle(page)
    assert page.get_by_text("Only twirling finds too tight").is_visible()
    assert overflow(page) == 0
