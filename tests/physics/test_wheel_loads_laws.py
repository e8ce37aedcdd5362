"""Chain and brake on the shell against statics: balance, mirrors, a beam on two supports."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.base.errors import OutOfDomain
from conemodel.physics import wheel_loads
from conemodel.physics.fatigue import life_under_mix

TYRE = 0.336
CHAIN = {"sprocket_radius": 36.6e-3, "tyre_radius": TYRE}
DISC = {"tyre_radius": TYRE, "brake_radius": 80e-3, "brake_line": -45e-3}

forces = st.floats(0, 3000)
places = st.floats(-0.08, 0.08)
angles = st.floats(-np.pi, np.pi)


def test_a_rider_on_the_pedal_by_hand():
    # 500 N on 170 mm, 42 teeth: r = 12.7/(2 sin(π/42)) = 84.97 mm; 1000.4 N. Lengths: common practice, no source.
    ring = wheel_loads.sprocket_radius(teeth=42, chain_pitch=12.7e-3)
    pull = wheel_loads.chain_pull(pedal_force=500.0, crank_length=0.17, chainring_radius=ring)
    assert ring == pytest.approx(84.97e-3, abs=5e-6)
    assert pull == pytest.approx(1000.4, abs=0.1)


def test_a_sprocket_of_many_teeth_is_the_circle_its_chain_covers():
    assert wheel_loads.sprocket_radius(teeth=1000, chain_pitch=12.7e-3) == pytest.approx(
        12.7 / (2 * np.pi), rel=2e-6
    )


def row_reactions(load, spacing=60e-3):
    """Return what the left and right row carry across the axle (2, 2), a beam on two supports; y and z."""
    _, fy, fz, my, mz = load
    right = np.array([fy / 2 + mz / spacing, fz / 2 - my / spacing])
    return np.array([np.array([fy, fz]) - right, right])


@given(forces, places)
def test_the_rows_share_a_chain_s_pull_as_a_beam_does(pull, line):
    load = wheel_loads.drive_load(chain_pull=pull, chain_line=line, sprocket_radius=0.0, tyre_radius=TYRE)
    left, right = row_reactions(load)
    assert right[1] == pytest.approx(-pull * (30e-3 + line) / 60e-3, abs=1e-9)
    assert left[1] == pytest.approx(-pull * (30e-3 - line) / 60e-3, abs=1e-9)


@given(forces, places)
def test_a_drive_on_the_other_side_is_the_mirror_image(pull, line):
    one, other = (wheel_loads.drive_load(chain_pull=pull, chain_line=x, **CHAIN) for x in (line, -line))
    assert other == pytest.approx(one * np.array([1, 1, 1, -1, -1]), abs=1e-9)


@given(forces, st.floats(0.02, 0.3), angles, places)
def test_pads_and_road_balance_about_the_axle(road, radius, angle, line):
    """All forces but the bearing's, written out here: no moment turns the wheel faster or slower."""
    load = wheel_loads.brake_load(
        road_force=road, tyre_radius=TYRE, brake_radius=radius, brake_angle=angle, brake_line=line
    )
    rub = load[1:3] - np.array([0.0, road])  # y and z of what the pads do
    at = radius * np.array([np.cos(angle), np.sin(angle)])
    about_axle = at[0] * rub[1] - at[1] * rub[0] - TYRE * road  # the road's force acts R below the axle
    assert about_axle == pytest.approx(0.0, abs=1e-9 * max(road, 1))
    assert rub @ at == pytest.approx(0.0, abs=1e-9 * max(road, 1))  # pads rub along their circle
    assert load[3:] == pytest.approx([-line * rub[1], line * rub[0]], abs=1e-9)


def test_a_rim_brake_over_the_hub_by_hand():
    # 200 N on the road at 336 mm, pads at 311 mm straight up: 216.1 N to the rear, 416.1 N in all, no tilt.
    load = wheel_loads.brake_load(
        road_force=200.0, tyre_radius=TYRE, brake_radius=0.311, brake_angle=0.0, brake_line=0.0
    )
    assert load == pytest.approx([0, 0, 416.08, 0, 0], abs=0.01)


def test_a_small_rotor_presses_far_harder_than_the_road():
    rim = wheel_loads.brake_load(road_force=200.0, **DISC | {"brake_radius": 0.311}, brake_angle=np.pi / 2)
    disc = wheel_loads.brake_load(road_force=200.0, **DISC, brake_angle=np.pi / 2)
    assert disc[1] / rim[1] == pytest.approx(0.311 / 0.080)


@given(st.tuples(*(st.floats(-1e3, 1e3),) * 3), st.tuples(*(st.floats(-0.4, 0.4),) * 3))
def test_moments_are_those_of_a_cross_product(force, point):
    moment = np.cross(point, force)
    found = wheel_loads.load_at_mid_span(force=np.array(force), point=np.array(point))
    assert found == pytest.approx([*force, *moment[1:]], abs=1e-9)


def test_arrays_broadcast():
    pull, line = np.array([0.0, 500.0, 1000.0])[:, None], np.array([20e-3, 55e-3])
    assert wheel_loads.drive_load(chain_pull=pull, chain_line=line, **CHAIN).shape == (3, 2, 5)
    assert wheel_loads.brake_load(road_force=pull, brake_angle=line, **DISC).shape == (3, 2, 5)


def test_values_out_of_range():
    for call, wrong in (
        (wheel_loads.chain_pull, {"pedal_force": -1.0, "crank_length": 0.17, "chainring_radius": 0.08}),
        (wheel_loads.chain_pull, {"pedal_force": 1.0, "crank_length": 0.17, "chainring_radius": 0.0}),
        (wheel_loads.sprocket_radius, {"teeth": 2, "chain_pitch": 12.7e-3}),
        (wheel_loads.drive_load, {"chain_pull": -1.0, "chain_line": 0.0, **CHAIN}),
        (wheel_loads.drive_load, {"chain_pull": 1.0, "chain_line": 0.0, **CHAIN, "tyre_radius": 0.0}),
        (wheel_loads.brake_load, {"road_force": np.nan, "brake_angle": 0.0, **DISC}),
        (wheel_loads.brake_load, {"road_force": 1.0, "brake_angle": 0.0, **DISC, "brake_radius": 0.0}),
    ):
        with pytest.raises(OutOfDomain):
            call(**wrong)


def test_life_under_a_mix():
    # One load alone: its own life; shares need not add up to 1; a harmless load adds its turns for nothing.
    lives = np.array([4e6, 1e6])
    assert life_under_mix(lives=lives, shares=np.array([0.0, 0.7])) == pytest.approx(1e6)
    assert life_under_mix(lives=lives, shares=np.array([3.0, 1.0])) == pytest.approx(4 / (3 / 4e6 + 1 / 1e6))
    assert life_under_mix(lives=np.array([np.inf, 1e6]), shares=np.array([0.5, 0.5])) == pytest.approx(2e6)
    assert life_under_mix(lives=np.array([np.inf]), shares=np.array([1.0])) == np.inf
    for wrong in ({"lives": np.zeros(2)}, {"shares": np.array([-1.0, 2.0])}, {"shares": np.zeros(2)}):
        with pytest.raises(OutOfDomain):
            life_under_mix(**{"lives": lives, "shares": np.ones(2)} | wrong)
