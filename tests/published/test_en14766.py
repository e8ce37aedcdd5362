"""What holds a wheel by friction against the removal force of [EN14766] 4.10.4: 2300 N over both axle ends (seen)."""

import pytest

from conemodel.physics.clamp import required_force_against_removal


@pytest.mark.parametrize(("friction", "force"), [(0.15, 3.8e3), (0.20, 2.9e3), (0.30, 1.9e3)])
def test_clamp_force_against_removal(friction, force):
    # Closed form: two rubbing faces a side, 2300/(4 μ).
    found = required_force_against_removal(removal_force=2300.0, friction=friction, faces=4)
    assert found == pytest.approx(force, abs=50)
