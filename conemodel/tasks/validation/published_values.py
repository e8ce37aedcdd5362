"""Published values, each beside what this program computes for it when asked.

Only values that stand outside the project are here; nothing is stored that the program has computed itself.
"""

from collections.abc import Iterator
from functools import lru_cache
from math import cos, radians

import numpy as np

from conemodel.parts.bearing import Pair, Row
from conemodel.physics import hertz
from conemodel.physics.clamp import required_force_against_removal
from conemodel.physics.friction import (
    BOOK_VISCOSITY_SPEED,
    SLOW,
    palmgren_viscous,
)
from conemodel.physics.packing import balls_that_fit
from conemodel.physics.race_curvature import Curvature, cone_curvature, cup_curvature
from conemodel.physics.rating import (
    dynamic_axial_rating,
    dynamic_radial_rating,
    iso76_f0,
    iso281_fc,
)
from conemodel.physics.thread import pitch_diameter, root_diameter, self_locking_friction
from conemodel.physics.thread_tolerance import iso965_pitch_diameter_limits
from conemodel.physics.tightening import lock_torque
from conemodel.solve.equilibrium.pair import solve_pair
from conemodel.solve.wheel.ball_drag import load_drag
from conemodel.tasks.validation.published_check import PublishedCheck, check, checks

STEEL = hertz.equivalent_modulus(young=210e9, poisson=0.3)


def component_checks() -> Iterator[PublishedCheck]:
    """Compute the checks of single equations and of one row of balls now.

    Raises:
        NotConverged: no balance of forces was found.
    """
    for group in (_hertz, _ratings, _threads, _friction, _thrust):
        yield from group()


def _hertz() -> Iterator[PublishedCheck]:
    """Yield contacts of ball and race."""
    flat = hertz.contact(load=100.0, curvature=Curvature(2 / 3.175e-3, 0.0), modulus=STEEL)
    form = {"status": "computed", "tolerance": 1e-6}
    yield check(
        "Johnson1985", "6.35 ball on a flat, 100 N: radius", "mm", 0.127316794, flat.semi_major * 1e3, **form
    )
    yield check("Johnson1985", "the same: peak pressure", "MPa", 2945.5744, flat.peak_pressure / 1e6, **form)
    yield check("Johnson1985", "the same: approach", "µm", 5.105375, flat.approach * 1e6, **form)
    gamma = 6.35 * cos(radians(40)) / 20
    for race, f, k, a, b, pressure, approach in (
        ("cone", 0.52, 9.63551, 0.567179, 0.058863, 1430.13, 2.66949),
        ("cup", 0.52, 7.12152, 0.545790, 0.076640, 1141.46, 2.54830),
        ("cone", 0.54, 6.45708, 0.432886, 0.067040, 1645.25, 3.12120),
        ("cup", 0.54, 4.73909, 0.413851, 0.087327, 1321.14, 2.96393),
    ):
        bend = cone_curvature if race == "cone" else cup_curvature
        curvature = bend(ball_diameter=6.35e-3, conformity=f, gamma=gamma)
        touch = hertz.contact(load=100.0, curvature=curvature, modulus=STEEL)
        rows = (
            ("ellipticity", "", k, touch.semi_major / touch.semi_minor),
            ("half length", "mm", a, touch.semi_major * 1e3),
            ("half width", "mm", b, touch.semi_minor * 1e3),
            ("peak pressure", "MPa", pressure, touch.peak_pressure / 1e6),
            ("approach", "µm", approach, touch.approach * 1e6),
        )
        name = f"6.35 ball on {race}, f {f}, 100 N"
        yield from checks("two programs", name, rows, status="computed", tolerance=2e-5)
    for race, total, difference in (("inner", 0.202, 0.940), ("outer", 0.138, 0.912)):
        bend = cone_curvature if race == "inner" else cup_curvature
        curvature = bend(ball_diameter=12.7e-3, conformity=0.52, gamma=12.7 / 65)
        sums = (
            ("curvature sum", "1/mm", total, curvature.total / 1e3),
            ("difference", "", difference, curvature.difference),
        )
        name = f"209 bearing, {race} race"
        yield from checks("HarrisKotzalas2007", name, sums, status="from memory", tolerance=4e-3)


def _ratings() -> Iterator[PublishedCheck]:
    """Yield load ratings of the standards."""
    table = {
        0.0: 14.7,
        0.05: 15.7,
        0.09: 16.5,
        0.10: 16.4,
        0.15: 15.2,
        0.20: 14.0,
        0.25: 12.8,
        0.30: 11.6,
        0.40: 9.4,
    }
    for gamma, f0 in table.items():
        found = iso76_f0(gamma=gamma) / 1e6
        yield check("ISO76", f"static factor f0 at γ {gamma:g}", "", f0, found, tolerance=0.06 / f0)
    for gamma, fc in {0.05: 46.7, 0.10: 55.5, 0.20: 59.9, 0.30: 56.0, 0.40: 48.4}.items():
        found = iso281_fc(gamma=gamma)
        yield check("ISO281", f"dynamic factor fc at γ {gamma:g}", "", fc, found, tolerance=0.075 / fc)
    radial = dynamic_radial_rating(fc=51.1, ball_count=27, ball_diameter=7.5e-3, contact_angle=radians(40))
    axial = dynamic_axial_rating(radial_rating=radial, contact_angle=radians(40))
    yield check("ISO281", "worked example, 27 balls of 7.5: Cr", "N", 18651, radial)
    yield check("ISO281", "worked example: Ca", "N", 23493, axial)


def _threads() -> Iterator[PublishedCheck]:
    """Yield threads, joints, clamp and packing."""
    for size, d2, d3 in ((10, 9.35048, 8.77313), (9, 8.35048, 7.77313)):
        thread = {"diameter": size * 1e-3, "pitch": 1e-3}
        exact = {"status": "computed", "tolerance": 1e-6}
        yield check(
            "ISO68-1", f"M{size}×1: pitch diameter", "mm", d2, pitch_diameter(**thread) * 1e3, **exact
        )
        yield check("ISO68-1", f"M{size}×1: root diameter", "mm", d3, root_diameter(**thread) * 1e3, **exact)
    limits = {"6H": (9.350, 9.500, "seen"), "6g": (9.212, 9.324, "computed")}
    for grade, (low, high, status) in limits.items():
        found = iso965_pitch_diameter_limits(diameter=10e-3, pitch=1e-3, tolerance_class=grade)
        for end, value, computed in (("least", low, found[0]), ("most", high, found[1])):
            what = f"M10×1 {grade}: {end} pitch diameter"
            yield check("ISO965-1", what, "mm", value, computed * 1e3, status=status, tolerance=1e-4)
    joint = {"diameter": 8e-3, "pitch": 1e-3, "face_radius": 10.3e-3 / 2}
    for friction, force, torque in ((0.10, 20.7e3, 22.8), (0.12, 20.2e3, 26.1), (0.14, 19.7e3, 29.2)):
        needed = lock_torque(force=force, thread_friction=friction, face_friction=friction, **joint)
        yield check(
            "VDI2230",
            f"M8×1 tightened to {force / 1e3} kN at μ {friction}",
            "N·m",
            torque,
            needed,
            tolerance=0.01,
            reason="the book's 0.16 P and 0.58 d2 are rounded",
        )
    locking = self_locking_friction(diameter=10e-3, pitch=1e-3)
    yield check(
        "closed form", "M10×1 holds itself above μ", "", 0.0295, locking, status="computed", tolerance=2e-3
    )
    held = required_force_against_removal(removal_force=2300.0, friction=0.20, faces=4) / 1e3
    yield check("EN14766", "clamp against 2300 N at friction 0.20", "kN", 2.9, held, tolerance=0.02)
    fit = balls_that_fit(ball_diameter=6.35e-3, pitch_diameter=20e-3)
    yield check("closed form", "6.35 balls that fit on 20", "", 9.72, fit, status="computed")


def _friction() -> Iterator[PublishedCheck]:
    """Yield the grease part of drag at the switch of its two branches."""
    for side, factor, torque in (("below", 0.999, 0.2560), ("above", 1.001, 0.2540)):
        found = palmgren_viscous(
            f0=2.0, viscosity_speed=factor * SLOW / BOOK_VISCOSITY_SPEED, pitch_diameter=20e-3
        )
        yield check("Palmgren1959", f"grease, dm 20, f0 2, just {side} νn 2000", "N·mm", torque, found * 1e3)


@lru_cache(maxsize=1)
def _hub() -> Pair:
    """Return the hub whose right row is looked at."""
    row = Row(
        ball_diameter=6.35e-3,
        ball_count=9,
        pitch_diameter=20e-3,
        contact_angle=radians(40),
        cone_conformity=0.52,
        cup_conformity=0.54,
        young=206e9,
    )
    return Pair(left=row, right=row, row_spacing=60e-3)


def _thrust() -> Iterator[PublishedCheck]:
    """Yield one hub row under thrust: angle, approach, pressures and the torque of spinning balls."""
    near = {"status": "computed", "tolerance": 4e-3, "reason": "contact constants at the starting angle"}
    for thrust, angle, way, cone, cup, spin in (
        (100, 40.3135, 2.7338, 784.3, 725.3, 1.8150),
        (500, 40.8962, 7.8832, 1334.1, 1236.2, 15.4546),
        (1000, 41.3953, 12.3673, 1673.5, 1553.4, 38.8087),
    ):
        found = solve_pair(_hub(), end_play=0.0, load=(thrust, 0, 0, 0, 0))
        row = found.right
        rows = (
            ("contact angle", "°", angle, np.degrees(row.contact_angle[0])),
            ("approach", "µm", way, found.shell_motion[0] * 1e6),
            ("cone pressure", "MPa", cone, row.cone_pressure[0] / 1e6),
            ("cup pressure", "MPa", cup, row.cup_pressure[0] / 1e6),
            ("torque of spinning balls", "N·mm", spin, load_drag(_hub(), found).spinning * 1e3),
        )
        yield from checks("two programs", f"hub row, {thrust} N along the axle", rows, **near)
