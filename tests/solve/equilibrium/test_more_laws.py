"""Laws over many random cases: Hertz goes with the cube root of the load; small pushes answer each other alike."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conemodel.parts.bearing import Pair, Row
from conemodel.physics.hertz import contact, equivalent_modulus
from conemodel.physics.race_curvature import cone_curvature
from conemodel.solve.equilibrium.pair import solve_pair

STEEL = equivalent_modulus(young=208e9, poisson=0.3)


@given(
    load=st.floats(0.01, 5000),
    factor=st.floats(1.01, 1000),
    f=st.floats(0.515, 0.7),
    gamma=st.floats(0, 0.45),
)
def test_pressure_and_size_go_with_the_cube_root_of_the_load(load, factor, f, gamma):
    # Hertz, closed form: a, b and p as Q^(1/3), approach as Q^(2/3).
    curvature = cone_curvature(ball_diameter=6.35e-3, conformity=f, gamma=gamma)
    one, more = (contact(load=q, curvature=curvature, modulus=STEEL) for q in (load, factor * load))
    root = factor ** (1 / 3)
    for name, power in (("peak_pressure", 1), ("semi_major", 1), ("semi_minor", 1), ("approach", 2)):
        assert getattr(more, name) == pytest.approx(getattr(one, name) * root**power, rel=1e-9)


@settings(max_examples=15)
@given(
    end_play=st.floats(-6e-5, -1e-5),
    angle=st.floats(25, 55),
    compliance=st.floats(0, 3e-8),
    phase=st.floats(0, 1),
)
def test_the_answer_to_small_pushes_is_symmetric(end_play, angle, compliance, phase):
    # Betti: what push j moves along i is what push i moves along j. Differences both ways of 1 N and 0.01 N·m on a
    # preloaded hub, in units in which both count alike.
    left = Row(
        ball_diameter=6.35e-3,
        ball_count=9,
        pitch_diameter=20e-3,
        contact_angle=np.radians(angle),
        phase=phase,
    )
    right = left.replace(ball_diameter=4.7625e-3, ball_count=11, phase=0.0)
    pair = Pair(left=left, right=right, row_spacing=55e-3, axial_compliance=compliance)
    push = np.diag([1.0, 1.0, 1.0, 0.01, 0.01])
    rest = np.array([30.0, 80.0, 0.0, 0.0, 0.5])
    up, down = (solve_pair(pair, end_play=end_play, load=rest + way * push) for way in (1, -1))
    assert up.converged.all()
    assert down.converged.all()
    answer = (up.shell_motion - down.shell_motion) / 2 * np.diag(push)
    assert answer == pytest.approx(answer.T, abs=1e-4 * np.abs(answer).max())
    assert np.linalg.eigvalsh((answer + answer.T) / 2).min() > 0
