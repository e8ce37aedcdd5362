"""The quick-release cam against work and a swept lever; other clamps against the screw law."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.errors import OutOfDomain
from conemodel.physics import clamp
from conemodel.physics.tightening import lock_force

CAM = {"eccentricity": 1.25e-3, "stiffness": 13e6}
RUB = {"cam_friction": 0.12, "cam_radius": 8e-3}


@pytest.mark.parametrize(("pickup", "force"), [(45, 4.7595e3), (60, 8.125e3), (90, 16.25e3)])
def test_force_by_hand(pickup, force):
    # 13 kN/mm · 1.25 mm · (1 - cos φ).
    found = clamp.quick_release_force(pickup_angle=np.radians(pickup), closed_angle=0.0, **CAM)
    assert found == pytest.approx(force, abs=1)


@given(st.floats(0.35, np.pi / 2), st.floats(-0.3, 0.3))
def test_without_friction_the_hand_s_work_is_stored_in_the_spring(pickup, closed):
    path = np.linspace(closed, pickup, 4001)
    # past the greatest lift the lever gives back what it took, so the integral runs on through
    force = CAM["stiffness"] * CAM["eccentricity"] * (np.cos(path) - np.cos(pickup))
    torque = force * CAM["eccentricity"] * np.sin(path)
    reached = clamp.quick_release_force(pickup_angle=pickup, closed_angle=closed, **CAM)
    work = np.trapezoid(torque, path)
    assert work == pytest.approx(max(force[0], 0.0) ** 2 / (2 * CAM["stiffness"]), rel=1e-3, abs=1e-9)
    assert reached == pytest.approx(max(force[0], 0.0))


def swept_limit(hand_torque, closed, friction):
    """Return the largest closed force whose lever, swept in small steps, never asks for more than the hand has."""
    sweep = np.linspace(max(closed, 0.0), np.pi / 2, 20001)
    least, most = 0.0, 3e5
    for _ in range(60):
        force = (least + most) / 2
        along = np.maximum(
            force - CAM["stiffness"] * CAM["eccentricity"] * (np.cos(closed) - np.cos(sweep)), 0.0
        )
        torque = along * (CAM["eccentricity"] * np.sin(sweep) + friction * RUB["cam_radius"])
        least, most = (force, most) if np.max(torque) <= hand_torque else (least, force)
    return least


@pytest.mark.parametrize("hand_torque", [1.0, 5.0, 12.0, 30.0])
@pytest.mark.parametrize("closed", [0.0, 0.2, -0.15])
@pytest.mark.parametrize("friction", [0.05, 0.12, 0.3])
def test_hand_limit_against_a_swept_lever(hand_torque, closed, friction):
    found = clamp.hand_limited_force(
        hand_torque=hand_torque,
        closed_angle=closed,
        cam_friction=friction,
        cam_radius=RUB["cam_radius"],
        **CAM,
    )
    assert found == pytest.approx(swept_limit(hand_torque, closed, friction), rel=1e-6)


def test_hand_limit_broadcasts():
    torques = np.array([1.0, 5.0, 12.0])
    together = clamp.hand_limited_force(hand_torque=torques, closed_angle=0.0, **RUB, **CAM)
    alone = [clamp.hand_limited_force(hand_torque=t, closed_angle=0.0, **RUB, **CAM) for t in torques]
    assert together == pytest.approx(alone, rel=1e-14)


def test_a_lever_that_is_never_met_clamps_nothing():
    assert clamp.quick_release_force(pickup_angle=0.1, closed_angle=0.3, **CAM) == 0.0


def test_rod_yields_at_its_stress_area():
    # M5: stress area 14.2 mm² in every bolt table; near 9 kN at 640 MPa.
    found = clamp.skewer_yield_force(diameter=5e-3, pitch=0.8e-3, yield_strength=640e6)
    assert found / 640e6 * 1e6 == pytest.approx(14.2, abs=0.05)


def test_through_bolt_by_hand():
    # M12×1.5, 12 N·m, μ 0.12 on a 9 mm face radius: arm 0.2387 + 0.7641 + 1.08 = 2.0828 mm, so 5.76 kN.
    found = lock_force(
        torque=12.0,
        diameter=12e-3,
        pitch=1.5e-3,
        thread_friction=0.12,
        face_friction=0.12,
        face_radius=9e-3,
    )
    assert found == pytest.approx(5.761e3, rel=1e-3)


@pytest.mark.parametrize(
    ("call", "values"),
    [
        (clamp.quick_release_force, {"pickup_angle": 4.0, "closed_angle": 0.0, **CAM}),
        (clamp.quick_release_force, {"pickup_angle": 1.0, "closed_angle": 2.0, **CAM}),
        (clamp.quick_release_force, {"pickup_angle": 1.0, "closed_angle": 0.0, **CAM, "stiffness": -1.0}),
        (clamp.hand_limited_force, {"hand_torque": -1.0, "closed_angle": 0.0, **RUB, **CAM}),
        (clamp.hand_limited_force, {"hand_torque": 1.0, "closed_angle": 0.0, **RUB, **CAM, "stiffness": 0.0}),
        (clamp.required_force_against_removal, {"removal_force": 2300.0, "friction": 0.0, "faces": 4}),
        (clamp.required_force_against_removal, {"removal_force": 2300.0, "friction": 0.2, "faces": 0}),
        (clamp.skewer_yield_force, {"diameter": 5e-3, "pitch": 0.8e-3, "yield_strength": -1.0}),
    ],
)
def test_what_cannot_be_is_refused(call, values):
    with pytest.raises(OutOfDomain):
        call(**values)
