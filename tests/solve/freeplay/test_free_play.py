"""Free play against its small-motion closed forms, against scipy's own optimiser, and against its own proof."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import NonlinearConstraint, brentq, minimize

import conemodel as cm
from conemodel.base.errors import NotConverged
from conemodel.solve.equilibrium.arrays import arrays_of_pair, arrays_of_pairs
from conemodel.solve.equilibrium.kinematics import pair_arrays
from conemodel.solve.equilibrium.pair import solve_pair
from conemodel.solve.freeplay import interior_point as interior
from conemodel.solve.freeplay.constraints import constraints_of
from conemodel.solve.freeplay.free_play import (
    axle_end_direction,
    rim_direction,
    solve_free_play,
    solve_free_plays,
)
from conemodel.solve.freeplay.interior_point import GAP
from tests.solve.freeplay.small_motions import linear_free_play
from tests.solve.hubs import FRONT, REAR, pair_of, pairs, rows

RIM, ARM = 0.311, 0.065
SPAN = 0.03 + 0.01 * np.tan(REAR.contact_angle)  # effective half span of the hub used here
TILT = np.tan(REAR.contact_angle)
MANY = REAR.replace(ball_diameter=2e-3, ball_count=30)  # close to a continuous ring
SMALL = 1e-7  # end play at which motions are small against the groove arm of 0.2 mm: 1 in 1000 is left


@pytest.mark.parametrize(
    ("direction", "travel"),
    [
        # Closed forms for small motions and a continuous ring, derived from |apex moves sideways| <= tan α room.
        ((1, 0, 0, 0, 0), 1.0),
        ((0, 1, 0, 0, 0), TILT),
        ((0, 0, 0, 1, 0), TILT / SPAN),
        (rim_direction(RIM), 1 + RIM * TILT / SPAN),
        (axle_end_direction(ARM), TILT + ARM * TILT / SPAN),
    ],
)
def test_small_motions_of_a_continuous_ring(direction, travel):
    pair = pair_of(MANY)
    assert linear_free_play(pair, end_play=SMALL, direction=direction) == pytest.approx(travel * SMALL)
    play = solve_free_play(pair, end_play=SMALL, direction=direction).travel
    # 30 balls leave up to 1/cos(π/30) - 1 = 0.55 % more than a ring
    assert travel * SMALL * (1 - 2e-3) <= play <= travel * SMALL * 1.0075


@pytest.mark.parametrize(
    "direction",
    [(1, 0, 0, 0, 0), (0, 1, 0, 0, 0), rim_direction(RIM), axle_end_direction(ARM), (1, -1, 1, 0.02, 0)],
)
def test_small_motions_of_two_different_rows(direction):
    # The closed form for unequal contact angles and pitch circles against the convex programme.
    other = MANY.replace(contact_angle=0.5, pitch_diameter=24e-3)
    for pair in (pair_of(MANY, other), pair_of(other, MANY)):
        linear = linear_free_play(pair, end_play=SMALL, direction=direction)
        play = solve_free_play(pair, end_play=SMALL, direction=direction).travel
        assert linear * (1 - 2e-3) <= play <= linear * 1.0075


def test_the_ratio_of_rim_to_axle_end_is_that_of_the_geometry():
    pair = pair_of(MANY)
    rim = solve_free_play(pair, end_play=SMALL, direction=rim_direction(RIM)).travel
    axle = solve_free_play(pair, end_play=SMALL, direction=axle_end_direction(ARM)).travel
    assert rim / axle == pytest.approx((SPAN / TILT + RIM) / (SPAN + ARM), rel=0.01)


@given(st.floats(-1, 1), st.floats(-1, 1))
def test_a_finite_number_of_balls_adds_little(left, right):
    # At most 1/cos(π/Z) - 1 of the rocking term, whatever the ball phases; derived.
    pair = pair_of(REAR.replace(phase=left), REAR.replace(phase=right))
    play = solve_free_play(pair, end_play=SMALL, direction=(0, 0, 0, 1, 0)).travel
    linear = linear_free_play(pair, end_play=SMALL, direction=(0, 0, 0, 1, 0))
    assert linear * (1 - 2e-3) <= play <= linear / np.cos(np.pi / 9) * (1 + 2e-3)


@pytest.mark.parametrize(
    ("conformity", "ratios"),
    [(0.52, (0.93, 0.85, 0.78, 0.66)), (0.56, (0.975, 0.94, 0.89, 0.83))],
)
def test_real_end_play_is_less_than_linear(conformity, ratios):
    # Worked out by hand for a continuous ring, two to three digits; the finite balls' share is divided out.
    row = REAR.replace(cone_conformity=conformity, cup_conformity=conformity)
    ends = np.array([SMALL, 0.02e-3, 0.05e-3, 0.1e-3, 0.2e-3])
    play = solve_free_play(pair_of(row), end_play=ends, direction=rim_direction(RIM)).travel / ends
    assert play[1:] / play[0] == pytest.approx(ratios, abs=0.006)


def scipys_travel(pair, end_play, direction):
    """Return the travel scipy's SLSQP finds, with the geometry written out ball by ball (lengths in 10 µm)."""
    unit = 1e-5

    def room(motion):
        (x, y, z), (about_y, about_z) = motion[:3] * unit, motion[3:] * unit / 0.04
        found = []
        for side, row in ((-1, pair.left), (1, pair.right)):
            arms = np.array([row.cup_conformity - 0.5, row.cone_conformity - 0.5]) * row.ball_diameter
            sin, cos = np.sin(row.contact_angle), np.cos(row.contact_angle)
            oversize = np.broadcast_to(row.ball_oversize, (row.ball_count,))
            for k in range(row.ball_count):
                psi = row.phase + 2 * np.pi * k / row.ball_count
                outward = np.array([0, np.cos(psi), np.sin(psi)])
                middle = np.array([side * pair.row_spacing / 2, 0, 0])
                middle += row.pitch_diameter / 2 * outward
                line = np.array([side * sin, 0, 0]) - cos * outward  # ball centre to the cup's groove centre
                cup, cone = middle + arms[0] * line, middle - arms[1] * line
                moved = np.array([x, y, z]) + np.cross([0, about_y, about_z], cup)
                apart = cup + moved - cone - np.array([side * end_play / 2, 0, 0])
                found.append(arms.sum() - oversize[k] - np.hypot(apart[0], apart @ outward))
        return np.array(found) / unit

    way = np.asarray(direction) / np.array([1, 1, 1, 0.04, 0.04])
    stops = []
    for sign in (1, -1):

        def shortfall(motion, sign=sign):
            return -sign * float(way @ motion)

        start = np.zeros(5)
        for _ in range(4):  # its line search may give up close to the answer; a start further back gets there
            answer = minimize(
                shortfall,
                start,
                constraints=NonlinearConstraint(room, 0.0, np.inf),
                method="SLSQP",
                options={"ftol": 1e-10, "maxiter": 300},
            )
            if answer.success:
                break
            start = 0.8 * answer.x
        assert answer.success
        assert room(answer.x).min() > -1e-6
        stops.append(way @ answer.x * unit)
    return stops[0] - stops[1]


@pytest.mark.parametrize("end_play", [0.01e-3, 0.1e-3])
@pytest.mark.parametrize(
    "direction", [rim_direction(RIM, 0.3), axle_end_direction(ARM), (0.2, -0.5, 0.8, 0.01, -0.02)]
)
def test_scipy_finds_the_same_stops(end_play, direction):
    odd = tuple(1e-6 * np.sin(np.arange(9)))
    pair = pair_of(REAR.replace(ball_oversize=odd, phase=0.2), FRONT)
    play = solve_free_play(pair, end_play=end_play, direction=direction)
    assert play.feasible
    # SLSQP stops at 1e-10 of its unit but may leave a wall by a millionth of 10 µm, times the lever of the rim
    assert play.travel == pytest.approx(scipys_travel(pair, end_play, direction), rel=1e-5)


@given(st.integers(0, 2**31))
def test_any_multipliers_bound_the_movement(seed):
    # Lagrange duality: however badly the multipliers are chosen, nothing moves further than reached plus gap.
    random = np.random.default_rng(seed)
    arrays = pair_arrays(arrays_of_pair(pair_of()))
    constraints = constraints_of(arrays, np.array([0.05e-3]))
    direction = random.normal(size=(5, 1))
    best = interior.maximise_movement(constraints, direction=direction, start=np.zeros((5, 1)))
    multiplier = 10 ** random.uniform(-6, 1, (18, 1)) / (2 * constraints.touch)
    point = interior._at(constraints, np.zeros((5, 1)), multiplier)
    assert best.value <= interior._gap(constraints, point, direction) * (1 + 1e-9)


@given(rows(), rows(), st.floats(0.03e-3, 0.15e-3), st.integers(0, 2**31))
def test_the_stops_hold_their_proof(left, right, end_play, seed):
    direction = np.random.default_rng(seed).normal(size=5) * [1, 1, 1, 0.1, 0.1]
    play = solve_free_play(pair_of(left, right), end_play=end_play, direction=direction)
    if play.feasible:
        assert 0 < play.gap <= 2 * GAP
        assert play.travel > 0
    else:
        assert play.travel == 0


@given(pairs(faults=False), st.floats(0.001e-3, 0.1e-3), st.floats(1.0, 2.0))
def test_more_end_play_never_gives_less_free_play(pair, end_play, more):
    play = solve_free_play(pair, end_play=[end_play, end_play * more], direction=rim_direction(RIM))
    assert play.travel[1] >= play.travel[0] - 2 * GAP


@given(pairs(faults=False), st.floats(-0.1e-3, 0.0))
def test_a_tight_hub_has_none(pair, end_play):
    play = solve_free_play(pair, end_play=end_play, direction=rim_direction(RIM))
    assert not play.feasible
    assert play.travel == play.low == play.high == play.gap == 0


def test_a_hub_with_faults_may_be_loose_away_from_the_centre():
    # The shell takes up the tilt to first order; the square of 10 mrad over the groove arm leaves some 10 µm.
    pair = pair_of(REAR.replace(cone_tilt=(10e-3, 0.0)))
    play = solve_free_play(pair, end_play=[0.005e-3, 0.05e-3], direction=rim_direction(RIM))
    assert play.feasible.tolist() == [False, True]
    assert play.travel[1] > 0


@pytest.mark.parametrize("row", [REAR.replace(cone_tilt=(10e-3, 0.0)), REAR.replace(cup_tilt=(4e-3, 1e-3))])
def test_play_begins_where_the_balls_of_an_unloaded_hub_let_go(row):
    # Two ways to one end play: without load a ball presses exactly where nothing is loose. 0.1 µm more is room
    # for some tens of nanometres at each ball, which only the smallest of the larger balls that are tried can find.
    pair = pair_of(row, REAR.replace(cup_tilt=(0.0, 3e-3)))

    def pressed(end_play):
        return float(solve_pair(pair, end_play=end_play, load=np.zeros(5)).preload) - 1e-6

    begins = brentq(pressed, -20e-6, 50e-6, xtol=1e-10)
    assert begins > 0.5e-6
    play = solve_free_play(pair, end_play=[begins - 1e-8, begins + 1e-7], direction=rim_direction(RIM))
    assert play.feasible.tolist() == [False, True]


def test_shapes_and_refusals():
    pair = pair_of()
    play = solve_free_play(pair, end_play=np.full((2, 1), 1e-5), direction=np.ones((3, 5)))
    assert play.travel.shape == play.valid.shape == (2, 3)
    assert solve_free_play(pair, end_play=1e-5, direction=np.zeros(5)).travel == 0
    with pytest.raises(ValueError, match="axis of 5"):
        solve_free_play(pair, end_play=1e-5, direction=(1, 0))
    with pytest.raises(ValueError, match="finite"):
        solve_free_play(pair, end_play=np.nan, direction=rim_direction(RIM))


def test_stops_that_are_not_proven_are_not_handed_on(monkeypatch):
    monkeypatch.setattr(interior, "_MOST_STEPS", 3)
    with pytest.raises(NotConverged):
        solve_free_play(pair_of(), end_play=0.05e-3, direction=rim_direction(RIM))


def test_balls_that_stop_the_shell_off_the_race_are_not_valid():
    flat = pair_of(REAR.replace(contact_angle=np.radians(8)))
    play = solve_free_play(flat, end_play=[0.001e-3, 0.3e-3], direction=(0, 1, 0, 0, 0))
    assert play.valid.tolist() == [True, False]


def test_a_case_that_is_done_does_not_stop_the_others(root):
    # A few cases go through LAPACK together; one already at rest against its constraints has a matrix of no use.
    hub = cm.load_scenario(root / "scenarios" / "road-front.toml")
    assert cm.predict(hub).window.width > 0


@pytest.mark.parametrize("tilts", [(0.02, 0.012), (-0.02, 0.012), (0.0, 0.02), (0.03, -0.02), (0.01, 0.006)])
def test_rows_far_askew_are_found_in_few_steps(monkeypatch, tilts):
    # Twenty is what such hubs need at most; a way that runs into constraints needs many more, or never gets there.
    monkeypatch.setattr(interior, "_MOST_STEPS", 30)
    cone, cup = tilts
    turns = np.linspace(0, 2 * np.pi, 24)
    askew = [
        REAR.replace(cone_tilt=(cone, 0.0), cup_tilt=(cup * np.cos(turn), cup * np.sin(turn)), phase=turn / 2)
        for turn in turns
    ]
    hubs = arrays_of_pairs([pair_of(row, REAR) for row in askew])
    ends = np.linspace(-0.05e-3, 0.4e-3, 46)
    found = solve_free_plays(hubs, end_play=ends[None], direction=rim_direction(RIM)[None, None])
    assert found.feasible.any()
    assert found.gap.max() <= 2 * GAP
