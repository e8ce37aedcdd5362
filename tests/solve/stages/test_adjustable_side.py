"""The state of the adjustable side: end play follows from it, whoever did what led there.

Expected values: laws (end play is a state; the locknut takes slack once), and the network of springs in
`spring_and_beam`, which shares no code with the program.
"""

from math import pi, radians

import numpy as np
import pytest

from conemodel.parts import library
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario
from conemodel.solve.stages.adjustable_side import find_adjustable_side
from conemodel.solve.stages.inputs import inputs_over
from conemodel.solve.stages.locknut import SHARE_OF_NUT, lock_up
from conemodel.solve.stages.terms import setting_terms, tighten
from conemodel.tasks.practice.actions import HoldAxle, HoldCone, RunUp, ScrewIn, Tighten, TurnCone, Undo
from tests.solve.stages.spring_and_beam.joint import LockedSide
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, end_play

TECHNIQUES = tuple(SHARE_OF_NUT)
LEAD = 1e-3 / (2 * pi)


def rear(**setting: object) -> Scenario:
    return load_scenario(library.SCENARIOS / "touring-rear.toml").with_setting(**setting)


@pytest.mark.parametrize("technique", TECHNIQUES)
def test_contact_is_contact_however_it_was_found_and_snug_ends_looser_by_the_slack(technique):
    loose, snug = (
        setting_terms(rear(technique=technique, contact_found=how)) for how in ("nut loose", "nut snug")
    )
    assert snug.end_play("contact") == loose.end_play("contact")
    slack = rear().axle.backlash
    for stage in ("backed_off", "locked", "clamped", "ridden"):
        assert snug.end_play(stage) - loose.end_play(stage) == pytest.approx(slack, abs=1e-12)


@pytest.mark.parametrize("how", ["nut loose", "nut snug"])
@pytest.mark.parametrize("technique", TECHNIQUES)
def test_terms_add_up_to_the_state_they_lead_to(technique, how):
    scenario = rear(technique=technique, contact_found=how)
    terms, joint = setting_terms(scenario), lock_up(scenario)
    contact = find_adjustable_side(how, slack=scenario.axle.backlash)
    out = scenario.setting.back_off * scenario.axle.lead_per_radian
    side = contact.loosened().turned(out)
    before = terms.end_play("backed_off")
    locked, _ = tighten(scenario, side, joint, nut=SHARE_OF_NUT[technique], before=before)
    # from the state alone: the cone's place less the slack and the thread's stretch, against finger contact
    moved = (locked.cone - contact.cone) - (locked.slack_taken - contact.slack_taken)
    stretch = (locked.lock_force - contact.lock_force) * joint.compliances.cone_thread
    assert terms.end_play("locked") == pytest.approx(terms.end_play("contact") + moved - stretch, abs=1e-15)


@pytest.mark.parametrize("how", ["nut loose", "nut snug"])
@pytest.mark.parametrize("technique", TECHNIQUES)
def test_the_same_acts_end_alike_for_one_hub_for_many_and_on_the_bench(technique, how):
    bench = do(bench_of(), HoldAxle("vice"), HoldCone())
    if how == "nut snug":
        # the nut comes up where there is room for it, then both go in together
        bench = do(bench, ScrewIn(), TurnCone(bench.hub.shown + radians(120)), RunUp())
    bench = do(bench, ScrewIn())
    found_at, zero = end_play(bench), bench.hub.shown
    bench = do(bench, Undo()) if how == "nut snug" else bench
    bench = do(bench, TurnCone(zero + radians(90)))
    scenario = bench.secret.scenario.with_setting(
        technique=technique, contact_found=how, lock_torque=120 * 0.15, drift=0.0
    )
    out = end_play(bench) - found_at - (scenario.axle.backlash if how == "nut snug" else 0.0)
    scenario = scenario.with_setting(back_off=out / scenario.axle.lead_per_radian)
    one = setting_terms(scenario)
    assert found_at == pytest.approx(one.end_play("contact"), abs=1e-9)
    many = setting_terms(
        scenario,
        inputs_over(scenario, back_off=np.full(3, scenario.setting.back_off)),
        contact=np.full(3, one.end_play("contact")),
    )
    bench = do(bench, Tighten("firm", technique))
    assert end_play(bench) == pytest.approx(one.end_play("locked"), abs=1e-9)
    assert many.end_play("locked") == pytest.approx(one.end_play("locked"), abs=1e-15)


def test_what_was_snug_and_locked_gives_all_its_slack_back_when_undone():
    bench = do(bench_of(), HoldAxle("vice"), HoldCone(), ScrewIn())
    bench = do(bench, TurnCone(bench.hub.shown + radians(150)))
    loose = end_play(bench)
    snug = do(bench, RunUp())
    assert loose - end_play(snug) == pytest.approx(bench.secret.scenario.axle.backlash, abs=1e-12)
    assert end_play(do(snug, Tighten())) == pytest.approx(end_play(do(bench, Tighten())), abs=1e-12)
    assert end_play(do(snug, Tighten(), Undo())) == pytest.approx(loose, abs=1e-12)


def test_a_nut_that_is_not_tightened_takes_no_slack_and_turns_no_cone():
    terms = setting_terms(rear(lock_torque=0.0))
    assert terms.end_play("locked") == terms.end_play("backed_off")


def test_a_cone_that_stays_by_its_own_friction_does_not_drift():
    """Holding torque below zero: the thread resists more than the face drags. A balance of torques, [VDI2230]."""
    scenario = rear(cone_held=False)
    stack = scenario.stack.left.replace(keyed_washer=False, thread_friction=0.3, face_friction=0.03)
    scenario = scenario.replace(stack=scenario.stack.replace(left=stack))
    assert lock_up(scenario).holding_torque < 0.0
    drift = {term.key: term.length for term in setting_terms(scenario).terms["locked"]}["drift"]
    assert drift == 0.0


@pytest.mark.parametrize("seed", range(25))
@pytest.mark.parametrize("technique", TECHNIQUES)
def test_contact_found_snug_or_loose_ends_where_springs_with_flanks_end(technique, seed):
    random = np.random.default_rng(seed)
    slack = random.uniform(15e-6, 166e-6)
    scenario = rear(technique=technique, lock_torque=random.uniform(8, 25), drift=0.0)
    scenario = scenario.replace(
        axle=scenario.axle.replace(thread_clearance=2 * slack * np.tan(np.pi / 6) / 2)
    )
    joint = lock_up(scenario)
    give = joint.compliances
    springs = LockedSide(
        cone_thread=give.cone_thread,
        nut_thread=give.nut_thread,
        segment=give.segment,
        stack=give.stack,
        cone_backlash=scenario.axle.backlash,
        nut_backlash=scenario.axle.backlash,
    )
    locked = springs.lock(force=joint.force, technique=technique)
    travel = locked.at_rest()[0] - springs.at_rest()[0]
    terms = setting_terms(scenario)
    assert terms.end_play("locked") - terms.end_play("backed_off") == pytest.approx(
        travel, rel=0.02, abs=2e-9
    )
