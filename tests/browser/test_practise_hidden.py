"""What leaves the server before the last word, and that nobody sees another's bench.

What the widgets must have does leave it: the free travel in steps a hand tells apart, where the balls begin to
resist in whole degrees, the drag in steps of about an eighth.
"""

import re
import struct
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from math import degrees
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, WebSocket

from conemodel.parts.library import SCENARIOS
from conemodel.parts.schema import Part
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.practice.hub_terms import end_play_of, terms_of, window_for
from conemodel.tasks.practice.session import Bench
from tests.browser.bench import drag, heard, lines, pick, press
from tests.browser.pages import Visitor, go_to, settle, wait_idle
from tests.browser.server import Server
from tests.tasks.practice.hubs import open_link

Open = Callable[..., Page]


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
        press(page, "Axle: vice")
        drag(page, 60)
        press(page, "Hold the cone")
        for act in ("Tighten", "spacers on both locknuts", "Close the lever", "Rock briskly"):
            before = lines(page)
            (pick if act.startswith("spacers") else press)(page, act)
            heard(page, before)
        body = page.inner_text("body")
        sent_before, number = b"".join(sent), len(sent)
        key = next(Path(server.scratch).rglob("practice.key")).read_text().strip()
        bench = open_link(code, key=key)
        hidden = hidden_numbers(bench)
        assert len(hidden) > 8
        leaks = {n: way for n in hidden for way in ways_to_write(n) if way in sent_before}
        assert not leaks
        assert key.encode() not in sent_before
        assert bench.secret.key.encode() not in sent_before
        assert not any(mark in body for mark in ("°", "µm", "kN"))
        assert not re.search(r"\d\.\d", body)
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
        press(one, "Axle: vice")
        with visit.page("/practise?link=05-quick-release.pair.1") as other:
            assert "nothing holds it" in other.locator(".cm-standing").inner_text()
            assert lines(other) == 0
        assert "in the vice" in one.locator(".cm-standing").inner_text()


def test_the_bench_is_as_it_was_after_another_page(open_page: Open) -> None:
    page = open_page("/practise?link=05-quick-release.back.1")
    press(page, "Axle: vice")
    go_to(page, "Learn it", "Set the cone")
    go_to(page, "Learn it", "Practise")
    assert "in the vice" in page.locator(".cm-standing").inner_text()
    assert "link=05-quick-release.back.1" in page.url
