"""Dropouts out of parallel, chain, brake and heat of a hundred random hubs, held against beams, statics and warm rings.

Nothing is shared between the two sides: the beam is one of cubic elements, the wheel a free body in axes of its own,
the warm hub solved for where a ball touches both its races.
"""

from math import cos, inf, pi, radians, sin

import numpy as np
import pytest

from conemodel.physics.axle_bending import axle_slope, bend_between_dropouts, face_moment_capacity
from conemodel.physics.heat import pressed_ring_share, row_end_play_from_growth, thermal_growth
from conemodel.physics.wheel_loads import brake_load, drive_load
from tests.solve.stages.spring_and_beam.axle import Beam, moment_opening_face, ring_inertia
from tests.solve.stages.spring_and_beam.heat import ALLOY, STEEL, Cup, WarmPair
from tests.solve.stages.spring_and_beam.loads import chain, disc_brake

WITHIN = 0.02
HUBS = pytest.mark.parametrize("seed", range(100))


@HUBS
def test_an_axle_between_dropouts_is_a_beam_on_two_moments(seed: int) -> None:
    """Any two angles where the clamp holds, a bow where it does not."""
    draw = np.random.default_rng(seed)
    span, most = draw.uniform(0.09, 0.16), inf if seed % 2 else draw.uniform(3, 20)
    bending = STEEL.young * ring_inertia(outer=draw.uniform(8e-3, 11e-3), inner=draw.uniform(0, 6e-3))
    left = draw.uniform(-0.03, 0.03)
    angles = (left, draw.uniform(-0.03, 0.03) if seed % 2 else -left)
    yielding = draw.choice([0.0, draw.uniform(0, 2e-3)])
    bow = Beam(lengths=[span], bending=[bending]).bow(angles=angles, yielding=yielding, most=most)
    found = bend_between_dropouts(
        left_face=angles[0],
        right_face=angles[1],
        span=span,
        rigidity=bending,
        frame_compliance=yielding,
        capacity=most,
    )
    assert [found.left_moment, found.right_moment] == pytest.approx(bow.moments, rel=WITHIN)
    place = draw.integers(0, 21) / 20
    slope = axle_slope(left_slope=found.left_slope, right_slope=found.right_slope, place=place)
    assert float(slope) == pytest.approx(bow.slope(place * span), rel=WITHIN, abs=1e-9)


def test_a_face_opens_before_it_stands_on_its_edge() -> None:
    opening = moment_opening_face(force=5e3, outer=15e-3, inner=10e-3)
    assert 0.3 < opening / face_moment_capacity(clamp_force=5e3, face_radius=7.5e-3) < 0.5


def in_axes_of_the_package(load: np.ndarray) -> np.ndarray:
    """Return x right, y forward, z up as x right, y up, z to the rear, without the moment that turns the wheel."""
    forces, moments = load[:3], load[3:]
    return np.array([forces[0], forces[2], -forces[1], moments[2], -moments[1]])


@HUBS
def test_chain_and_brake_load_the_shell_as_a_free_body_says(seed: int) -> None:
    draw = np.random.default_rng(seed)
    pull, sprocket, line = draw.uniform(0, 3e3), draw.uniform(0.02, 0.07), draw.uniform(-0.06, 0.06)
    wheel, angle, road = draw.uniform(0.2, 0.36), draw.uniform(-pi, pi), draw.uniform(0, 500)
    found = drive_load(chain_pull=pull, chain_line=line, sprocket_radius=sprocket, tyre_radius=wheel)
    by_hand = chain(pull=pull, sprocket=sprocket, line=line, wheel=wheel)
    assert found == pytest.approx(in_axes_of_the_package(by_hand), abs=1e-9)

    disc = draw.uniform(0.06, 0.1)
    braked = brake_load(
        road_force=road, tyre_radius=wheel, brake_radius=disc, brake_angle=angle, brake_line=line
    )
    # the package counts the pads' place from straight up to the rear, the free body from straight forward up
    pads = disc_brake(force=road * wheel / disc, disc=disc, line=line, wheel=wheel, caliper=pi / 2 + angle)
    assert braked == pytest.approx(in_axes_of_the_package(pads), abs=1e-9)


@HUBS
@pytest.mark.parametrize("alone", [True, False])
def test_a_warm_hub_closes_as_its_balls_find(seed: int, alone: bool) -> None:
    """The shell alone warm, or every part by its own; the press fit holds. The package is of first order: 2 %."""
    draw = np.random.default_rng(seed)
    ball, pitch, angle = (
        draw.uniform(4.7e-3, 6.4e-3),
        draw.uniform(18e-3, 26e-3),
        radians(draw.uniform(35, 50)),
    )
    spacing, track = draw.uniform(50e-3, 90e-3), pitch / 2 + ball / 2 * cos(angle)
    seat = track + draw.uniform(1.5e-3, 3e-3)
    fit = Cup(inner=track, seat=seat, outer=seat + draw.uniform(2e-3, 8e-3), interference=80e-6)
    pair = WarmPair(
        ball=ball,
        pitch=pitch,
        angle=angle,
        groove=draw.uniform(0.54, 0.6),
        spacing=spacing,
        seats=spacing - draw.uniform(0, 8e-3),
        fit=fit,
    )
    shell, cups, balls, axle = draw.uniform(5, 20, 4)
    if alone:
        cups = balls = axle = 0.0
    by_balls = pair.end_play_gained(shell=shell, cups=cups, balls=balls, axle=axle)

    free = ALLOY.expansion * shell - STEEL.expansion * cups
    share = pressed_ring_share(
        bore=2 * track,
        joint=2 * seat,
        outside=2 * fit.outer,
        ring_young=STEEL.young,
        shell_young=ALLOY.young,
    )

    def grown(length: float, warming: float) -> float:
        return float(thermal_growth(length=length, expansion=STEEL.expansion, warming=warming))

    across, along = ball / 2 * cos(angle), ball / 2 * sin(angle)
    to_seat = thermal_growth(length=pair.seats / 2, expansion=ALLOY.expansion, warming=shell)
    row = row_end_play_from_growth(
        contact_angle=angle,
        cup_outboard=to_seat + grown((spacing - pair.seats) / 2 - along, cups),
        cup_radial=grown(track, cups) + share * free * track,
        cone_outboard=grown(spacing / 2 + along, axle),
        cone_radial=grown(pitch / 2 - across, axle),
        ball_growth=grown(ball, balls),
    )
    # of the shell's own growth, so that parts that cancel are not asked for more than one alone
    assert 2 * float(row) == pytest.approx(by_balls, abs=WITHIN * ALLOY.expansion * shell * spacing)
