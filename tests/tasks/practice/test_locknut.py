"""What the hands do to end play at the bench, held against the stages of the model and against laws.

Expected values: the terms of `solve.stages`, which have their own tests; closed forms; and the laws that slack
repeats, that nothing turns an axle that is held, and that order does not matter where it must not.
"""

from dataclasses import replace
from math import pi, radians
from typing import Any

import pytest

from conemodel.base.units import DEG
from conemodel.solve.stages.locknut import lock_up
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.practice.actions import (
    CloseClamp,
    FitClamp,
    HoldAxle,
    HoldCone,
    Mark,
    OpenClamp,
    ScrewIn,
    Tighten,
    Trim,
    TurnCone,
    Undo,
)
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.hub_terms import terms_of
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, end_play

LEAD = 1e-3 / (2 * pi)
DRIFTING: dict[str, Any] = {"drift": (radians(2), radians(5)), "hand_error": radians(1.5)}


def ready(bench: Bench, out: float = radians(90)) -> Bench:
    """Held, finger tight, then turned out by `out` [rad]."""
    bench = do(bench, HoldAxle("vice"), HoldCone(), ScrewIn())
    return do(bench, TurnCone(bench.hub.shown + out))


def length(bench: Bench, key: str) -> float:
    return sum(term.length for term in terms_of(bench.secret, bench.hub) if term.key == key)


@pytest.mark.parametrize("technique", ["nut turned", "cone turned out", "both"])
@pytest.mark.parametrize("seat", ["dropouts", "spacers on locknuts"])
def test_the_bench_ends_where_the_five_stages_say(technique, seat):
    bench = ready(bench_of(prior={"drift": (radians(3), radians(3))}))
    # to the last digit the cone stands a quarter turn out: fingers and eye have no error here
    bench = do(bench, Tighten("firm", technique))
    opened = end_play(bench)
    bench = do(bench, HoldAxle("nothing"), FitClamp(seat), CloseClamp())
    scenario = bench.secret.scenario.with_setting(
        back_off=bench.hub.cone / LEAD,
        technique=technique,
        lock_torque=120.0 * 0.15,
        drift=radians(3),
        clamp_seat=seat,
    )
    steps = setting_terms(scenario)
    assert opened == pytest.approx(steps.end_play("locked"), abs=1e-12)
    assert end_play(bench) == pytest.approx(steps.end_play("clamped"), abs=1e-12)


def test_dropouts_out_of_parallel_act_on_the_bench_as_in_a_prediction():
    """In the frame only: on spacers the same clamp bows nothing."""
    locked = ready(bench_of(scenario="skew-fork"))
    locked = do(locked, Tighten("firm", "nut turned"), HoldAxle("nothing"))
    skew = locked.secret.now(locked.hub)
    expected = float(setting_terms(skew).lengths["clamped"]["dropouts"])
    framed = do(locked, FitClamp("dropouts"), CloseClamp())
    assert expected < -1e-6
    assert length(framed, "dropouts") == pytest.approx(expected, abs=1e-9)
    assert length(do(locked, FitClamp("spacers on locknuts"), CloseClamp()), "dropouts") == 0.0


def test_finger_tight_is_the_contact_stage_and_a_turn_is_its_lead():
    bench = do(bench_of(), HoldAxle("vice"), ScrewIn())
    steps = setting_terms(bench.secret.scenario)
    assert end_play(bench) == pytest.approx(steps.end_play("contact"), abs=1e-12)
    after = do(bench, TurnCone(bench.hub.shown + pi))
    assert end_play(after) - end_play(bench) == pytest.approx(0.5e-3, abs=1e-12)


def test_locked_undone_and_locked_again_with_the_cone_held_it_comes_back():
    bench = do(ready(bench_of()), Tighten())
    again = do(bench, Undo(), Tighten())
    assert end_play(again) == pytest.approx(end_play(bench), abs=1e-9)
    loose = do(bench, Undo())
    assert end_play(loose) - end_play(bench) == pytest.approx(-sum_of_lock(bench), abs=1e-12)


def sum_of_lock(bench: Bench) -> float:
    assert bench.hub.lock is not None
    return sum(term.length for term in bench.hub.lock.terms)


@pytest.mark.parametrize("seed", range(6))
def test_with_a_hand_that_errs_only_its_error_differs(seed):
    bench = do(ready(bench_of(seed=seed, prior=DRIFTING)), Tighten())
    again = do(bench, Undo(), Tighten())
    erred = length(again, "drift") + length(again, "hand")
    assert end_play(again) == pytest.approx(end_play(bench) + erred, abs=1e-9)
    assert length(again, "thread_slack") == pytest.approx(length(bench, "thread_slack"), abs=1e-15)
    assert 2.0 <= DEG.from_si(-length(again, "drift") / LEAD) <= 5.0
    assert abs(DEG.from_si(length(again, "hand") / LEAD)) <= 1.5
    assert length(again, "drift") != length(bench, "drift")


def test_a_pen_mark_halves_the_error_of_the_hand():
    free = do(ready(bench_of(prior=DRIFTING)), Tighten())
    marked = do(ready(bench_of(prior=DRIFTING)), Mark(), Tighten())
    assert length(marked, "hand") == pytest.approx(length(free, "hand") / 2, abs=1e-15)


@pytest.mark.parametrize("scenario", ["unkeyed-locknut", "touring-rear"])
@pytest.mark.parametrize("seed", range(4))
def test_a_cone_that_nobody_holds_always_goes_in(scenario, seed):
    bench = do(ready(bench_of(scenario=scenario, seed=seed, prior=DRIFTING)), HoldCone(False))
    before = end_play(bench)
    for _ in range(3):
        bench = do(bench, Tighten())
        assert end_play(bench) < before
        assert length(bench, "drift") < 0.0
        bench = do(bench, Undo())
        before = end_play(bench)


def test_an_unkeyed_cone_runs_in_until_the_balls_stop_it():
    bench = do(ready(bench_of(scenario="unkeyed-locknut")), HoldCone(False), Tighten())
    scenario = bench.secret.scenario.with_setting(cone_held=False, lock_torque=18.0, back_off=pi / 2)
    assert lock_up(scenario).runs_in
    assert end_play(bench) == pytest.approx(setting_terms(scenario).end_play("locked"), abs=1e-9)


def test_with_the_axle_free_turning_the_cone_changes_nothing():
    bench = do(ready(bench_of()), HoldAxle("nothing"))
    for action in (TurnCone(bench.hub.shown + 3), ScrewIn(), TurnCone(0.0)):
        after = do(bench, action)
        assert after.hub == bench.hub
        assert "axle turns" in after.log[-1].told


def test_with_nothing_held_nothing_can_be_locked():
    bench = do(ready(bench_of()), HoldAxle("nothing"), HoldCone(False))
    after = act(bench, Tighten())
    assert after.log[-1].refused
    assert after.hub == bench.hub


def test_with_the_axle_free_either_thread_may_slide_and_nobody_knows_which():
    found = []
    for seed in range(12):
        bench = do(ready(bench_of(seed=seed)), HoldAxle("nothing"), Tighten())
        found.append(length(bench, "thread_slack"))
    slack = -bench.secret.scenario.axle.backlash
    assert all(slack <= one <= 0.0 for one in found)
    assert max(found) - min(found) > 0.3 * -slack


def test_a_cone_backed_onto_a_held_nut_comes_out_a_hair_and_stays_turned_out():
    bench = ready(bench_of())
    locked = do(bench, Tighten("firm", "cone turned out"))
    joint = lock_up(bench.secret.scenario.with_setting(lock_torque=18.0))
    hair = joint.force * joint.compliances.behind_cone
    assert end_play(locked) - end_play(bench) == pytest.approx(hair, abs=1e-12)
    # the cone has turned by slack and give: that is seen, and stays when the nut is undone
    turned = joint.backlash + joint.force * (joint.compliances.behind_cone + joint.compliances.cone_thread)
    loose = do(locked, Undo())
    assert end_play(loose) - end_play(bench) == pytest.approx(turned, abs=1e-12)
    assert loose.hub.shown - bench.hub.shown == pytest.approx(turned / LEAD, abs=radians(3))


def test_locking_harder_against_a_held_nut_gains_a_hair_until_the_force_runs_out():
    bench = do(ready(bench_of()), Tighten("firm", "cone turned out"))
    joint = lock_up(bench.secret.scenario.with_setting(lock_torque=18.0))
    harder = do(bench, Tighten("hard", "cone turned out"))
    more = lock_up(bench.secret.scenario.with_setting(lock_torque=25.5)).force - joint.force
    assert end_play(harder) - end_play(bench) == pytest.approx(
        more * joint.compliances.behind_cone, abs=1e-12
    )
    assert act(harder, Tighten("hard")).log[-1].refused


def test_tightening_further_takes_no_slack_again():
    once = do(ready(bench_of()), Tighten("hard"))
    twice = do(ready(bench_of()), Tighten("light"), Tighten("hard"))
    assert end_play(twice) == pytest.approx(end_play(once), abs=1e-12)


def test_a_trim_moves_cone_and_nut_by_its_angle_and_keeps_the_lock():
    bench = do(ready(bench_of()), Tighten())
    assert bench.hub.lock is not None
    for angle in (radians(5), radians(-5)):
        after = do(bench, Trim(angle))
        assert end_play(after) - end_play(bench) == pytest.approx(angle * LEAD, abs=1e-12)
        assert after.hub.lock is not None
        assert after.hub.lock.torque == bench.hub.lock.torque
    assert act(bench, Trim(radians(20))).log[-1].refused


def test_closing_and_opening_the_clamp_leaves_the_hub_as_it_was():
    bench = do(ready(bench_of()), Tighten(), HoldAxle("nothing"))
    for seat in ("dropouts", "spacers on locknuts", "spacer on axle end", "one side in frame"):
        closed = do(bench, FitClamp(seat), CloseClamp())
        assert end_play(closed) < end_play(bench)
        assert end_play(do(closed, OpenClamp(), FitClamp(None))) == end_play(bench)


def test_locked_under_a_clamp_on_the_axle_end_or_before_it_is_the_same_but_for_the_push_on_a_loose_cone():
    before = do(ready(bench_of()), Tighten(), FitClamp("spacer on axle end"), CloseClamp())
    under = do(ready(bench_of()), FitClamp("spacer on axle end"), CloseClamp(), Tighten())
    push = length(under, "clamp_let_go")
    assert push > 0.0
    assert end_play(under) - end_play(before) == pytest.approx(push, abs=1e-12)
    # opened, the hub locked under the clamp is that much looser than one locked without
    assert end_play(do(under, OpenClamp())) - end_play(do(before, OpenClamp())) == pytest.approx(
        push, abs=1e-12
    )


def test_a_clamp_on_the_locknut_bars_the_locknut_and_one_on_the_axle_end_does_not():
    bench = do(ready(bench_of()), Tighten(), HoldAxle("far spanners"))
    barred = do(bench, FitClamp("spacers on locknuts"), CloseClamp())
    assert "clamp" in act(barred, Undo()).log[-1].told
    do(bench, FitClamp("spacer on axle end"), CloseClamp(), Undo())


def test_axle_nuts_drag_a_cone_whose_lock_they_unload_and_no_other():
    nuts = {"clamp_force": (16e3, 16e3), "nut_drag": (radians(5), radians(5))}
    light = do(ready(bench_of(scenario="city-nutted", prior=nuts)), Tighten("light"))
    hard = do(ready(bench_of(scenario="city-nutted", prior=nuts)), Tighten("hard"))
    lead = light.secret.scenario.axle.lead_per_radian
    for bench, drag in ((light, -radians(5) * lead), (hard, 0.0)):
        closed = do(bench, HoldAxle("nothing"), FitClamp("dropouts"), CloseClamp())
        assert length(closed, "nut_drag") == pytest.approx(drag, abs=1e-15)
        opened = do(closed, OpenClamp())
        assert end_play(opened) - end_play(bench) == pytest.approx(drag, abs=1e-12)


def test_a_weak_far_side_gives_way_to_a_hard_hand_and_the_cone_over_there_comes_in():
    bench = bench_of()
    scenario = bench.secret.scenario
    weak = scenario.stack.right.replace(lock_torque=4.0)
    secret = bench.secret
    secret = replace(secret, scenario=scenario.replace(stack=scenario.stack.replace(right=weak)))
    bench = replace(bench, hidden=(secret,))
    bench = do(ready(bench), HoldAxle("far spanners"), Tighten("hard"))
    assert "far side" in bench.log[-1].told
    assert length(bench, "far_side") < 0.0
    assert bench.hub.lock is not None
    assert bench.hub.lock.torque < 25.5
    firm = do(ready(bench_of()), HoldAxle("far spanners"), Tighten("firm"))
    assert length(firm, "far_side") == 0.0


def test_the_cone_stops_on_the_balls():
    bench = ready(bench_of(), out=0.0)
    stopped = do(bench, TurnCone(bench.hub.shown - radians(200)))
    assert "no further" in stopped.log[-1].told
    assert -60e-6 < end_play(stopped) < end_play(bench)
    assert end_play(do(stopped, TurnCone(stopped.hub.shown - radians(200)))) == pytest.approx(
        end_play(stopped), abs=1e-12
    )
