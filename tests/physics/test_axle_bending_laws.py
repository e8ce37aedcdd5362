"""An axle between dropouts out of parallel: beam formulas, laws of its limits, and a beam cut into elements."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize

from conemodel.base.errors import OutOfDomain
from conemodel.physics import axle_bending as bending

AXLE = {"span": 0.135, "rigidity": 206e9 * 257.6e-12}
HELD = {"frame_compliance": 0.0, "capacity": np.inf}


@pytest.mark.parametrize(("degree", "moment"), [(0.5, 6.86), (1.0, 13.72), (2.0, 27.45)])
def test_faces_toed_in_alike_bow_the_axle_into_an_arc_by_hand(degree, moment):
    # M = 2 E I θ/l: 2 · 53.07 N·m² · 0.01745/0.135 m.
    angle = np.radians(degree)
    found = bending.bend_between_dropouts(left_face=angle, right_face=-angle, **AXLE, **HELD)
    assert found.left_moment == pytest.approx(moment, abs=0.01)
    assert found.right_moment == -found.left_moment
    along = bending.axle_slope(left_slope=angle, right_slope=-angle, place=np.array([0, 0.25, 0.5, 1]))
    assert along == pytest.approx(np.array([1, 0.5, 0, -1]) * angle)


def test_one_face_alone_needs_twice_the_moment_of_a_propped_beam_end():
    # Slope and deflection: 4 E I θ/l where it turns, 2 E I θ/l at the end held square.
    found = bending.bend_between_dropouts(left_face=0.01, right_face=0.0, **AXLE, **HELD)
    stiffness = AXLE["rigidity"] / AXLE["span"]
    assert found.left_moment == pytest.approx(4 * stiffness * 0.01)
    assert found.right_moment == pytest.approx(2 * stiffness * 0.01)


faces = st.floats(-0.04, 0.04)


@given(faces, faces, st.floats(0, 2e-3), st.floats(0.1, 60))
def test_angles_add_up_moments_stay_within_and_a_gap_is_open_only_at_the_limit(left, right, compliance, most):
    found = bending.bend_between_dropouts(
        left_face=left, right_face=right, **AXLE, frame_compliance=compliance, capacity=most
    )
    for face, side in ((left, "left"), (right, "right")):
        moment, slope, gap = (getattr(found, f"{side}_{name}") for name in ("moment", "slope", "gap"))
        assert slope + compliance * moment + gap == pytest.approx(face, abs=1e-12)
        assert abs(moment) <= most * (1 + 1e-12)
        if abs(gap) > 1e-9:  # the clamp pulls the gap shut with all it has
            assert moment == pytest.approx(np.sign(gap) * most)


@given(faces, faces, st.floats(0, 2e-3), st.floats(1, 60))
def test_a_mirror_exchanges_the_sides(left, right, compliance, most):
    rest = {**AXLE, "frame_compliance": compliance, "capacity": most}
    one = bending.bend_between_dropouts(left_face=left, right_face=right, **rest)
    other = bending.bend_between_dropouts(left_face=-right, right_face=-left, **rest)
    assert one.left_moment == pytest.approx(-other.right_moment, abs=1e-9)
    assert one.left_gap == pytest.approx(-other.right_gap, abs=1e-12)


def element_axle(left, right, compliance, most, parts=40):
    """Return end moments of a chain of beam elements whose dropouts slip at `most`, by direct minimisation."""
    step = AXLE["span"] / parts
    e = AXLE["rigidity"] / step**3
    one = e * np.array(
        [
            [12, 6 * step, -12, 6 * step],
            [6 * step, 4 * step**2, -6 * step, 2 * step**2],
            [-12, -6 * step, 12, -6 * step],
            [6 * step, 2 * step**2, -6 * step, 4 * step**2],
        ]
    )
    whole = np.zeros((2 * parts + 2, 2 * parts + 2))
    for n in range(parts):
        whole[2 * n : 2 * n + 4, 2 * n : 2 * n + 4] += one
    keep = [n for n in range(2 * parts + 2) if n not in (0, 2 * parts)]  # both ends stay where they are
    flexibility = np.linalg.inv(whole[np.ix_(keep, keep)])[np.ix_((0, -1), (0, -1))] + compliance * np.eye(2)
    face = np.array([left, right])

    def energy_and_slope(moments):
        return moments @ flexibility @ moments / 2 - face @ moments, flexibility @ moments - face

    found = minimize(energy_and_slope, [0.0, 0.0], jac=True, bounds=[(-most, most)] * 2, tol=1e-14)
    return found.x


def test_a_hundred_random_axles_against_a_beam_cut_into_elements():
    random = np.random.default_rng(10)
    left, right = random.uniform(-0.035, 0.035, (2, 100))
    compliance, most = random.uniform(0, 1e-3, 100), random.uniform(3, 40, 100)
    found = bending.bend_between_dropouts(
        left_face=left, right_face=right, **AXLE, frame_compliance=compliance, capacity=most
    )
    expected = np.array([element_axle(*case) for case in zip(left, right, compliance, most, strict=True)])
    assert (np.abs(expected) > 0.99 * most[:, None]).any()  # some do slip
    assert np.stack(found[:2], axis=-1) == pytest.approx(expected, abs=0.02)


def test_a_soft_frame_takes_the_angle_itself():
    stiff, soft = (
        bending.bend_between_dropouts(
            left_face=0.01, right_face=-0.01, **AXLE, frame_compliance=give, capacity=np.inf
        ).left_slope
        for give in (0.0, 1.0)
    )
    assert stiff == pytest.approx(0.01)
    assert soft < 0.0002


def test_slopes_are_those_of_a_beam_whose_ends_stay():
    place = np.linspace(0, 1, 2001)
    slope = np.asarray(bending.axle_slope(left_slope=0.01, right_slope=0.003, place=place))
    assert np.trapezoid(slope, place) == pytest.approx(0.0, abs=1e-8)
    assert (slope[0], slope[-1]) == pytest.approx((0.01, 0.003))


def test_a_solid_bar_and_values_out_of_range():
    # π D⁴/64 of 10 mm: 490.87 mm⁴.
    assert bending.annulus_second_moment(outer=10e-3, inner=0.0) == pytest.approx(490.87e-12, rel=1e-5)
    with pytest.raises(OutOfDomain, match="outer"):
        bending.annulus_second_moment(outer=5e-3, inner=5e-3)
    with pytest.raises(OutOfDomain, match="place"):
        bending.axle_slope(left_slope=0.0, right_slope=0.0, place=1.1)
    with pytest.raises(OutOfDomain):
        bending.face_moment_capacity(clamp_force=-1.0, face_radius=7e-3)
    good = {"left_face": 0.0, "right_face": 0.0, **AXLE, **HELD}
    for wrong in ({"span": 0.0}, {"rigidity": 0.0}, {"frame_compliance": -1.0}, {"capacity": np.nan}):
        with pytest.raises(OutOfDomain):
            bending.bend_between_dropouts(**good | wrong)
