"""Laws every point contact obeys, whatever its numbers, and what happens at the edges."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipe, ellipk

from conemodel.base.errors import OutOfDomain
from conemodel.physics.hertz import (
    contact,
    ellipse,
    equivalent_modulus,
    load_at_pressure,
    load_constant,
    series_constant,
    stiffness,
)
from conemodel.physics.race_curvature import Curvature, cone_curvature, cup_curvature

STEEL = equivalent_modulus(young=206e9, poisson=0.3)
races = st.sampled_from([cone_curvature, cup_curvature])
conformities = st.floats(0.505, 0.65)
gammas = st.floats(0.0, 0.5)
loads = st.floats(0.1, 1e4)


def curvature_of(race, f, gamma, ball=6.35e-3):
    return race(ball_diameter=ball, conformity=f, gamma=gamma)


@given(st.floats(1.01, 300.0))
def test_ellipse_gives_back_the_ellipticity_it_was_made_from(k):
    # F(k) straight from the book's formula; SciPy's elliptic integrals, whose difference loses digits near k = 1.
    m = 1 - 1 / k**2
    difference = ((k**2 + 1) * ellipe(m) - 2 * ellipk(m)) / ((k**2 - 1) * ellipe(m))
    slope = 1 - difference  # dF/dk is of this size over k for long ellipses
    assert ellipse(difference).ellipticity == pytest.approx(k, rel=1e-12 + 4e-16 / (slope * (1 - 1 / k)))


def test_a_circle_is_met_without_a_jump():
    assert ellipse(0.0) == pytest.approx((1, 1, 1, 1), rel=1e-15)
    # Near the circle k = 1 + 4/3 F, from the series of both integrals.
    small = np.array([1e-12, 1e-9, 1e-6, 1e-4])
    assert (ellipse(small).ellipticity - 1) / small == pytest.approx(np.full(4, 4 / 3), rel=5e-4)


def test_ellipses_lengthen_with_the_difference_up_to_the_last():
    k = ellipse(1 - np.logspace(0, -12, 2000)).ellipticity
    assert np.all(np.isfinite(k))
    assert np.all(np.diff(k) > 0)


@given(races, conformities, gammas, loads)
def test_pressure_times_area_is_the_load(race, f, gamma, load):
    # A semi-ellipsoid holds two thirds of its enclosing cylinder.
    touch = contact(load=load, curvature=curvature_of(race, f, gamma), modulus=STEEL)
    area = np.pi * touch.semi_major * touch.semi_minor
    assert 2 / 3 * touch.peak_pressure * area == pytest.approx(load, rel=1e-12)


@given(races, conformities, gammas, loads)
def test_load_constant_and_contact_agree(race, f, gamma, load):
    curvature = curvature_of(race, f, gamma)
    touch = contact(load=load, curvature=curvature, modulus=STEEL)
    constant = load_constant(curvature=curvature, modulus=STEEL)
    assert constant * touch.approach**1.5 == pytest.approx(load, rel=1e-11)


@given(races, conformities, gammas, loads)
def test_load_at_pressure_turns_contact_round(race, f, gamma, load):
    curvature = curvature_of(race, f, gamma)
    pressure = contact(load=load, curvature=curvature, modulus=STEEL).peak_pressure
    found = load_at_pressure(pressure=pressure, curvature=curvature, modulus=STEEL)
    assert found == pytest.approx(load, rel=1e-11)


@given(races, conformities, gammas, st.floats(0.1, 10.0))
def test_similar_contacts_scaled_by_s_carry_s_squared_at_one_pressure(race, f, gamma, scale):
    small = contact(load=100.0, curvature=curvature_of(race, f, gamma), modulus=STEEL)
    large = contact(
        load=100.0 * scale**2, curvature=curvature_of(race, f, gamma, 6.35e-3 * scale), modulus=STEEL
    )
    assert large.peak_pressure == pytest.approx(small.peak_pressure, rel=1e-11)
    assert large.semi_major == pytest.approx(small.semi_major * scale, rel=1e-11)
    assert large.approach == pytest.approx(small.approach * scale, rel=1e-11)


@given(conformities, gammas.filter(lambda gamma: gamma > 1e-3))
def test_the_cone_is_pressed_harder_than_a_cup_of_its_groove(f, gamma):
    cone, cup = (
        contact(load=100.0, curvature=curvature_of(race, f, gamma), modulus=STEEL).peak_pressure
        for race in (cone_curvature, cup_curvature)
    )
    assert cone > cup


def test_cone_and_cup_are_alike_on_an_endless_race():
    assert curvature_of(cone_curvature, 0.54, 0.0) == curvature_of(cup_curvature, 0.54, 0.0)


def test_curvature_adds_up_the_four_radii():
    # Ball 1/r twice, cone's rolling radius (dm/cos α - D)/2, groove f D hollow.
    ball, pitch, angle, f = 6.35e-3, 20e-3, np.radians(40), 0.56
    rolling = (pitch / np.cos(angle) - ball) / 2
    cone = curvature_of(cone_curvature, f, ball * np.cos(angle) / pitch)
    assert cone.total == pytest.approx(4 / ball + 1 / rolling - 1 / (f * ball), rel=1e-14)
    assert cone.difference == pytest.approx((1 / rolling + 1 / (f * ball)) / cone.total, rel=1e-14)


def test_two_contacts_in_series_share_the_load_and_add_their_approach():
    cone = load_constant(curvature=curvature_of(cone_curvature, 0.56, 0.2), modulus=STEEL)
    cup = load_constant(curvature=curvature_of(cup_curvature, 0.56, 0.2), modulus=STEEL)
    approach = (100 / cone) ** (2 / 3) + (100 / cup) ** (2 / 3)
    assert series_constant(cone=cone, cup=cup) * approach**1.5 == pytest.approx(100, rel=1e-12)


def test_stiffness_is_the_slope_of_the_load():
    constant, delta, step = 1e10, 5e-6, 1e-10
    slope = constant * ((delta + step) ** 1.5 - (delta - step) ** 1.5) / (2 * step)
    assert stiffness(load_constant=constant, approach=delta) == pytest.approx(slope, rel=1e-8)
    assert stiffness(load_constant=constant, approach=-delta) == 0.0


def test_no_load_leaves_no_mark():
    assert contact(load=0.0, curvature=Curvature(300.0, 0.9), modulus=STEEL) == (0, 0, 0, 0)


def test_arrays_answer_as_their_elements_do():
    gamma, load = np.array([0.1, 0.2, 0.3])[:, None], np.array([0.0, 50.0, 400.0, 1000.0])
    whole = contact(load=load, curvature=curvature_of(cone_curvature, 0.56, gamma), modulus=STEEL)
    assert np.shape(whole.peak_pressure) == (3, 4)
    one = contact(load=400.0, curvature=curvature_of(cone_curvature, 0.56, 0.2), modulus=STEEL)
    for field, single in zip(whole, one, strict=True):
        assert np.broadcast_to(field, (3, 4))[1, 2] == pytest.approx(single, rel=1e-13)


@pytest.mark.parametrize("difference", [-1e-9, 1.0, np.nan, np.array([0.5, np.nan])])
def test_no_ellipse_has_such_a_difference(difference):
    with pytest.raises(OutOfDomain, match="curvature difference"):
        ellipse(difference)


@pytest.mark.parametrize(
    "wrong", [{"ball_diameter": 0.0}, {"conformity": 0.5}, {"gamma": 1.0}, {"gamma": -0.1}, {"gamma": np.nan}]
)
@pytest.mark.parametrize("race", [cone_curvature, cup_curvature])
def test_no_race_has_such_a_shape(race, wrong):
    with pytest.raises(OutOfDomain):
        race(**{"ball_diameter": 6.35e-3, "conformity": 0.54, "gamma": 0.2} | wrong)


@pytest.mark.parametrize("load", [-1.0, np.nan])
def test_no_contact_pulls(load):
    with pytest.raises(OutOfDomain, match="load"):
        contact(load=load, curvature=Curvature(300.0, 0.9), modulus=STEEL)


def test_equivalent_modulus_is_that_of_two_like_bodies():
    # 1/E* = (1 - ν²)/E for each of the two.
    assert 1 / equivalent_modulus(young=206e9, poisson=0.3) == pytest.approx(2 * (1 - 0.09) / 206e9)
    with pytest.raises(OutOfDomain):
        equivalent_modulus(young=0.0, poisson=0.3)
    with pytest.raises(OutOfDomain):
        equivalent_modulus(young=206e9, poisson=0.6)
