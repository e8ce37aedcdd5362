"""A correction takes at most nine acts by each input: from too tight, locked and clamped to right, locked and clamped.

Nine is the project's own measure, of the user's. What is counted is what the bench itself has kept.
"""

from collections.abc import Iterator
from math import radians
from typing import Any

import pytest

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.hub_terms import end_play_of, window_for
from conemodel.tasks.practice.session import Bench
from conemodel.ui.practice.session import Stand
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of
from tests.tasks.practice.inputs import STEPS, By

MOST = 9


def too_tight() -> Bench:
    """A hub as somebody left it: screwed in, locked, clamped on spacers, and nothing in hand."""
    bench = do(bench_of(), a.HoldAxle("vice"), a.ScrewIn(), a.HoldCone(), a.Tighten())
    bench = do(bench, a.FitClamp("spacers on locknuts"), a.CloseClamp(), a.HoldAxle("nothing"))
    return do(bench, a.HoldCone(held=False))


def state(bench: Bench) -> str:
    return window_for(bench.secret, bench.hub).state(end_play_of(bench.secret, bench.hub))


def correct(stand: Stand, out: float) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every act of a correction, as the bench on the page sends it."""
    yield "lever", {"close": False}
    yield "hold", {"what": "far spanners", "on": True}
    yield "hold", {"what": "cone", "on": True}
    yield "locknut", {"effort": "undo", "technique": "nut turned"}
    yield "turn", {"angle": stand.bench.hub.shown + out, "turned": out, "stopped": False}
    yield "locknut", {"effort": "firm", "technique": "nut turned"}
    yield "lever", {"close": True}
    yield "rim", {"cycles": 2, "knocks": 0, "brisk": True}
    yield "twirl", {"full_turn": True}


def corrected(out: float) -> Stand:
    stand = Stand(name="x", bench=too_tight())
    for gesture, told in correct(stand, out):
        stand.take(gesture, told)
    return stand


@pytest.mark.parametrize("by", STEPS)
def test_a_correction_takes_at_most_nine_acts(by: By) -> None:
    before = too_tight()
    assert (state(before), before.hub.lock is not None, before.hub.closed) == ("tight", True, True)
    step = radians(STEPS[by])
    stand = next(s for n in range(1, 400) if state((s := corrected(n * step)).bench) == "right")
    done = stand.bench.log[len(before.log) :]
    assert len(done) <= MOST
    assert not any(event.refused for event in done)
    hub = stand.bench.hub
    assert (state(stand.bench), hub.lock is not None, hub.closed) == ("right", True, True)
    assert hub.felt.rocked_clamped is not None
    assert hub.felt.twirled_clamped is not None


def test_no_act_of_it_can_be_left_out() -> None:
    """With one act fewer a right, locked, clamped and checked hub does not come of it."""
    out = next(out for out in map(radians, range(1, 200)) if state(corrected(out).bench) == "right")
    for left_out in range(MOST):
        stand = Stand(name="x", bench=too_tight())
        for number, (gesture, told) in enumerate(correct(stand, out)):
            if number != left_out:
                stand.take(gesture, told)
        hub = stand.bench.hub
        checked = None not in (hub.felt.rocked_clamped, hub.felt.twirled_clamped)
        whole = checked and hub.closed and hub.lock is not None and state(stand.bench) == "right"
        assert not whole or left_out == 2, left_out  # a steady hand's cone may stay by itself
