"""The locked joint against springs solved as a system of equations."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.errors import OutOfDomain
from conemodel.physics import joint

gives = st.floats(1e-11, 1e-8)


def stack_force(entry, *, nut_thread, segment, stack, cone_thread):
    """Return the stack's added compression under a unit clamp, from nodes and springs.

    Nodes: cone, nut, axle under the nut; the axle under the cone is the ground. Outward is positive.
    """
    k_stack, k_cone, k_nut, k_segment = (1 / give for give in (stack, cone_thread, nut_thread, segment))
    matrix = np.array(
        [
            [k_cone + k_stack, -k_stack, 0.0],
            [-k_stack, k_stack + k_nut, -k_nut],
            [0.0, -k_nut, k_nut + k_segment],
        ]
    )
    load = {
        "locknut": [0, -1, 0],  # a skewer presses the nut inward
        "axle nut": [0, -1, 1],  # the axle's own end is pulled outward as well
        "axle end": [0, 0, -1],  # the axle's end is pressed inward
    }[entry]
    cone, nut, _ = np.linalg.solve(matrix, load)
    return k_stack * (cone - nut)


@pytest.mark.parametrize(
    ("entry", "share"),
    [
        ("locknut", joint.stack_share),
        ("axle nut", joint.stack_share_nutted),
        ("axle end", joint.stack_share_axle_end),
    ],
)
@given(gives, gives, gives, gives)
def test_share_of_the_clamp_against_springs(entry, share, nut, segment, stack, cone):
    springs = {"nut_thread": nut, "segment": segment, "stack": stack, "cone_thread": cone}
    assert share(**springs) == pytest.approx(stack_force(entry, **springs), rel=1e-6, abs=1e-9)


def test_a_rigid_stack_takes_all_that_the_thread_leaves():
    rigid = {"nut_thread": 1e-10, "segment": 2e-10, "stack": 0.0, "cone_thread": 0.0}
    assert joint.stack_share(**rigid) == 1.0
    assert joint.nut_unloading_force(lock_force=8e3, share=1.0) == np.inf


def test_nut_is_unloaded_where_the_clamp_has_taken_its_whole_force():
    # At T = F/(1 - Φ) the stack has gained Φ T and the nut's thread lost T - Φ T = F.
    share, lock = 0.6, 8e3
    clamp = joint.nut_unloading_force(lock_force=lock, share=share)
    assert lock - clamp * (1 - share) == pytest.approx(0.0, abs=1e-9)
    assert clamp == pytest.approx(20e3)


def test_sections_in_steel_by_hand():
    # Hooke: 100 mm at 206 GPa, Ø9.35/5.1 under 5 kN 0.0503 mm; Ø9/5.1 under 3 kN 0.0337 mm.
    for outer, force, shortening in ((9.35, 5e3, 0.0503), (9.0, 3e3, 0.0337)):
        area = joint.annulus_area(outer=outer * 1e-3, inner=5.1e-3)
        give = joint.section_compliance(length=0.1, area=area, young=206e9)
        assert force * give * 1e3 == pytest.approx(shortening, abs=5e-5)


@pytest.mark.parametrize(
    ("call", "values"),
    [
        (joint.annulus_area, {"outer": 5e-3, "inner": 5e-3}),
        (joint.annulus_area, {"outer": 5e-3, "inner": -1e-3}),
        (joint.section_compliance, {"length": -1.0, "area": 1e-4, "young": 206e9}),
        (joint.section_compliance, {"length": 1.0, "area": 0.0, "young": 206e9}),
        (joint.stack_share, {"nut_thread": 0, "segment": 0, "stack": 0, "cone_thread": 0}),
        (joint.stack_share, {"nut_thread": -1e-9, "segment": 1e-9, "stack": 1e-9, "cone_thread": 1e-9}),
        (joint.nut_unloading_force, {"lock_force": 8e3, "share": 1.1}),
        (
            joint.engaged_thread_compliance,
            {"diameter": 1e-2, "young": 206e9, "root_area": 4e-5, "core_share": 1.5},
        ),
    ],
)
def test_what_cannot_be_is_refused(call, values):
    with pytest.raises(OutOfDomain):
        call(**values)
