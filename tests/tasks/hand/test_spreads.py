"""What a measured hand gives to practice. The law: simulated looks of that spread are told apart at that threshold."""

from math import exp, log
from random import Random

import pytest

from conemodel.parts.scatter import Scatter
from conemodel.tasks.hand.spreads import scatter_of_hand, spread_of_one_look


def test_looks_that_scatter_so_are_told_apart_three_times_in_four():
    draw, threshold = Random(1), 0.2
    look = spread_of_one_look(threshold)
    right = sum(draw.gauss(threshold, look) > draw.gauss(0.0, look) for _ in range(40_000))
    assert right / 40_000 == pytest.approx(0.75, abs=0.007)  # three standard errors


def test_only_what_was_measured_takes_the_place_of_what_is_assumed():
    assumed = Scatter()
    assert scatter_of_hand(assumed, {}) == assumed
    torques = scatter_of_hand(assumed, {"tightness": log(1.13)})
    assert torques.drag == pytest.approx(exp(log(1.13) * 1.0484), rel=1e-4)  # 1 / (0.6745 √2)
    assert torques.replace(drag=assumed.drag) == assumed
    play = scatter_of_hand(assumed, {"play": 0.05e-3})
    assert play.play == pytest.approx(
        exp(0.5 * 1.0484), rel=1e-4
    )  # against 0.1 mm, the play that is just felt


def test_a_finer_hand_scatters_less_and_every_hand_within_what_practice_takes():
    factors = [scatter_of_hand(Scatter(), {"play": at}).play for at in (1e-6, 0.02e-3, 0.05e-3, 1.0)]
    assert factors == sorted(factors)
    assert factors[0] == pytest.approx(1.0, abs=0.02)
    assert factors[-1] == 3.0
