"""What is fitted to a real hub, held against hubs and hands that share nothing with the program."""

import dataclasses
from collections.abc import Callable
from dataclasses import dataclass
from statistics import NormalDist
from typing import Literal

import numpy as np
import pytest

from conemodel.base.units import MINUTE, MM
from conemodel.parts.library import SCENARIOS
from conemodel.parts.real_hub import State
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.hand.estimate import HELD
from conemodel.tasks.real_hub.fit import Fitted, fit_real_hub, weighted_interval
from conemodel.tasks.real_hub.lock_at import lock_at
from conemodel.tasks.real_hub.readings import Felt, Measured
from conemodel.tasks.real_hub.told import QUANTITIES, what_is_told
from conemodel.tasks.real_hub.unknown_hub import unknown_hub
from conemodel.tasks.setting.aim import MOST_TIGHT
from conemodel.tasks.setting.good_range import window_of
from tests.tasks.real_hub.bench_of_its_own import Hand, Hub, come_in, draw_hand, draw_hub, end_play_at

REAR = load_scenario(SCENARIOS / "touring-rear.toml")
STATES: tuple[State, ...] = ("nut loose", "locked", "clamped")
What = Literal["play", "drag"]
HUBS = 100


def felt(what: What, state: State, minutes: float, step: float = 1.0) -> Felt:
    return Felt(what=what, state=state, count=MINUTE.to_si(minutes), step=MINUTE.to_si(step))


USUAL = (
    felt("play", "nut loose", 2), felt("drag", "nut loose", 0),
    felt("play", "locked", 8), felt("drag", "locked", 6),
    felt("play", "clamped", 12), felt("drag", "clamped", 10),
)  # fmt: skip


def read_as(hub: Hub, hand: Hand, dice: np.random.Generator) -> list[Felt]:
    found = []
    for state in STATES:
        play, drag = come_in(hub, hand, state, dice)
        found += [felt("play", state, play), felt("drag", state, drag)]
    return found


@dataclass
class Tried:
    """One hub, its hand, and what the program made of them."""

    hub: Hub
    hand: Hand
    fitted: Fitted


TRUTHS: dict[str, Callable[[Tried], float]] = {
    "slack": lambda one: one.hub.slack,
    "clamp_give": lambda one: one.hub.clamp_give,
    "felt_play": lambda one: one.hand.felt_play,
    "felt_drag": lambda one: -one.hub.drag_end_play(one.hand.felt_drag),
}


@pytest.fixture(scope="module")
def tried() -> list[Tried]:
    found = []
    for number in range(HUBS):
        dice = np.random.default_rng((13, number))
        hub, hand = draw_hub(dice), draw_hand(dice)
        found.append(Tried(hub, hand, fit_real_hub(REAR, read_as(hub, hand, dice))))
    return found


@pytest.mark.parametrize("name", QUANTITIES)
def test_an_interval_holds_the_truth_as_often_as_it_says(tried, name):
    # Four in five; asked for: three in four. 100 hubs err by 0.04, so far above 0.92 the intervals would be idle.
    of, truth = QUANTITIES[name].of, TRUTHS[name]
    intervals = [one.fitted.interval(of) for one in tried]
    held = [at.low <= truth(one) <= at.high for at, one in zip(intervals, tried, strict=True)]
    assert 0.75 <= np.mean(held) <= 0.92


@pytest.mark.parametrize(
    ("name", "most"), [("slack", 7e-6), ("clamp_give", 6e-6), ("felt_play", 0.03e-3), ("felt_drag", 4e-6)]
)
def test_the_median_error_is_as_stated(tried, name, most):
    """Counts a minute apart are 17 µm apart: an edge between two lies 4 µm from their middle (closed form, median).

    With the mark's 2°, another 4 µm in the median, that is 6 µm for one number read once; a play just felt at 10 µm of
    end play, read three times over, errs by a fifth.
    """
    of, truth = QUANTITIES[name].of, TRUTHS[name]
    assert np.median([abs(one.fitted.interval(of).value - truth(one)) for one in tried]) < most


def test_hubs_of_another_make_are_not_called_misread(tried):
    # one reading in 370 lies so far off by chance, six to a hub; angles, grooves and rubbing are not the model's
    faulted = [one.fitted.clash or any(each.left_out for each in one.fitted.readings) for one in tried]
    assert np.mean([bool(each) for each in faulted]) < 0.06


def test_a_hub_locked_where_it_says_is_right_as_often_as_it_says(tried):
    """Hubs of another make, locked and clamped at the count by a hand that errs: right as often as foretold."""
    window, right, foretold, tight = window_of(REAR), [], [], []
    for number, one in enumerate(tried):
        lock = lock_at(one.fitted)
        if lock is not None:
            end_play = end_play_at(one.hub, lock.count, "clamped", np.random.default_rng((15, number)))
            right.append(window.state(end_play) == "right")
            tight.append(window.state(end_play) == "tight")
            foretold.append(lock.right)
    assert len(right) > 0.9 * HUBS
    assert np.mean(right) == pytest.approx(np.mean(foretold), abs=0.08)  # 100 hubs err by 0.03
    assert np.mean(tight) < MOST_TIGHT


def test_no_count_to_lock_at_where_readings_clash_or_only_the_nut_was_loose():
    assert lock_at(fit_real_hub(REAR, USUAL[:2])) is None
    assert lock_at(fit_real_hub(REAR, [felt("play", "locked", 6), felt("play", "locked", 15)])) is None


def test_a_dial_along_the_axle_tells_the_slack_within_a_hundredth_of_a_millimetre():
    """Read at one count with the nut loose and once locked, by a gauge that errs evenly by up to 0.02 mm."""
    off = []
    for number in range(30):
        dice = np.random.default_rng((14, number))
        hub, count = draw_hub(dice), MINUTE.to_si(20)
        ends: dict[State, float] = {"nut loose": hub.contact + count * 1e-3 / (2 * np.pi)}
        ends["locked"] = ends["nut loose"] - hub.locked_by(np.radians(dice.triangular(2, 3, 5)), 1.0)
        readings = [
            Measured(
                place="axle", state=state, count=count, play=end + dice.uniform(-2e-5, 2e-5), error=1.2e-5
            )
            for state, end in ends.items()
        ]
        off.append(abs(fit_real_hub(REAR, readings).interval(QUANTITIES["slack"].of).value - hub.slack))
    assert np.median(off) < MM.to_si(0.01)


def test_one_number_misread_is_named_and_nothing_rests_on_it():
    wrong = (*USUAL[:2], felt("play", "locked", 18), *USUAL[3:])  # written 18 for 8
    fitted = fit_real_hub(REAR, wrong)
    assert [each.left_out for each in fitted.readings] == [False, False, True, False, False, False]
    assert fitted.readings[2].deleted > 3
    without = fit_real_hub(REAR, (*USUAL[:2], *USUAL[3:]))
    for quantity in QUANTITIES.values():
        assert fitted.interval(quantity.of) == without.interval(quantity.of)


def test_two_numbers_that_contradict_each_other_are_both_named_and_nothing_rests_on_either():
    fitted = fit_real_hub(REAR, [felt("play", "locked", 6), felt("play", "locked", 15)])
    assert fitted.clash == (0, 1)
    assert not any(each.left_out for each in fitted.readings)
    assert not any(told.told or told.tied_to for told in what_is_told(fitted).values())


def test_a_reading_that_is_left_out_is_foretold_by_the_others():
    """The deleted residual against its definition [CookWeisberg1982]: fit without the reading, and foretell it.

    The two are the same where all is linear; these readings are nearly so, their bells a little askew.
    """
    for number, count in ((2, 10), (4, 14), (4, 10)):
        off = dataclasses.replace(USUAL[number], count=MINUTE.to_si(count))
        fitted = fit_real_hub(REAR, [*USUAL[:number], off, *USUAL[number + 1 :]])
        others = fit_real_hub(REAR, [*USUAL[:number], *USUAL[number + 1 :]])
        miss = off.miss(others.hub, others.shown)
        mean = others.weight @ miss
        error = np.sqrt(others.weight @ (miss - mean) ** 2 + fitted.readings[number].spread ** 2)
        assert abs(mean / error) > 1
        assert fitted.readings[number].deleted == pytest.approx(mean / error, rel=0.2)


def test_slack_and_threshold_are_not_told_apart_by_play_once_locked():
    told = what_is_told(fit_real_hub(REAR, [felt("play", "locked", 8)]))
    threshold = told["felt_play"]
    assert not threshold.told
    assert threshold.tied_to is QUANTITIES["slack"]
    assert threshold.opposed
    assert threshold.together is not None
    # what is known is their sum, at half a minute within 8: that much cone less what fingers and locking take
    lead, assumed = REAR.axle.lead_per_radian, unknown_hub(REAR)
    at = assumed.show(np.zeros((1, assumed.size)))
    sum_of_both = MINUTE.to_si(7.5) * lead + float(at.end_play["locked"][0] + at.slack[0])
    assert threshold.together.value == pytest.approx(sum_of_both, abs=4e-6)
    width, alone = threshold.together, told["slack"].now
    assert width.high - width.low < 0.75 * (alone.high - alone.low)


def test_with_the_nut_loose_they_are_told_apart():
    told = what_is_told(fit_real_hub(REAR, [felt("play", "nut loose", 2), felt("play", "locked", 8)]))
    assert told["felt_play"].told
    assert told["slack"].told


def test_nothing_read_is_nothing_told():
    fitted = fit_real_hub(REAR, [])
    for told in what_is_told(fitted).values():
        assert not told.told
        assert told.tied_to is None
        assert told.now.value == pytest.approx(told.before.value, rel=1e-9)


def test_a_slack_that_was_measured_is_not_asked_of_the_readings():
    known = REAR.replace(axle=REAR.axle.replace(thread_clearance=0.1e-3))
    assert what_is_told(fit_real_hub(known, USUAL))["slack"].given


def test_the_same_readings_give_the_same_answer():
    first, second = (fit_real_hub(REAR, USUAL) for _ in range(2))
    assert first.interval(QUANTITIES["slack"].of) == second.interval(QUANTITIES["slack"].of)


def test_an_interval_of_a_bell_is_the_bells():
    # Normal distribution, closed form: four in five lie within 1.2816 standard deviations.
    values = np.random.default_rng(1).normal(3.0, 2.0, 200_000)
    found = weighted_interval(values, np.full(values.size, 1 / values.size))
    reach = 2.0 * NormalDist().inv_cdf((1 + HELD) / 2)
    assert (found.low, found.value, found.high) == pytest.approx((3 - reach, 3.0, 3 + reach), abs=0.03)
