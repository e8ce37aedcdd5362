"""The locked joint: what locking puts into the axle."""

import pytest

import conemodel as cm
from conemodel.parts import library

FOLDER = library.SCENARIOS


def test_a_key_alone_puts_the_whole_locking_torque_into_the_axle():
    # Balance of torques on nut, washer, cone and axle together: only what holds the axle is left against the
    # spanner on the nut. Far side by hand: 2 F μ d2/(2 cos 30°) = 1.296 mm × 9634 N = 12.5 N·m, below the 15 N·m
    # both sides are locked with, so spanners over there cannot hold it.
    scenario = cm.load_scenario(FOLDER / "touring-rear.toml").with_setting(axle_held="far spanners")
    held, keyed = cm.predict(scenario), cm.predict(scenario.with_setting(cone_held=False))
    assert not held.joint.far_side_slips
    assert keyed.joint.axle_torque == pytest.approx(15.0)
    assert keyed.joint.far_side_slips
    assert "Lock the far side first" in keyed.verdict.sentence
