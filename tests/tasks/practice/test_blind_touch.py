"""First touch cannot be found by counting keys back from where the cone stops, without feeling.

Beforehand all stopped 20° past first touch. What is expected follows from the stated range of a hand's push.
"""

from functools import lru_cache
from math import degrees, radians

import numpy as np
import pytest

from conemodel.parts.scenario import Scenario
from conemodel.tasks.practice.actions import Finish, HoldAxle, Take, TurnCone
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.criteria import touch_within
from conemodel.tasks.practice.hidden_hub import Given, begin
from conemodel.tasks.practice.hub_terms import end_play_of
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.session import Bench
from conemodel.tasks.practice.torque_feel import turn_feel
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import open_link
from tests.tasks.practice.players import careful

SEEDS = range(200)
PRESS = radians(1)
"""The least that one press of a key turns the cone by."""

MARKED = 30
"""Benches that are marked, too."""


@lru_cache(maxsize=1)
def pushed_in() -> list[Bench]:
    """Benches of the exercise with every cone turned in until it goes no further: a key held down."""
    benches = []
    for seed in SEEDS:
        bench = open_link(f"01-first-touch.blind.{seed}")
        for hub in range(len(bench.hubs)):
            bench = do(bench, Take(hub), HoldAxle("vice"), TurnCone(bench.hubs[hub].shown - radians(400)))
            assert bench.log[-1].told == "The cone binds hard on the balls and goes no further."
        benches.append(bench)
    return benches


def past_touch(bench: Bench) -> list[float]:
    """How far past first touch each cone stands [rad]."""

    def lead(scenario: Scenario) -> float:
        return scenario.axle.lead_per_radian

    return [
        -end_play_of(secret, hub) / lead(secret.scenario)
        for secret, hub in zip(bench.hidden, bench.hubs, strict=True)
    ]


def test_counting_keys_back_from_the_stop_passes_under_three_in_ten() -> None:
    """Whatever number of presses is counted back; the best of them passes as the marks have it, too."""
    exercise = ladder()["01-first-touch"]
    past = np.array([past_touch(bench) for bench in pushed_in()])
    back = np.arange(72) * PRESS
    near = np.abs(past[..., None] - back) <= touch_within(exercise)
    passing = (near.sum(axis=1) >= exercise.needed).mean(axis=0)
    assert passing.max() < 0.30
    assert passing.max() > 0.05  # pressing blindly was tried where it may succeed
    best = int(passing.argmax())
    marked = 0
    for bench in pushed_in()[:MARKED]:
        for hub in range(len(bench.hubs)):
            bench = do(bench, Take(hub), TurnCone(bench.hubs[hub].shown + best * PRESS), Finish())
        marked += mark(bench).passed
    expected = (near[:MARKED, :, best].sum(axis=1) >= exercise.needed).sum()
    assert marked == pytest.approx(expected, abs=2)  # an eye sets the cone less finely


def test_the_stop_lies_as_the_range_of_the_push_has_it() -> None:
    past = np.degrees([past_touch(bench) for bench in pushed_in()])
    assert 5 < past.min() < 15
    assert 50 < past.max() < 64


def test_who_feels_for_it_passes_over_four_in_five() -> None:
    """A hand that goes in by little steps and reads where it stops turning freely."""
    passed = sum(mark(careful(open_link(f"01-first-touch.felt.{seed}"))).passed for seed in range(20))
    assert passed / 20 > 0.8


@pytest.mark.parametrize("name", sorted(ladder()))
def test_the_effort_that_is_told_reaches_to_every_stop(name: str) -> None:
    """So that the widget stops the hand where the bench does."""
    exercise = ladder()[name].replace(start="apart", seat=None, kind="set")
    most = exercise.prior.replace(push=(exercise.prior.push[1],) * 2)
    bench = begin(exercise.replace(prior=most, last=most), Given(salt="stop", seed=1))
    found = turn_feel(bench.secret, bench.hub)
    assert found.resist_effort[0] > found.limit
    bench = do(bench, HoldAxle("vice"), TurnCone(bench.hub.shown - radians(400)))
    stop = np.interp(-found.limit, -np.array(found.resist_effort), found.resist_angle)
    assert degrees(stop - bench.hub.shown) == pytest.approx(0, abs=6)  # an eye reads it to that
