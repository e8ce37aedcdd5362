"""Acts played back: the same bench and the same log, whatever was done; and what is no longer so is said.

The law: the bench is a function of its start and of the acts, so that acts read back from text give an equal one.
"""

import json
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conemodel.tasks.practice.actions import ACTIONS, Action, Answer, HoldAxle, Judge, Rock, TurnCone, Twirl
from conemodel.tasks.practice.actions.cone import PINCHED
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.playback import (
    CannotPlayBack,
    PlayedAct,
    play_back,
    proof_of,
    read_act,
    write_act,
)
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice import attempts
from tests.tasks.practice.attempts import attempt
from tests.tasks.practice.hubs import open_link


def played(bench: Bench, seed: int, monkeypatch: pytest.MonkeyPatch) -> tuple[Bench, list[PlayedAct]]:
    """Let somebody do anything at all; the bench after it, and every act, the refused ones too."""
    acts: list[PlayedAct] = []

    def kept(before: Bench, action: Action) -> Bench:
        after = act(before, action)
        acts.append(PlayedAct(write_act(action), after.log[-1].told))
        return after

    monkeypatch.setattr(attempts, "act", kept)
    return attempt(bench, Random(seed)).bench, acts


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(sorted(ladder())), st.integers(1, 10**6), st.booleans())
def test_any_acts_played_back_give_the_same_bench_and_the_same_log(
    name: str, seed: int, training: bool
) -> None:
    code = f"{name}.any.{seed}{'.training' if training else ''}"
    with pytest.MonkeyPatch.context() as patch:
        bench, acts = played(open_link(code), seed, patch)
    again = play_back(open_link(code), acts)
    assert again == bench
    assert [event.after for event in again.log] == [event.after for event in bench.log]
    assert len(acts) == len(bench.log)


def test_every_act_is_written_and_read() -> None:
    chosen: dict[str, tuple[object, ...]] = {"Take": (1,), "TurnCone": (0.1,), "Trim": (-0.1,)}
    chosen |= {"Judge": (0.5, "sure"), "Answer": ("why", "x"), "HoldAxle": ("vice",), "FitClamp": (None,)}
    chosen |= {"Look": ("balls",), "PutRight": ("axle",)}
    for name, kind in ACTIONS.items():
        action = kind(*chosen.get(name, ()))
        assert read_act(write_act(action)) == action


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[]",
        '"Rock"',
        '{"act": "Fly"}',
        '{"act": "TurnCone"}',
        '{"act": "TurnCone", "angle": "far"}',
        '{"act": "Judge", "mark": 0, "sure": "perhaps"}',
        '{"act": "Rock", "grip": "rim", "brisk": true, "more": 1}',
        '{"act": ["Rock"]}',
    ],
)
def test_what_is_no_act_is_said_to_be_none(text: str) -> None:
    with pytest.raises(CannotPlayBack):
        read_act(text)


def test_an_act_that_is_answered_otherwise_now_is_named() -> None:
    start = open_link("free-practice.x.1")
    told = act(start, Rock()).log[-1].told
    acts = [PlayedAct(write_act(Rock()), told), PlayedAct(write_act(Twirl()), "It sings.")]
    with pytest.raises(CannotPlayBack, match="act 2"):
        play_back(start, acts)


def test_a_start_is_known_again_and_another_is_not() -> None:
    proofs = {proof_of(open_link(f"05-quick-release.x.{seed}", key=key)) for seed in (1, 2) for key in "ab"}
    assert len(proofs) == 4
    assert proof_of(open_link("05-quick-release.x.1", key="a")) in proofs


def test_a_number_is_kept_to_its_last_digit() -> None:
    for angle in (0.1 + 0.2, -0.0, 1e-17, 9.87654321987654321):
        assert read_act(write_act(TurnCone(angle))) == TurnCone(angle)
    assert json.loads(write_act(Judge(0, "sure")))["mark"] == 0
    assert read_act(write_act(Answer("why", "“ß”"))) == Answer("why", "“ß”")


def test_what_was_kept_in_words_that_have_changed_since_is_played_back() -> None:
    start = open_link("01-first-touch.reworded.1")
    touch = TurnCone(start.hub.shown - start.hub.cone / start.secret.scenario.axle.lead_per_radian)
    bench = act(act(start, HoldAxle("vice")), touch)
    assert bench.log[-1].told == PINCHED
    kept = [PlayedAct(write_act(HoldAxle("vice")), bench.log[0].told)]
    assert play_back(start, [*kept, PlayedAct(write_act(touch), "The balls are pinched.")]) == bench
