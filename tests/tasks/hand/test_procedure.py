"""The procedure by itself: laws that its answers must follow, whatever the hand."""

from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.tasks.hand.estimate import estimate
from conemodel.tasks.hand.kinds import KINDS
from conemodel.tasks.hand.pairs import next_pair
from conemodel.tasks.hand.procedure import PAIRS, SIZES, Answer, next_size, posterior
from tests.tasks.hand.observer import BOTH

answers = st.lists(st.builds(Answer, difference=st.floats(-8.0, 8.0), second=st.booleans()), max_size=12)


@given(answers, st.randoms())
def test_the_order_of_answers_does_not_matter(given_, shuffle):
    # Bayes' rule: a product does not know its order.
    other = list(given_)
    shuffle.shuffle(other)
    assert posterior(other, usual=1.0) == pytest.approx(posterior(given_, usual=1.0), rel=1e-9, abs=1e-15)
    assert posterior(given_, usual=1.0).sum() == pytest.approx(1.0)


@given(answers, st.floats(1e-5, 1e3))
def test_the_measure_does_not_matter(given_, unit):
    # Metres or millimetres: the same hand.
    scaled = [Answer(difference=one.difference * unit, second=one.second) for one in given_]
    here, there = estimate(given_, usual=1.0), estimate(scaled, usual=unit)
    assert there.threshold.value == pytest.approx(here.threshold.value * unit, rel=1e-6)
    assert next_size(scaled, usual=unit) == pytest.approx(next_size(given_, usual=1.0) * unit)


@given(answers)
def test_the_hubs_changed_over_change_the_bias_and_nothing_else(given_):
    # Symmetry: what was second is first.
    mirrored = [Answer(difference=-one.difference, second=not one.second) for one in given_]
    here, there = estimate(given_, usual=1.0), estimate(mirrored, usual=1.0)
    assert there.threshold.value == pytest.approx(here.threshold.value, rel=1e-6)
    assert there.bias.value == pytest.approx(-here.bias.value, abs=1e-6)
    assert next_size(mirrored, usual=1.0) == next_size(given_, usual=1.0)


def test_an_interval_narrows_with_the_answers_and_holds_its_value():
    draw = Random(5)
    done = [Answer(difference=d, second=draw.gauss(d, 1.0) > 0) for d in (1.5, -1.5) * 40]
    widths = []
    for count in (0, 20, 80):
        found = estimate(done[:count], usual=1.0).threshold
        assert found.low < found.value < found.high
        widths.append(np.log(found.high / found.low))
    assert widths[0] > 1.5 * widths[1] > 2 * widths[2]


def test_right_answers_bring_harder_pairs_and_wrong_ones_easier():
    right = [Answer(difference=1.0, second=True), Answer(difference=-1.0, second=False)] * 4
    wrong = [Answer(difference=1.0, second=False), Answer(difference=-1.0, second=True)] * 4
    assert next_size(right, usual=1.0) < next_size([], usual=1.0) < next_size(wrong, usual=1.0)
    assert next_size([], usual=1.0) in SIZES


@pytest.mark.parametrize("kind", BOTH, ids=lambda kind: kind.name)
def test_a_pair_is_the_same_whenever_it_is_asked_for(kind):
    done = [Answer(difference=kind.usual, second=True)] * 3
    assert next_pair(kind, done, seed=7) == next_pair(kind, list(done), seed=7)
    assert next_pair(kind, done * 14, seed=7) is None
    assert len(done * 13) < PAIRS


@pytest.mark.parametrize("kind", BOTH, ids=lambda kind: kind.name)
def test_neither_the_place_nor_the_feel_of_one_hub_gives_a_pair_away(kind):
    """A reader of one hub, or of the place alone, does no better than chance.

    Of 300 first pairs the second has more in half, within three standard errors, 0.087; the lesser hub of a pair of
    play has no more where it stands first than where it stands second.
    """
    pairs = [pair for seed in range(300) if (pair := next_pair(kind, [], seed=seed))]
    second = np.array([pair.second > pair.first for pair in pairs])
    assert abs(second.mean() - 0.5) < 0.087
    assert np.ptp([min(pair.first, pair.second) for pair in pairs]) > 0.1 * kind.middle
    assert len({pair.difference for pair in pairs}) == 2
    for pair in pairs:
        assert (pair.difference > 0) == (pair.second > pair.first)


def test_both_hubs_of_a_pair_of_play_knock():
    # A knock by itself is no answer: both have free play, however small the difference.
    for seed in range(50):
        pair = next_pair(KINDS["play"], [], seed=seed)
        assert pair is not None
        assert min(pair.first, pair.second) >= 0.03e-3
