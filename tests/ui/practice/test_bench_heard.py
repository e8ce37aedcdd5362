"""What the bench in a browser reports is done once, in its order, and what no hand does leaves no trace."""

from typing import Any

import pytest
import streamlit as st

from conemodel.ui.practice.session import BENCH, Stand
from tests.ui.practice.trainee import Trainee


def kinds(stand: Stand) -> list[str]:
    return [event.kind for event in stand.bench.log]


@pytest.mark.parametrize(
    ("gesture", "told"),
    [
        ("locknut", {"effort": "brutal"}),
        ("locknut", {}),
        ("hold", {"what": "the hub", "on": True}),
        ("kick", {}),
    ],
)
def test_an_act_no_hand_does_leaves_no_trace(gesture: str, told: dict[str, Any]) -> None:
    trainee = Trainee(link="04-locknut.evening.2")
    before = trainee.sitting.stand.bench
    trainee.hand(gesture, **told)
    assert trainee.sitting.stand.bench == before


def test_acts_that_come_together_are_all_done_in_their_order_and_once() -> None:
    trainee = Trainee(link="04-locknut.evening.2")
    stand = trainee.sitting.stand
    acts = [
        {"sequence": number, "set_id": 1, "gesture": "hold", "what": what, "on": True}
        for number, what in enumerate(("vice", "cone", "far spanners"), start=1)
    ]
    trainee.app.session_state[stand.key(BENCH)] = {"hand": {"sequence": 3, "set_id": 1, "acts": acts}}
    trainee.run().run()
    assert kinds(trainee.sitting.stand) == ["HoldAxle", "HoldCone", "HoldAxle"]
    assert trainee.sitting.stand.bench.hub.axle_held == "far spanners"


def test_what_a_page_brings_along_to_a_bench_found_anew_was_done_before() -> None:
    """A browser sends its widgets' last state again to a server that was started anew."""
    done = {"sequence": 4, "set_id": 1, "gesture": "hold", "what": "vice", "on": True}
    stand = Trainee(link="04-locknut.evening.2").sitting.stand
    again = Stand(name="again", bench=stand.bench)
    with pytest.MonkeyPatch.context() as patch:
        state: dict[str, Any] = {again.key(BENCH): {"hand": {"sequence": 4, "set_id": 1, "acts": [done]}}}
        patch.setattr(st, "session_state", state)
        again.hear()
        assert kinds(again) == []
        state[again.key(BENCH)]["hand"] = {
            "sequence": 5,
            "set_id": 1,
            "acts": [done, {**done, "sequence": 5}],
        }
        again.hear()
    assert kinds(again) == ["HoldAxle"]
