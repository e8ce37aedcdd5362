"""The pair equilibrium against closed forms and numbers worked out by hand, in programs that share nothing with it.

"Hand": an independent computation of the project, not a printed source. Its last digits depend on the hub's
details, so the margins are per cents unless said otherwise.
"""

import numpy as np
import pytest
from scipy.optimize import brentq

from conemodel.solve.equilibrium.arrays import arrays_of_pair
from conemodel.solve.equilibrium.pair import solve_hubs, solve_pair
from tests.solve.hubs import REAR, pair_of

NOTHING = np.zeros(5)
ALONG = np.array([1.0, 0, 0, 0, 0])
UP = np.array([0, 1.0, 0, 0, 0])


def preload_by_hand(row, end_play, compliance):
    """Return the preload of two equal rows: one triangle, one Hertz constant, one spring, solved for the force."""
    K = float(arrays_of_pair(pair_of(row)).left.load_constant[0])
    A = (row.cone_conformity + row.cup_conformity - 1) * row.ball_diameter
    sin, cos = np.sin(row.contact_angle), np.cos(row.contact_angle)

    def force(axial):
        length = np.hypot(A * sin + axial, A * cos)
        return row.ball_count * K * max(length - A, 0) ** 1.5 * (A * sin + axial) / length

    axial = brentq(lambda a: 2 * a + compliance * force(a) + end_play, 0, -end_play, xtol=1e-16)
    return force(axial)


@pytest.mark.parametrize("compliance", [0.0, 1.55e-8, 4e-8])
@pytest.mark.parametrize("end_play", [-1e-6, -1e-5, -5e-5])
def test_preload_of_two_equal_rows(end_play, compliance):
    solution = solve_pair(pair_of(axial_compliance=compliance), end_play=end_play, load=NOTHING)
    assert solution.preload == pytest.approx(preload_by_hand(REAR, end_play, compliance), rel=1e-6)


@pytest.mark.parametrize(
    ("end_play", "compliance", "preload"),
    [(-1e-5, 1.55e-8, 161), (-2e-5, 1.55e-8, 402), (-5e-5, 1.55e-8, 1301), (-5e-5, 0.0, 2866)],
)
def test_preload_hand_numbers(end_play, compliance, preload):
    solution = solve_pair(pair_of(axial_compliance=compliance), end_play=end_play, load=NOTHING)
    assert solution.preload == pytest.approx(preload, rel=5e-3)  # hand, three to four digits
    assert solution.left.ball_load.sum() * np.sin(solution.left.contact_angle[0]) == pytest.approx(
        float(solution.preload), rel=1e-6
    )  # N = Z Q sin α


def test_a_tight_spot_needs_a_tilted_cone_and_a_tilted_cup():
    # Hand: 6 mrad of cone and 3 mrad of cup on one row, preload 292 to 439 N over a turn of the wheel.
    turn = np.linspace(0, 2 * np.pi, 37)
    hubs = arrays_of_pair(pair_of())
    cone = np.array([[6e-3], [0.0]])
    cup = 3e-3 * np.stack((np.cos(turn), np.sin(turn)))
    tilted = hubs._replace(right=hubs.right._replace(cone_tilt=cone, cup_tilt=cup))
    preload = solve_hubs(tilted, end_play=np.full(37, -1.5e-5), load=NOTHING).preload
    assert preload.min() == pytest.approx(292, rel=0.02)
    assert preload.max() == pytest.approx(439, rel=0.02)

    cone_alone = hubs._replace(right=hubs.right._replace(cone_tilt=cone, cup_tilt=np.zeros((2, 37))))
    steady = solve_hubs(cone_alone, end_play=np.full(37, -1.5e-5), load=NOTHING).preload
    assert np.ptp(steady) < 1e-6 * steady[0]


def test_two_tilted_cones_are_absorbed_to_first_order():
    # The shell turns each row about its own apex; what is left goes with the square of the tilt.
    sound = float(solve_pair(pair_of(), end_play=-2e-5, load=NOTHING).preload)
    gain = []
    for tilt in (0.5e-3, 1e-3, 2e-3):
        bent = pair_of(REAR.replace(cone_tilt=(tilt, 0.0)), REAR.replace(cone_tilt=(0.0, tilt)))
        gain.append(float(solve_pair(bent, end_play=-2e-5, load=NOTHING).preload) - sound)
    assert gain[0] < 0.01 * sound
    assert gain[1] / gain[0] == pytest.approx(4, rel=0.05)
    assert gain[2] / gain[1] == pytest.approx(4, rel=0.05)


def test_a_bent_shell_and_axle_alike_are_no_fault():
    # Tilting cone and cup of both rows as one body is a rigid turn: the balls feel nothing of it.
    turned = REAR.replace(cone_tilt=(2e-3, -1e-3), cup_tilt=(2e-3, -1e-3))
    here = solve_pair(pair_of(turned), end_play=-2e-5, load=NOTHING)
    assert here.preload == pytest.approx(
        float(solve_pair(pair_of(), end_play=-2e-5, load=NOTHING).preload), rel=2e-3
    )  # second order of 2 mrad over the groove arm


def test_larger_balls_in_all_places_are_less_end_play():
    # A ball larger by o shortens the axial way to contact by o / sin α on each row, for small o.
    oversize = 0.5e-6
    larger = pair_of(REAR.replace(ball_oversize=oversize))
    one = solve_pair(larger, end_play=-1e-5, load=NOTHING).preload
    other = solve_pair(
        pair_of(), end_play=-1e-5 - 2 * oversize / np.sin(REAR.contact_angle), load=NOTHING
    ).preload
    assert one == pytest.approx(float(other), rel=2e-3)  # the angle changes by a thousandth


@pytest.mark.parametrize("compliance", [0.0, 1.55e-8])
def test_an_axial_load_unloads_one_of_two_equal_rows(compliance):
    # r = (2 + 2λ - λr)^1.5, λ = C N0 / (2 t0): closed form for a constant contact angle, so a light preload.
    pair = pair_of(axial_compliance=compliance)
    end_play = -4e-7
    preload = float(solve_pair(pair, end_play=end_play, load=NOTHING).preload)
    share = compliance * preload / (-end_play - compliance * preload)
    ratio = brentq(lambda r: r - (2 + 2 * share - share * r) ** 1.5, 1, 3)

    def other_row(load):
        return float(solve_pair(pair, end_play=end_play, load=load * ALONG).left.ball_load.max())

    assert other_row(0.99 * ratio * preload) > 0
    assert other_row(1.01 * ratio * preload) == 0  # 1 %: the angle still grows a little


def test_axial_stiffness_grows_with_the_third_root_of_preload():
    # N ∝ δ^1.5 gives N^(1/3); the growing contact angle adds to it: 0.34 to 0.38 by hand.
    def stiffness(end_play):
        pair = pair_of(axial_compliance=0.0)
        solution = solve_pair(pair, end_play=end_play, load=[ALONG, -ALONG])
        way = solution.shell_motion[0, 0] - solution.shell_motion[1, 0]
        return 2 / way, float(solution.preload.mean())

    (soft, low), (firm, high) = stiffness(-1e-5), stiffness(-3e-5)
    assert 1 / 3 < np.log(firm / soft) / np.log(high / low) < 0.39


def test_load_on_one_row_alone_goes_with_the_power_of_one_and_a_half():
    # Fx on a hub just touching: one row carries it all, F ∝ δ^1.5 while the angle holds.
    pair = pair_of(axial_compliance=0.0)
    way = solve_pair(pair, end_play=0.0, load=np.array([[0.1], [0.8]]) * ALONG).shell_motion[:, 0]
    assert way[1] / way[0] == pytest.approx(4, rel=2e-3)


@pytest.mark.parametrize(
    ("conformity", "low", "high"), [(0.52, 8.3e3, 9.5e3), (0.56, 3.9e3, 4.4e3), (0.60, 2.8e3, 3.1e3)]
)
def test_radial_load_that_dents_the_cone(conformity, low, high):
    # Hand: radial load at e = 0 that brings the cone to 4200 MPa, the range from ball phase.
    row = REAR.replace(cone_conformity=conformity, cup_conformity=conformity)
    loads = np.linspace(2e3, 11e3, 300)
    reached = []
    for phase in (0.0, np.pi / 9):
        solution = solve_pair(pair_of(row.replace(phase=phase)), end_play=0.0, load=loads[:, None] * UP)
        reached.append(np.interp(4200e6, solution.left.cone_pressure.max(-1), loads))
    assert sorted(reached) == pytest.approx([low, high], rel=0.015)  # half of the last digit


@pytest.mark.parametrize(("end_play", "torque"), [(-1e-5, 14e-3), (-2e-5, 38.5e-3), (-5e-5, 131e-3)])
def test_the_torque_of_nine_dents_at_ball_spacing(end_play, torque):
    # Hand, by another formula (the envelope theorem): dents 2 µm deep, half length 0.2 mm. Here the slope of the
    # energy itself, so the energy is checked too.
    turn = np.linspace(-0.35, 0.35, 401)
    hubs = arrays_of_pair(pair_of())
    stride = (1 + REAR.ball_diameter * np.cos(REAR.contact_angle) / REAR.pitch_diameter) / 2
    race = (REAR.pitch_diameter - REAR.ball_diameter * np.cos(REAR.contact_angle)) / 2
    away = np.broadcast_to(turn * stride * race, (9, 401))
    depth = np.where(np.abs(away) < 0.2e-3, 2e-6 * np.cos(np.pi / 2 * away / 0.2e-3) ** 2, 0.0)
    left = hubs.left._replace(phase=turn * stride, ball_oversize=-depth)
    dented = hubs._replace(left=left, right=hubs.right._replace(phase=turn * stride))
    energy = solve_hubs(dented, end_play=np.full(401, end_play), load=NOTHING).energy
    assert np.abs(np.gradient(energy, turn)).max() == pytest.approx(torque, rel=0.015)
