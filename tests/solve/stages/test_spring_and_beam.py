"""The second model of joint and axle, held against closed forms before anything is held against it.

Textbooks from memory, pages not seen: Timoshenko, Strength of Materials (bars, bent beams); Volkersen's joint, its
stress carried by shear along the lap; VDI 2230 (load factor of a clamped joint).
"""

from dataclasses import replace
from math import sqrt, tanh

import numpy as np
import pytest

from tests.solve.stages.spring_and_beam.axle import (
    Beam,
    ClampedHalf,
    bar_shortening,
    moment_opening_face,
    ring_inertia,
)
from tests.solve.stages.spring_and_beam.joint import (
    GROUND,
    SHARE_OF_NUT,
    LockedSide,
    Spring,
    force_of_torque,
    settle,
)

GIVE = {"cone_thread": 5e-10, "nut_thread": 7e-10, "segment": 1.5e-9, "stack": 4e-10}
SIDE = LockedSide(**GIVE, cone_backlash=90e-6, nut_backlash=70e-6)
BEHIND_CONE = GIVE["nut_thread"] + GIVE["segment"] + GIVE["stack"]
STEEL = 206e9
NEAR = 1e-9
"""A nanometre: what the seating force and the tether move [m]."""


def test_springs_in_series_and_side_by_side_add_as_hooke_says():
    chain = [Spring(start=GROUND, end=0, compliance=2e-9), Spring(start=0, end=1, compliance=3e-9)]
    assert settle(chain, np.array([0.0, 100.0]))[1] == pytest.approx(5e-7)
    doubled = [*chain, Spring(start=GROUND, end=1, compliance=5e-9)]
    assert settle(doubled, np.array([0.0, 100.0]))[1] == pytest.approx(2.5e-7)


def test_a_spring_with_a_gap_acts_past_either_end_of_it():
    thread = [Spring(start=GROUND, end=0, compliance=1e-9, low=-50e-6, high=0.0)]
    assert settle(thread, np.array([1000.0]))[0] == pytest.approx(1e-6)
    assert settle(thread, np.array([-1000.0]))[0] == pytest.approx(-51e-6)


@pytest.mark.parametrize("force", [500.0, 8000.0])
@pytest.mark.parametrize("technique", list(SHARE_OF_NUT))
def test_the_cone_travels_as_the_closing_is_shared(technique, force):
    """Leads turned = slack + every part's stretch; the cone keeps what its own turn did not give back. By hand."""
    nut = SHARE_OF_NUT[technique]
    closing = SIDE.cone_backlash + force * (SIDE.cone_thread + BEHIND_CONE)
    by_hand = (1 - nut) * closing - SIDE.cone_backlash - force * SIDE.cone_thread
    locked = SIDE.lock(force=force, technique=technique)
    travel = locked.at_rest()[0] - SIDE.at_rest()[0]
    assert travel == pytest.approx(by_hand, abs=NEAR)
    assert locked.at_rest()[1] == pytest.approx(force, rel=1e-4)


def test_contact_found_with_the_nut_snug_leaves_no_slack_to_take():
    snug, loose = SIDE.run_snug(), SIDE
    assert snug.at_rest()[1] == pytest.approx(0.0, abs=0.1)
    # end play at contact is counted from where the balls pinch the cone, however it came to stand there
    travels = [
        side.lock(force=8e3, technique="nut turned").at_rest()[0] - side.at_rest()[0]
        for side in (snug, loose)
    ]
    assert travels[0] - travels[1] == pytest.approx(SIDE.cone_backlash, abs=NEAR)


def test_a_nut_that_is_not_tightened_takes_no_slack_but_the_clamp_then_does():
    unlocked = SIDE.lock(force=0.0, technique="nut turned")
    assert unlocked.at_rest()[0] == pytest.approx(0.0, abs=NEAR)
    # the nut reaches its own inboard flank first, 70 of the 90 µm; then both give side by side until the cone is there
    assert unlocked.clamped_travel(force=5e3, entry="locknut") < -SIDE.nut_backlash


@pytest.mark.parametrize(
    ("entry", "parts"),
    [("locknut", ("nut_thread", "segment")), ("axle nut", ("nut_thread",)), ("axle end", ("segment",))],
)
def test_a_locked_joint_shares_the_clamp_as_its_compliances_do(entry, parts):
    """VDI 2230: the load factor of two paths side by side."""
    share = sum(GIVE[part] for part in parts) / sum(GIVE.values())
    locked = SIDE.lock(force=8e3, technique="nut turned")
    travel = locked.clamped_travel(force=5e3, entry=entry)
    assert travel == pytest.approx(-5e3 * share * GIVE["cone_thread"], rel=1e-4)


def test_a_clamp_too_strong_for_the_lock_goes_through_the_stack_alone():
    locked = SIDE.lock(force=1e3, technique="nut turned")
    travel = locked.clamped_travel(force=9e3, entry="locknut")
    assert travel == pytest.approx(-(9e3 - 1e3) * GIVE["cone_thread"], rel=1e-4)


def test_a_locking_torque_gives_the_published_bolt_force():
    """VDI 2230, M8 × 1.25 of class 8.8 tightened to 27.3 N·m at friction 0.14: 18.1 kN. Memory, page not seen."""
    force = force_of_torque(torque=27.3, diameter=8e-3, pitch=1.25e-3, friction=0.14, face=5.4e-3)
    assert force == pytest.approx(18.1e3, rel=0.03)


def test_a_stepped_bar_shortens_by_hookes_law():
    found = bar_shortening(force=5e3, lengths=[0.06, 0.04], areas=[58e-6, 40e-6], young=STEEL)
    assert found == pytest.approx(5e3 / STEEL * (0.06 / 58e-6 + 0.04 / 40e-6), rel=1e-9)


def test_a_rigid_cone_hands_its_force_over_as_volkersen_says():
    """Rigid outer part on a bar, one mesh of length 2 m: bar's own length plus 1/(EA λ tanh 2 λ m)."""
    axle, teeth, mesh = 40e-6, 2.5e-10, 8e-3
    half = ClampedHalf(
        cone=(0.03, 0.03 + mesh),
        nut=(0.03 + mesh, 0.03 + 2 * mesh),
        race=0.03,
        young=STEEL,
        axle_area=axle,
        cone_area=1.0,
        stack_area=1.0,
        teeth=teeth,
    )
    decay = sqrt(1 / (teeth * mesh * STEEL * axle))
    by_hand = 5e3 / (STEEL * axle) * (0.03 + 1 / (decay * tanh(2 * mesh * decay)))
    assert half.race_travel(force=5e3) == pytest.approx(by_hand, rel=1e-3)


def test_a_finer_mesh_gives_the_same_clamp_term():
    coarse = ClampedHalf(
        cone=(0.027, 0.043),
        nut=(0.045, 0.05),
        race=0.027,
        young=STEEL,
        axle_area=40e-6,
        cone_area=98e-6,
        stack_area=148e-6,
        teeth=2.5e-10,
        pitch_of_mesh=2e-4,
    )
    fine = replace(coarse, pitch_of_mesh=5e-5)
    assert coarse.race_travel(force=5e3) == pytest.approx(fine.race_travel(force=5e3), rel=1e-4)


EI = STEEL * ring_inertia(outer=8.773e-3, inner=5.1e-3)


def test_two_end_moments_bow_a_beam_into_an_arc():
    """M = 2 E I θ/L; the slope falls evenly from one end to the other. Timoshenko."""
    bow = Beam(lengths=[0.135], bending=[EI]).bow(angles=(0.02, -0.02))
    assert bow.moments == pytest.approx([2 * EI * 0.02 / 0.135, -2 * EI * 0.02 / 0.135])
    assert bow.slope(0.0325) == pytest.approx(0.02 * 0.07 / 0.135)
    assert bow.shape[::2].max() == pytest.approx(0.02 * 0.135 / 4)


def test_one_end_turned_and_the_other_held():
    """Near end 4 E I θ/L, far end half of it. Timoshenko."""
    moments = Beam(lengths=[0.1], bending=[EI]).bow(angles=(0.01, 0.0)).moments
    assert moments == pytest.approx([4 * EI * 0.01 / 0.1, 2 * EI * 0.01 / 0.1])


def test_a_stiff_sleeve_at_either_end_turns_the_cones_with_the_dropouts():
    """Moment area: θ = M (a/EI_end + c/2 EI); with rigid ends the cones' slope is the dropouts' own."""
    stepped = Beam(lengths=[0.0325, 0.07, 0.0325], bending=[3 * EI, EI, 3 * EI])
    bow = stepped.bow(angles=(0.01, -0.01))
    moment = 0.01 / (0.0325 / (3 * EI) + 0.035 / EI)
    assert bow.moments[0] == pytest.approx(moment)
    assert bow.slope(0.0325) == pytest.approx(moment * 0.035 / EI)
    rigid = Beam(lengths=[0.0325, 0.07, 0.0325], bending=[1e4 * EI, EI, 1e4 * EI])
    assert rigid.bow(angles=(0.01, -0.01)).slope(0.0325) == pytest.approx(0.01, rel=1e-3)


def test_a_frame_that_turns_is_a_spring_in_series_and_a_clamp_bounds_the_moment():
    beam = Beam(lengths=[0.135], bending=[EI])
    yielding = 0.135 / (2 * EI)
    assert beam.bow(angles=(0.02, -0.02), yielding=yielding).slope(0.0) == pytest.approx(0.01)
    bounded = beam.bow(angles=(0.2, -0.2), most=20.0)
    assert bounded.slope(0.0) == pytest.approx(20.0 * yielding)


def test_a_face_opens_when_the_moment_leaves_its_core():
    """Solid disc: its core reaches d/8 from the middle. Timoshenko."""
    assert moment_opening_face(force=1e3, outer=16e-3, inner=0.0) == pytest.approx(1e3 * 2e-3)
