"""Whoever sets a hub by mouse, by finger or by keys fares alike: the same two hundred hubs by each, paired.

What the input decides of an act is how finely the cone is turned; every other act reaches practice in the same words
by each, as `tests/browser/test_inputs_alike.py` holds of the widgets themselves, so a naming round, which turns no
cone, is the same round by each. The hand's own error is drawn by the bench, from the seed, and alike for all.
The bounds are the project's own.
"""

from functools import lru_cache
from itertools import combinations
from unittest.mock import patch

import pytest

from conemodel.tasks.practice.marking import mark
from tests.tasks.practice import players
from tests.tasks.practice.hubs import open_link
from tests.tasks.practice.inputs import INPUTS, By, chance_of_such_a_difference, doing_by
from tests.tasks.practice.players import Player, careful, quarter_turn

SETTING = "04-locknut"
SEEDS = range(200)
SURE = 0.05 / 3
"""Three pairs of inputs are compared: each at a third of one in twenty (Bonferroni)."""


@lru_cache(maxsize=8)
def outcomes(player: Player, by: By, seeds: range = SEEDS) -> tuple[bool, ...]:
    """Return which seeds a player passes by an input."""
    with patch.object(players, "do", doing_by(by)):
        return tuple(mark(player(open_link(f"{SETTING}.inputs.{seed}"))).passed for seed in seeds)


@pytest.mark.slow
@pytest.mark.parametrize("by", INPUTS)
def test_a_hand_with_the_stated_scatter_passes_over_four_in_five_and_a_quarter_turn_under_three_in_ten(by):
    assert sum(outcomes(careful, by)) > 0.8 * len(SEEDS)
    assert sum(outcomes(quarter_turn, by)) < 0.3 * len(SEEDS)


@pytest.mark.slow
@pytest.mark.parametrize("player", [careful, quarter_turn])
def test_no_input_passes_more_often_than_another(player):
    for one, other in combinations(INPUTS, 2):
        assert chance_of_such_a_difference(outcomes(player, one), outcomes(player, other)) > SURE, (
            one,
            other,
        )


def test_the_same_seed_by_another_input_is_another_act_on_the_same_hub():
    """Else the pairs above would be of one and the same attempt, and could not differ."""
    benches = []
    for by in INPUTS:
        with patch.object(players, "do", doing_by(by)):
            benches.append(careful(open_link(f"{SETTING}.inputs.3")))
    assert len({bench.hidden for bench in benches}) == 1
    assert len({bench.hubs[0].cone for bench in benches}) == len(INPUTS)


def test_a_difference_is_found_where_there_is_one():
    """Ten seeds that one passes and the other does not: twice a half to the tenth, closed form."""
    one, other = [True] * 15, [True] * 5 + [False] * 10
    assert chance_of_such_a_difference(one, other) == pytest.approx(2 * 0.5**10)
    assert chance_of_such_a_difference(one, one) == 1.0
