"""What each input sends of the same intent: every act by mouse, finger and keys, on the widget that practice ships.

Only how far a turn goes may differ, by a step of the input's own; so what is paired at the model by its steps
(`tests/tasks/practice/test_inputs.py`) differs by nothing else.
"""

from collections.abc import Iterator
from math import radians
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from conemodel.tasks.practice import actions as a
from tests.browser.own_bench import empty_page
from tests.browser.page_player import PagePlayer
from tests.tasks.practice.hubs import bench_of
from tests.tasks.practice.inputs import INPUTS, STEPS, By

OWN = {"sequence", "set_id", "angle", "turned", "knocks"}
"""What of a message is its own each time, or is not read; of a turn the angle is, and is held to beside it."""


@pytest.fixture
def page(browser: Browser, by: By) -> Iterator[Page]:
    """Return an empty page that has the bench's script."""
    with empty_page(browser, by) as page:
        yield page


TURNS = (100.4, -31.3, 7.0)
"""By how much the cone is turned out, one turn after the other [°]."""

FELT: list[dict[str, Any]] = [
    {"gesture": "rim", "cycles": 1, "brisk": True},
    {"gesture": "twirl", "full_turn": True, "let_go": False},
]
MEANT: list[dict[str, Any]] = [
    {"gesture": "hold", "what": "vice", "on": True},
    *[{"gesture": "turn", "stopped": False}] * len(TURNS),
    {"gesture": "hold", "what": "cone", "on": True},
    {"gesture": "locknut", "effort": "firm", "technique": "nut turned"},
    {"gesture": "hold", "what": "vice", "on": False},
    {"gesture": "hold", "what": "cone", "on": False},
    {"gesture": "lever", "close": True},
    *FELT * 2,
    {"gesture": "lever", "close": False},
    {"gesture": "hold", "what": "vice", "on": True},
    {"gesture": "locknut", "effort": "undo", "technique": "nut turned"},
]
"""What the acts of `sent_by` mean in practice's own words, but for the angles."""


def sent_by(page: Page, by: By) -> list[dict[str, Any]]:
    """Return what is sent of a hub that is set, locked, clamped, felt and undone."""
    player = PagePlayer(page, bench_of(prior={"push": (3.0, 3.0)}), by)
    bench = player.do(player.own.bench, a.HoldAxle("vice"), a.ScrewIn())
    for out in TURNS:
        bench = player.do(bench, a.TurnCone(bench.hub.shown + radians(out)))
    bench = player.do(bench, a.HoldCone(), a.Tighten(), a.HoldAxle("nothing"), a.HoldCone(False))
    bench = player.do(bench, a.FitClamp("spacers on locknuts"), a.CloseClamp())
    bench, _ = player.feel(bench, often=2)
    player.do(bench, a.OpenClamp(), a.HoldAxle("vice"), a.Undo())
    return player.own.acts


@pytest.mark.parametrize("by", INPUTS)
def test_every_act_reaches_practice_in_the_same_words_and_a_turn_within_a_step_of_what_was_meant(page, by):
    """Of the same intent each input sends one message, the same by each; only a turn's angle has its step's error."""
    sent = sent_by(page, by)
    assert [{name: told[name] for name in told.keys() - OWN} for told in sent] == MEANT
    turned = [told["turned"] for told in sent if told["gesture"] == "turn"]
    assert turned == pytest.approx([radians(out) for out in TURNS], abs=radians(STEPS[by]))
