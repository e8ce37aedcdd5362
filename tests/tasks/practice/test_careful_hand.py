"""No mark is finer than a careful hand can tell three times in four: drawn from the ranges, and held to the bench."""

from math import degrees, radians
from typing import Any

import numpy as np
import pytest

from conemodel.parts.scatter import Scatter
from conemodel.parts.unknowns.hands import BACK_OFF_ERROR, DRIFT, MARK_ERROR, SEEN_TURN
from conemodel.tasks.practice.actions import Finish, HoldAxle, Rock, TurnCone, Twirl
from conemodel.tasks.practice.careful_hand import least_told
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.torque_feel import finger_signature
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, framed, open_link

ON_SPACERS: dict[str, Any] = {"start": "locked", "seat": "spacers on locknuts"}


@pytest.mark.parametrize(
    ("pen", "aim", "seen"), [(True, MARK_ERROR, SEEN_TURN.low), (False, BACK_OFF_ERROR, SEEN_TURN.usual)]
)
def test_three_of_four_careful_hands_stay_within_it(pen, aim, seen):
    """By 200,000 draws with a library's own shapes: a bell cut off at two deviations, a triangle, a step of the eye."""
    chance = np.random.default_rng(1)
    bell = chance.standard_normal(400_000)
    bell = bell[np.abs(bell) < 2][:200_000]
    drift = chance.triangular(DRIFT.low, DRIFT.usual, DRIFT.high, bell.size) - DRIFT.usual
    missed = np.abs(bell * aim.high / 2 + drift + chance.uniform(-seen / 2, seen / 2, bell.size))
    assert np.mean(missed < degrees(least_told(pen=pen))) == pytest.approx(0.75, abs=0.005)


@pytest.mark.parametrize("scenario", ["road-front", "touring-rear"])
@pytest.mark.parametrize("edge", [0.0, 1.0])
def test_a_hub_past_its_edge_by_less_than_that_is_not_marked_wrong(scenario, edge):
    """Felt on spacers before: what the hand was told then stands, so it is moved after."""
    for past, wrong in ((0.9, False), (1.1, True)):
        bench = bench_of(scenario=scenario, **ON_SPACERS)
        step = past * least_told(pen=True) * bench.secret.scenario.axle.lead_per_radian
        width = mark(bench).hubs[0].window.width
        bench = do(framed(bench, edge + (step if edge else -step) / width), Finish())
        told = edge == 1.0 or "stiff" in finger_signature(bench.secret, bench.hub).words
        assert (mark(bench).hubs[0].off_by != 0.0) is (wrong and told)


@pytest.mark.parametrize("scenario", ["road-front", "touring-rear"])
def test_what_twirls_smooth_is_not_marked_too_tight(scenario):
    """On some hubs fatigue ends the good range before any finger feels drag: nobody could tell."""
    for share in np.linspace(-1.0, 0.2, 13):
        bench = do(framed(bench_of(scenario=scenario, **ON_SPACERS), float(share)), Rock(), Twirl())
        stiff = "stiff" in (bench.hub.felt.twirled_clamped or ())
        state = mark(do(bench, Finish())).hubs[0].state
        assert state != "tight" or stiff
        assert share > -1.0 or (state == "tight") is stiff


def test_what_a_hand_happened_to_feel_decides_no_mark():
    """Near an edge a hand feels now play, now none; the hub is the same."""
    bench = framed(bench_of(scatter=Scatter(), **ON_SPACERS), 1.1)
    told, states = set(), set()
    for _ in range(30):
        bench = do(bench, Rock(), Twirl())
        told.add(bench.hub.felt.rocked_clamped)
        states.add(mark(do(bench, Finish())).hubs[0].state)
    assert len(told) > 1
    assert len(states) == 1


def test_first_touch_is_marked_no_finer_than_an_eye_sets_it():
    bench = bench_of(kind="touch", touch_within=radians(1))
    bench = do(bench, HoldAxle("vice"))
    at_touch = bench.hub.shown - bench.hub.cone / bench.secret.scenario.axle.lead_per_radian
    for off, passed in ((0.9, True), (1.1, False)):
        found = do(bench, TurnCone(at_touch + off * least_told(pen=False)), Finish())
        assert mark(found).passed is passed


@pytest.mark.parametrize("name", [name for name, one in ladder().items() if one.start == "locked"])
@pytest.mark.parametrize("seed", range(4))
def test_a_hub_is_drawn_as_loose_right_or_tight_so_that_a_hand_can_tell(name, seed):
    bench = open_link(f"{name}.told.{seed}")
    for number, secret in enumerate(bench.hidden):
        if secret.fault == "none" and not name.startswith("11"):
            assert mark(bench).hubs[number].state == secret.state


def test_a_hint_is_no_finer_than_the_hand_that_is_to_follow_it():
    assert radians(3.0) > least_told(pen=True)
