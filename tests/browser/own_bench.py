"""The shipped bench on an empty page, without a server: what practice shows goes in, what hands send comes out.

A page's time passes only when it is told to, so that the same hand does the same on any machine.
"""

import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from unittest.mock import patch

import streamlit as st
from playwright.sync_api import Browser, Page

from conemodel.show.type_scale import type_style
from conemodel.tasks.practice.actions import Action
from conemodel.tasks.practice.session import Bench
from conemodel.ui.practice import bench as bench_page
from conemodel.ui.practice.session import BENCH, Stand
from conemodel.ui.widgets import whole_bench_mount
from conemodel.ui.widgets.mount import read_text
from conemodel.ui.widgets.whole_bench_mount import SCRIPTS, STYLES
from tests.browser.test_instrument_many_hubs import MOUNT
from tests.patience import PATIENCE_MS
from tests.tasks.practice.inputs import By

CLOCK = Path(__file__).with_name("still_clock.js").read_text()


@contextmanager
def empty_page(browser: Browser, by: By) -> Iterator[Page]:
    """Open an empty page of a desk, or of a phone for a finger, that has the bench's script and a clock that stands."""
    touch = by == "touch"
    width, height = (390, 844) if touch else (1280, 900)
    context = browser.new_context(viewport={"width": width, "height": height}, has_touch=touch)
    context.set_default_timeout(PATIENCE_MS)
    page, errors = context.new_page(), list[str]()
    page.on("pageerror", lambda error: errors.append(str(error)))
    parts = {"html": read_text("whole_bench.html"), "css": read_text(*STYLES), "script": read_text(*SCRIPTS)}
    page.evaluate(MOUNT, parts)
    page.evaluate("style => { window.markup = `<style>${style}</style>${markup}`; }", type_style())
    page.evaluate(f"() => {{ {CLOCK} }}")
    yield page
    context.close()
    assert not errors, errors


class OwnBench:
    """A bench of practice with its widget in a page of its own."""

    def __init__(self, page: Page, bench: Bench, name: str) -> None:
        """Show a bench; `name` tells it from the page's last."""
        self.page, self.stand = page, Stand(name=name, bench=bench)
        self.acts: list[dict[str, Any]] = []
        self._hear({})
        self.show()

    @property
    def bench(self) -> Bench:
        return self.stand.bench

    def show(self) -> None:
        """Show the bench as practice does after each act."""
        with patch.object(whole_bench_mount, "mount_widget") as mounted:
            bench_page.work_with(self.stand, bench_page.hands_for(self.bench.exercise))
        given = mounted.call_args.kwargs
        told = {"key": self.stand.name, "sequence": 0, "set_id": given["set_id"], "label": given["label"]}
        self.page.evaluate("told => show(told)", json.dumps(told | given["data"]))

    def take(self) -> None:
        """Let practice hear the one act that was sent, and show what came of it."""
        sent: list[dict[str, Any]] = self.page.evaluate("received()")
        assert len(sent) == 1, sent
        before = len(self.bench.log)
        self._hear(sent[0])
        assert len(self.bench.log) > before, sent
        assert not self.bench.log[before].refused, self.bench.log[before]
        self.acts.append(sent[0]["acts"][-1])
        self.show()

    def do(self, action: Action) -> None:
        """Do what has no gesture, as its button beside the bench does it."""
        number = len(self.bench.log)
        self.stand.do(action)
        assert not self.bench.log[number].refused, self.bench.log[number]
        self.show()

    def _hear(self, told: dict[str, Any]) -> None:
        with patch.object(st, "session_state", {self.stand.key(BENCH): {"hand": told}}):
            self.stand.hear()

    def wait(self, milliseconds: float) -> list[float]:
        """Let the page's time pass; how far the hand was ahead of the axle in each picture [rad]."""
        return list(self.page.evaluate("wait => pass(wait)", milliseconds))
