"""The second model of balls, warm rings and wheel loads, held against closed forms before anything is held against it.

Textbooks from memory, pages not seen: Johnson, Contact Mechanics (sphere on flat); Harris, Rolling Bearing Analysis
(Sjövall's ideal ring); Shigley, Mechanical Engineering Design (press fit); Timoshenko and Goodier (warm rings).
"""

from dataclasses import replace
from math import cos, radians, sin, tan

import numpy as np
import pytest

from tests.solve.stages.spring_and_beam.balls import Ring, Rings, contact_stiffness, worst_ball
from tests.solve.stages.spring_and_beam.heat import ALLOY, STEEL, Cup, WarmPair
from tests.solve.stages.spring_and_beam.loads import chain, disc_brake, road, row_reactions

RING = Ring(ball=6.35e-3, count=9, pitch=20e-3, angle=radians(40), groove=0.56)
RINGS = Rings(ring=RING, spacing=60e-3, yielding=1.77e-8)
MANY = replace(RING, count=45)
STIFF = 1e-11


def test_a_sphere_on_a_flat():
    """E* = E/2(1 - ν²), Q = 4/3 E* √R δ^1.5. Johnson."""
    K = contact_stiffness(sums=2 / 3e-3, difference=0.0, young=210e9, poisson=0.3)
    assert pytest.approx(4 / 3 * 210e9 / 1.82 * 3e-3**0.5) == K


def test_tightened_rows_press_as_hertz_and_hooke_say():
    """-e = 2 δ/sin α + C N, N = Z K δ^1.5 sin α: the angle held fast, so 2 %."""
    found = RINGS.rest(end_play=-20e-6).preload
    deep = (found / (9 * RING.stiffness() * sin(RING.angle))) ** (2 / 3)
    assert 2 * deep / sin(RING.angle) + RINGS.yielding * found == pytest.approx(20e-6, rel=0.02)


def test_an_ideal_ring_of_many_balls_loads_its_worst_by_stribeck():
    """Q_max = 4.37 F/(Z cos α) with half the balls loaded; each row carries half. Small load: angle held fast."""
    load = np.array([0.0, 0.0, 40.0, 0.0, 0.0])
    balls = replace(RINGS, ring=MANY, yielding=STIFF).rest(end_play=0.0, load=load).balls
    assert balls.max() == pytest.approx(4.37 * 20.0 / (45 * cos(RING.angle)), rel=0.01)


def test_the_balls_balance_what_is_put_on_the_shell():
    load = np.array([50.0, 300.0, 600.0, 20.0, -10.0])
    rest = RINGS.rest(end_play=-10e-6, load=load)
    around = np.tile(2 * np.pi / 9 * np.arange(9), 2)
    place = RING.cup_radius * np.stack((0 * around, np.cos(around), np.sin(around)), axis=1)
    place[:, 0] = np.repeat([-1.0, 1.0], 9) * (30e-3 + 0.06 * RING.ball * sin(RING.angle))
    along, outward = (rest.balls[:, None] * rest.directions).T
    push = np.stack((along, outward * np.cos(around), outward * np.sin(around)), axis=1)
    assert push.sum(axis=0) == pytest.approx(-load[:3], abs=0.01)
    assert np.cross(place, push).sum(axis=0)[1:] == pytest.approx(-load[3:], abs=1e-3)
    assert worst_ball(RINGS, end_play=-10e-6, load=load) >= rest.balls.max()


def test_mirrored_loads_load_mirrored_rows():
    load = np.array([50.0, 0.0, 600.0, -20.0, 0.0])
    right = RINGS.rest(end_play=-10e-6, load=load).balls
    left = RINGS.rest(end_play=-10e-6, load=load * [-1, 1, 1, -1, -1]).balls
    assert left == pytest.approx(np.roll(right, 9), abs=0.05)


@pytest.mark.parametrize("tilt", [3e-3, 6e-3])
def test_cones_tilted_opposite_ways_close_by_the_square_of_the_tilt(tilt):
    """Derived: the shell's shift takes up the first order; what is left is across the contact line.

    R t cos ψ/cos α there lengthens S by its square over 2 A: on average half of that, over sin α, in two rows. Under
    a preload that keeps all balls loaded the average counts; the angle grows too, so 15 %.
    """
    tilted = replace(RINGS, tilts=(tilt, -tilt), ring=MANY, yielding=STIFF)
    across = RING.cone_radius * tilt / cos(RING.angle)
    by_hand = across**2 / (2 * RING.apart) / sin(RING.angle)
    assert tilted.tightened_by_tilt(preload=3000.0) == pytest.approx(by_hand, rel=0.15)


FIT = Cup(inner=12e-3, seat=15e-3, outer=18e-3, interference=15e-6)
WARM = WarmPair(
    ball=6.35e-3, pitch=20e-3, angle=radians(40), groove=0.56, spacing=60e-3, seats=60e-3, fit=FIT
)


def test_a_press_fit_of_one_material():
    """P = E δ/b · (c² - b²)(b² - a²)/(2 b² (c² - a²)). Shigley."""
    alike = replace(FIT, shell=STEEL)
    a, b, c = 12e-3, 15e-3, 18e-3
    by_hand = STEEL.young * 15e-6 / b * (c**2 - b**2) * (b**2 - a**2) / (2 * b**2 * (c**2 - a**2))
    assert alike.seat_pressure() == pytest.approx(by_hand)


def test_a_thin_cup_in_a_thin_shell_share_their_growth_by_stiffness():
    """Two hoops: Σ E t α ΔT/Σ E t."""
    thin = Cup(inner=99.5e-3, seat=100e-3, outer=100.5e-3, interference=1.0)
    share = (ALLOY.young * ALLOY.expansion + STEEL.young * STEEL.expansion) / (ALLOY.young + STEEL.young)
    assert thin.growth(radius=0.1, cup=80, shell=80) == pytest.approx(share * 80 * 0.1, rel=0.01)


def test_a_shell_that_has_grown_off_its_cup_moves_it_no_further():
    grown = [FIT.growth(radius=12e-3, shell=warm) for warm in (60.0, 90.0)]
    assert FIT.seat_pressure(shell=60.0) == 0.0
    assert grown[0] == grown[1]


def test_a_hub_of_one_material_keeps_its_play_when_warmed_throughout():
    """Similarity: every dimension grows alike, and no play stays no play."""
    alike = replace(WARM, fit=replace(FIT, shell=STEEL))
    assert alike.end_play_gained(shell=80, cups=80, balls=80, axle=80) == pytest.approx(0.0, abs=1e-12)


def test_small_growths_add_up_by_the_geometry_of_the_contact_line():
    """Shell lengthens: -α L ΔT. Cup widens by u: + 2 u cot α. Derived; second order left out, so 5 %."""
    found = WARM.end_play_gained(shell=10.0)
    widened = FIT.growth(radius=10e-3 + RING.ball / 2 * cos(RING.angle), shell=10.0)
    by_hand = -ALLOY.expansion * 10 * 60e-3 + 2 * widened / tan(RING.angle)
    assert found == pytest.approx(by_hand, rel=0.05)


def test_warm_balls_take_play():
    """A ball grown by dD spans two contacts: - 2 dD/sin α. Derived."""
    found = WARM.end_play_gained(balls=80.0)
    assert found == pytest.approx(-2 * STEEL.expansion * 80 * 6.35e-3 / sin(RING.angle), rel=0.05)


def test_chain_and_brake_turn_the_wheel_no_further():
    for load in (
        chain(pull=1e3, sprocket=40e-3, line=55e-3, wheel=0.34),
        disc_brake(force=2e3, disc=80e-3, line=-40e-3, wheel=0.34, caliper=2.2),
    ):
        assert load[3] == pytest.approx(0.0, abs=1e-9)


def test_a_chain_outside_its_row_lifts_the_other():
    """Moments about the far load centre: (line + arm)/2 arm, and the rest on the far row."""
    load = chain(pull=1e3, sprocket=40e-3, line=55e-3, wheel=1e9)
    left, right = row_reactions(load, spacing=60e-3, pitch=20e-3, angle=radians(40))
    arm = 30e-3 + 10e-3 * tan(radians(40))
    assert right[0] == pytest.approx(1e3 * (55e-3 + arm) / (2 * arm))
    assert left[0] == pytest.approx(1e3 - right[0])


def test_the_rows_of_balls_carry_what_moments_say():
    """A rider on the middle: half on either row, whatever the balls do."""
    load = road(radius=0.311, up=600.0)
    assert row_reactions(load, spacing=60e-3, pitch=20e-3, angle=0.7) == pytest.approx(
        np.array([[0.0, 300.0], [0.0, 300.0]])
    )
