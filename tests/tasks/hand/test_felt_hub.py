"""The hub of the pairs: what is put into the hand, and what a difference is in degrees of cone.

Expected values are laws (what a hub must do as its cone turns) and hand calculations on the geometry.
"""

from functools import lru_cache
from math import degrees, log, pi

import numpy as np
import pytest

from conemodel.parts.library import SCENARIOS
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.hand.felt_hub import FeltHub, felt_hub
from conemodel.tasks.hand.kinds import KINDS

HUB = "touring-rear"


@lru_cache(maxsize=1)
def hub() -> FeltHub:
    return felt_hub(load_scenario(SCENARIOS / f"{HUB}.toml"))


def test_the_setting_of_the_hub_does_not_matter():
    other = felt_hub(load_scenario(SCENARIOS / f"{HUB}.toml").with_setting(back_off=1.0))
    assert np.array_equal(other.torque, hub().torque)
    assert np.array_equal(other.play, hub().play)


def test_play_rises_outward_and_torque_inward():
    assert (np.diff(hub().out) > 0).all()
    assert (np.diff(hub().play) > 0).all()
    assert hub().play[0] == 0.0
    assert (np.diff(hub().inward) > 0).all()
    assert (np.diff(hub().torque) > 0).all()


def test_the_rim_moves_freely_by_its_play_and_springs_beyond():
    movement, force = hub().rocking(0.2e-3)
    free = [m for m, f in zip(movement, force, strict=True) if f == 0]
    assert free == pytest.approx([-0.1e-3, 0.1e-3])
    assert list(movement) == sorted(movement)
    assert movement == pytest.approx(
        [-m for m in movement[::-1]], rel=1e-3
    )  # mirror symmetry, but for the dish
    none, _ = hub().rocking(0.0)
    assert movement[0] - none[0] == pytest.approx(-0.1e-3)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_a_difference_is_told_with_its_sign(kind):
    assert kind.size(kind.usual) == pytest.approx(-kind.size(-kind.usual))
    assert kind.turn(hub(), kind.usual) == pytest.approx(-kind.turn(hub(), -kind.usual))
    assert kind.size(0.0) == kind.turn(hub(), 0.0) == 0.0
    assert kind.turn(hub(), 2 * kind.usual) > kind.turn(hub(), kind.usual) > 0


def test_a_difference_in_play_is_one_in_end_play_by_the_lever_of_the_wheel():
    """Hand calculation: a shell that tilts about its middle moves at the rim by the radius over the half span.

    Both rows move by half of the end play, some more where balls leave gaps: between one and two times 311 / 30
    halves of it. A turn of the cone of 1 mm pitch moves by 1/360 mm a degree.
    """
    turn = degrees(KINDS["play"].turn(hub(), 0.1e-3))
    lead = 1.0 / 360
    assert 0.5 * 311 / 30 < 0.1 / (turn * lead) < 311 / 30


def test_a_difference_in_torque_is_told_at_the_middle_of_the_pairs():
    kind = KINDS["tightness"]
    first, second = kind.levels(kind.middle, log(2))
    assert second / first == pytest.approx(2)
    assert (first * second) ** 0.5 == pytest.approx(kind.middle)
    assert kind.size(log(2)) == pytest.approx(kind.middle * (2**0.5 - 0.5**0.5))
    assert 0 < kind.turn(hub(), log(2)) < pi / 4
