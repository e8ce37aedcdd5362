"""Turning resistance after [Palmgren1959], as engineering manuals print it (seen), and the spin of the balls."""

import numpy as np
import pytest

from conemodel.physics.friction import (
    BOOK_VISCOSITY_SPEED,
    angular_contact_f1,
    palmgren_load,
    palmgren_viscous,
    spinning_moment,
)
from conemodel.physics.hertz import contact, ellipse, equivalent_modulus
from conemodel.physics.race_curvature import cone_curvature


def viscous(book_viscosity_speed, f0=2.0):
    return 1e3 * palmgren_viscous(
        f0=f0, viscosity_speed=book_viscosity_speed / BOOK_VISCOSITY_SPEED, pitch_diameter=20e-3
    )


def test_the_branches_where_they_meet():
    # By hand at dm 20 mm, f0 2: 160e-7·2·8000 = 0.2560 N·mm below, 1e-7·2·2000^(2/3)·8000 = 0.2540 from 2000 up.
    assert viscous(1999.0) == pytest.approx(0.2560, abs=5e-5)
    assert viscous(2000.001) == pytest.approx(0.2540, abs=5e-5)


def test_slow_grease_drags_alike_at_any_speed():
    assert viscous(np.array([0.0, 10.0, 1000.0])) == pytest.approx([0.2560] * 3, abs=5e-5)


def test_fast_oil_by_hand():
    # ν 15 mm²/s at 10000 rev/min: 1e-7·2·150000^(2/3)·8000 = 4.517 N·mm.
    assert viscous(150e3) == pytest.approx(4.517, abs=5e-4)


def test_book_unit():
    # 1 mm²/s · 1 rev/min = 1e-6 m²/s · 2π/60 rad/s.
    assert pytest.approx(1e-6 * 2 * np.pi / 60, rel=1e-12) == 1 / BOOK_VISCOSITY_SPEED


def test_load_part_by_hand():
    # f1 = 0.001·(0.1)^0.33 = 4.677e-4; 1000 N on dm 20 mm: 9.35 N·mm.
    f1 = angular_contact_f1(static_ratio=0.1)
    assert f1 == pytest.approx(4.677e-4, rel=1e-3)
    assert palmgren_load(f1=f1, load=1000.0, pitch_diameter=20e-3) == pytest.approx(9.35e-3, abs=5e-6)


def spin_by_quadrature(friction, load, a, b):
    """Friction times pressure times distance over the ellipse, summed in plain polar steps."""
    # On a ray ∫ p r² dr is p0 π/16 reach³; the sum over a period of a smooth function converges at once.
    angle = np.arange(4096) * 2 * np.pi / 4096
    reach = a * b / np.hypot(b * np.cos(angle), a * np.sin(angle))
    peak = 1.5 * load / (np.pi * a * b)
    return friction * peak * np.pi / 16 * np.sum(reach**3) * 2 * np.pi / 4096


@pytest.mark.parametrize("k", [1.0, 2.0, 7.0, 20.0])
def test_spinning_moment_is_friction_times_distance(k):
    found = spinning_moment(friction=0.15, load=50.0, semi_major=0.4e-3, ellipticity=k)
    assert found == pytest.approx(spin_by_quadrature(0.15, 50.0, 0.4e-3, 0.4e-3 / k), rel=1e-9)


@pytest.mark.parametrize(
    ("axial", "angle", "pressure", "torque"),
    [(100, 40.3135, 784.3, 1.8150), (500, 40.8962, 1334.1, 15.4546), (1000, 41.3953, 1673.5, 38.8087)],
)
def test_spin_of_a_hub_row(axial, angle, pressure, torque):
    # Nine 6.35 balls on 20, cone 0.52, E 206e3, μ 0.15: M = Z sin α · 3/8 μ Q a E(k) (seen, a maker's catalogue);
    # angles, pressures and torques computed twice outside the project.
    alpha = np.radians(angle)
    load = axial / (9 * np.sin(alpha))
    curvature = cone_curvature(ball_diameter=6.35e-3, conformity=0.52, gamma=6.35 * np.cos(alpha) / 20)
    touch = contact(load=load, curvature=curvature, modulus=equivalent_modulus(young=206e9, poisson=0.3))
    assert touch.peak_pressure / 1e6 == pytest.approx(pressure, abs=0.06)
    moment = spinning_moment(
        friction=0.15,
        load=load,
        semi_major=touch.semi_major,
        ellipticity=ellipse(curvature.difference).ellipticity,
    )
    assert 9 * np.sin(alpha) * moment * 1e3 == pytest.approx(torque, rel=1e-4)
