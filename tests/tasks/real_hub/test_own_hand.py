"""A threshold found on a real hub, where the same hand checks a hub; expected values are closed forms of bells."""

from math import exp, hypot, log

import pytest

from conemodel.base.units import MINUTE
from conemodel.parts.library import SCENARIOS
from conemodel.parts.readings import Play, Readings, Round
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.diagnosis.diagnose import diagnose
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.fit import fit_real_hub
from conemodel.tasks.real_hub.own_hand import beliefs_of_hand, own_threshold
from conemodel.tasks.real_hub.readings import Felt

REAR = load_scenario(SCENARIOS / "touring-rear.toml")


def test_what_is_not_told_is_not_handed_on():
    one = Felt(what="play", state="locked", count=MINUTE.to_si(8), step=MINUTE.to_si(1))
    assert own_threshold(fit_real_hub(REAR, [one])) is None
    far = Felt(what="play", state="locked", count=MINUTE.to_si(17), step=MINUTE.to_si(1))
    assert own_threshold(fit_real_hub(REAR, [one, far])) is None
    loose = Felt(what="play", state="nut loose", count=MINUTE.to_si(2), step=MINUTE.to_si(1))
    found = own_threshold(fit_real_hub(REAR, [one, loose]))
    assert found is not None
    assert found.low < found.value < found.high


def test_what_is_unknown_and_what_is_new_add_up_as_squares():
    # A range that holds four in five is 1.2816 standard deviations wide on either side (normal distribution).
    sigma = 0.3
    threshold = Interval(
        value=0.06e-3, low=0.06e-3 * exp(-1.2816 * sigma), high=0.06e-3 * exp(1.2816 * sigma)
    )
    beliefs = beliefs_of_hand(threshold)
    assert beliefs.own_felt_at_rim == 0.06e-3
    assert log(beliefs.own_factor) == pytest.approx(hypot(sigma, log(1.4) / 2**0.5), rel=1e-4)


def test_a_fine_hand_that_feels_nothing_leaves_less_play_than_a_coarse_one():
    """Order of likelihoods: what a fine hand would have felt is ruled out, what a coarse one misses is not."""
    felt = Readings(
        clamp="quick release", found=Round(rim_open=Play(hand="clear"), rim_closed=Play(hand="none"))
    )
    ends = []
    for size in (0.04e-3, 0.25e-3):
        threshold = Interval(value=size, low=size / 1.2, high=size * 1.2)
        closed = diagnose(felt, beliefs=beliefs_of_hand(threshold)).closed
        assert closed is not None
        ends.append(closed.intervals[0.8][1])
    assert ends[0] < ends[1]
