"""Friction, rating and fatigue: laws that hold whatever the numbers, and their edges."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.errors import OutOfDomain
from conemodel.physics import fatigue, friction, rating
from conemodel.physics.race_curvature import cone_curvature

ROW = {"ball_diameter": 6.35e-3, "ball_count": 9, "conformity": 0.56, "gamma": 0.24, "contact_angle": 0.7}
loads = st.lists(st.just(0.0) | st.floats(1e-3, 5000), min_size=1, max_size=20).map(np.array)


@given(loads)
def test_means_lie_between_the_average_and_the_worst(balls):
    rotating, stationary = fatigue.rotating_mean(balls), fatigue.stationary_mean(balls)
    slack = 1 + 1e-12
    assert np.mean(balls) <= rotating * slack
    assert rotating <= stationary * slack  # a standing race suffers its worst point more
    assert stationary <= np.max(balls) * slack


def test_equal_loads_are_their_own_mean():
    assert fatigue.rotating_mean(np.full(9, 300.0)) == pytest.approx(300.0)
    assert fatigue.stationary_mean(np.full((4, 9), 300.0)) == pytest.approx(np.full(4, 300.0))


@given(st.lists(st.floats(1e3, 1e9), min_size=1, max_size=6))
def test_together_parts_last_no_longer_than_the_first_to_fail(lives):
    together = fatigue.combined_life(*lives)
    assert together <= min(lives) * (1 + 1e-12)
    assert together >= min(lives) / len(lives) * (1 - 1e-12)  # slope above 1 spreads the failures
    assert fatigue.combined_life(together) == pytest.approx(together)


def test_lives_of_parts_may_be_joined_in_any_grouping():
    a, b, c = 1e6, 3e6, 7e6
    assert fatigue.combined_life(fatigue.combined_life(a, b), c) == pytest.approx(
        fatigue.combined_life(a, b, c)
    )


def test_an_unloaded_race_lasts_for_ever():
    assert fatigue.race_life(capacity=1e3, load=0.0) == np.inf
    assert fatigue.combined_life(np.inf, np.inf) == np.inf
    assert fatigue.combined_life(1e6, np.inf) == pytest.approx(1e6)


def test_the_cone_is_the_weaker_race():
    assert fatigue.cone_capacity(**ROW) < fatigue.cup_capacity(**ROW)


def test_capacity_grows_with_the_ball_as_its_power_1_8():
    double = ROW | {"ball_diameter": 2 * 6.35e-3}
    assert fatigue.cone_capacity(**double) / fatigue.cone_capacity(**ROW) == pytest.approx(2**1.8)


def test_capacity_by_hand():
    # 98.0665·(1.12/0.12)^0.41·0.76^1.39·1.24^(-1/3)·(0.24/cos 0.7)^0.3·6.35^1.8·9^(-1/3) N, factor by factor on a
    # calculator: 2.498706, 0.682859, 0.930807, 0.706304, 27.86074, 0.480750.
    assert fatigue.cone_capacity(**ROW) == pytest.approx(1473.43, abs=0.01)


@given(st.floats(1, 3000), st.floats(1.1, 3))
def test_a_dent_deepens_as_the_square_of_the_load(load, factor):
    cone = cone_curvature(ball_diameter=6.35e-3, conformity=0.56, gamma=0.24)
    once = rating.permanent_set(load=load, ball_diameter=6.35e-3, curvature=cone)
    more = rating.permanent_set(load=load * factor, ball_diameter=6.35e-3, curvature=cone)
    assert more / once == pytest.approx(factor**2)


def test_dent_by_hand():
    # ρ' ρ'' = 2/(D(1-γ)) · (2 - 1/f)/D = 0.41442·0.033745 /mm²; 1.3e-7·2500²/6.35 · that, in mm.
    cone = cone_curvature(ball_diameter=6.35e-3, conformity=0.56, gamma=0.24)
    dent = rating.permanent_set(load=2500.0, ball_diameter=6.35e-3, curvature=cone)
    assert dent * 1e3 == pytest.approx(1.3e-7 * 2500**2 / 6.35 * 0.41442 * 0.033745, rel=1e-4)


def test_rating_grows_with_rows_as_the_standard_says():
    def dynamic(rows):
        return rating.dynamic_radial_rating(
            fc=59.0, ball_count=9, ball_diameter=6.35e-3, contact_angle=0.7, rows=rows
        )

    assert dynamic(2) == pytest.approx(2**0.7 * dynamic(1))


def test_friction_follows_arrays():
    speeds = np.array([0.0, 1.0, 100.0])
    found = friction.palmgren_viscous(f0=2.0, viscosity_speed=speeds * 15e-6, pitch_diameter=20e-3)
    assert np.shape(found) == (3,)


@pytest.mark.parametrize(
    ("call", "values"),
    [
        (friction.palmgren_viscous, {"f0": -1.0, "viscosity_speed": 0.0, "pitch_diameter": 0.02}),
        (friction.palmgren_viscous, {"f0": 2.0, "viscosity_speed": -1.0, "pitch_diameter": 0.02}),
        (friction.palmgren_load, {"f1": 1e-3, "load": -1.0, "pitch_diameter": 0.02}),
        (friction.angular_contact_f1, {"static_ratio": -0.1}),
        (friction.spinning_moment, {"friction": 0.1, "load": 1.0, "semi_major": 1e-3, "ellipticity": 0.9}),
        (fatigue.cone_capacity, ROW | {"ball_diameter": 26e-3}),
        (fatigue.cup_capacity, ROW | {"conformity": 0.5}),
        (fatigue.cone_capacity, ROW | {"gamma": 1.0}),
        (fatigue.race_life, {"capacity": 1e3, "load": -1.0}),
        (rating.iso281_fc, {"gamma": -0.1}),
        (rating.iso76_f0, {"gamma": 0.2, "pressure": -1.0}),
    ],
)
def test_what_cannot_be_is_refused(call, values):
    with pytest.raises(OutOfDomain):
        call(**values)


def test_no_loads_and_no_lives_are_refused():
    with pytest.raises(OutOfDomain):
        fatigue.rotating_mean(np.array([100.0, -1.0]))
    with pytest.raises(OutOfDomain):
        fatigue.combined_life()
