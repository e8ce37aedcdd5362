"""The push a play is read under: springs in series, Bayes' rule, and what must not be concluded from it."""

from typing import Any

import numpy as np
import pytest
from scipy.stats import norm

from conemodel.parts.priors import CAUSES, Beliefs
from conemodel.parts.readings import Play, Readings
from conemodel.solve.freeplay.hand_positions import solve_felt_play
from conemodel.solve.stages.terms import pair_of
from conemodel.solve.wheel.rocking import rocking_curve
from conemodel.tasks.diagnosis.assumed_hub import usual_hub
from conemodel.tasks.diagnosis.diagnose import Diagnosis, diagnose
from conemodel.tasks.diagnosis.model import HubModel, model_of
from conemodel.tasks.diagnosis.posterior import posterior_of
from conemodel.tasks.diagnosis.push import give_at_rim, give_below, give_quantile, pushes_of, wheel_give
from tests.tasks.diagnosis.simulated import readings_of

REAR = usual_hub("rear")
RARE: dict[str, Any] = dict.fromkeys(CAUSES[1:], 1e-6)


def read(opened: float, closed: float, **more: Any) -> Readings:
    """Return the readings of plays at the rim [mm] under a push, and what else was read at each."""
    plays = {
        f"rim_{clamp}": Play(play=play * 1e-3, **more)
        for clamp, play in (("open", opened), ("closed", closed))
    }
    return readings_of({**plays, "turns_closed": "free"})


def closed_end_play(readings: Readings) -> tuple[float, float]:
    """Return median and width of the 80 % interval of closed end play [m]."""
    found = diagnose(readings, REAR, beliefs=Beliefs(**RARE)).closed
    assert found is not None
    low, high = found.intervals[0.8]
    return found.median, high - low


def test_a_wheel_gives_as_a_spring_both_ways() -> None:
    """Hooke: 5 N each way on 60 N/mm are 0.17 mm."""
    assert wheel_give(REAR, 5.0) == pytest.approx(2 * 5.0 / 60e3)


@pytest.mark.parametrize("push", [1.5, 5.0, 12.0])
def test_the_bearing_gives_what_its_balance_of_forces_says(push: float) -> None:
    """Between the points that are kept, against the hub solved afresh; to a micrometre, a gauge reads ten."""
    ends = np.array([-40e-6, -7.5e-6, 0.0, 3e-6, 50e-6, 0.3e-3])
    pair, radius = pair_of(REAR), REAR.wheel.rim_radius
    free, _ = solve_felt_play(pair, ends, rim_radius=radius, axle_arm=REAR.axle_end_arm)
    there, back = (
        rocking_curve(pair, end_play=ends, rim_radius=radius, force=way * push).bearing for way in (1, -1)
    )
    assert give_at_rim(REAR, push, ends) == pytest.approx(there - back - free, abs=1.5e-6)
    assert np.all(give_at_rim(REAR, 0.0, ends) == 0.0)


def test_pushes_are_weighed_to_one_and_end_where_the_readings_can_tell_them_apart() -> None:
    beliefs = Beliefs()
    for readings in (
        read(0.6, 0.3),
        read(0.6, 0.3, push=5.0),
        read(0.6, 0.3, push=2.0, play_hard=0.7e-3, push_hard=6.0),
    ):
        pushes = pushes_of(readings, REAR, beliefs)
        assert len(pushes) > 2
        assert sum(push.weight for push in pushes) == pytest.approx(1.0)
    assert len(pushes_of(Readings(), REAR, beliefs)) == 1
    assert len(pushes_of(read(0.6, 0.3, push=0.0), REAR, beliefs)) == 1


def test_what_nobody_stated_lies_as_it_is_believed() -> None:
    """Counted on draws of push and stiffness; to three standard errors of so many."""
    beliefs, dice, count = Beliefs(), np.random.default_rng(1), 40_000
    low, high = beliefs.rim_push
    soft, stiff = beliefs.wheel_stiffness
    stiffness = 60e3 * np.exp(np.log(stiff / soft) / 4 * dice.standard_normal(count))
    push = np.where(dice.uniform(size=count) < beliefs.no_push, 0.0, dice.uniform(low, high, count))
    drawn = 2 * push / stiffness
    at = np.array([0.02e-3, 0.1e-3, 0.17e-3])
    counted = np.array([(drawn <= one).mean() for one in at])
    assert give_below(REAR, beliefs, at) == pytest.approx(counted, abs=3 * 0.5 / count**0.5 + 0.01)
    middle = give_quantile(REAR, beliefs, np.array(0.5))
    assert float(give_below(REAR, beliefs, middle[None])[0]) == pytest.approx(0.5, abs=0.01)


def by_hand(reads: dict[float, float], softness: np.ndarray, weight: np.ndarray) -> tuple[float, float]:
    """Return median and width of the 80 % interval of closed end play [m]: every end play and softness tried.

    `reads` are plays at the rim by the push [N] they were read under, the gauge's error as believed; the
    model's own errors are shared by all of them. A flat prior: what is believed before is some ten times as wide.
    """
    ends = np.linspace(5e-6, 90e-6, 400)
    free, _ = solve_felt_play(
        pair_of(REAR), ends, rim_radius=REAR.wheel.rim_radius, axle_arm=REAR.axle_end_arm
    )
    errors = np.linspace(-3, 3, 31)
    spread = np.hypot(Beliefs().play_floor, Beliefs().play_model * free)
    total = np.zeros(ends.size)
    for soft, share in zip(softness, weight, strict=True):
        each = norm.pdf(errors)[None, :] * np.ones((ends.size, 1))
        for push, play in reads.items():
            met = free + soft * wheel_give(REAR, push) + give_at_rim(REAR, push, ends)
            each *= norm.pdf(play, met[:, None] + spread[:, None] * errors, Beliefs().dial_uncertainty)
        total += share * each.sum(axis=1)
    below = np.cumsum(total) / total.sum()
    low, middle, high = np.interp([0.1, 0.5, 0.9], below, ends)
    return float(middle), float(high - low)


@pytest.mark.parametrize(
    "reads", [{5.0: 0.45e-3}, {2.0: 0.40e-3, 6.0: 0.52e-3}], ids=["one push", "two pushes"]
)
def test_a_stated_push_is_taken_off_as_bayes_would(reads: dict[float, float]) -> None:
    beliefs = Beliefs(**RARE)
    soft, stiff = beliefs.wheel_stiffness
    spread = np.hypot(np.log(stiff / soft) / 4, np.log(beliefs.stated_push_factor))
    at = np.linspace(-2.5, 2.5, 101)
    middle, width = by_hand(reads, np.exp(spread * at), norm.pdf(at))
    first, *second = reads.items()
    more: dict[str, Any] = {"play_hard": second[0][1], "push_hard": second[0][0]} if second else {}
    readings = readings_of({"rim_closed": Play(play=first[1], push=first[0], **more)})
    found = closed_end_play(readings)
    # a sixth of the width: an error nobody would notice
    assert found[0] == pytest.approx(middle, abs=width / 6)
    assert found[1] == pytest.approx(width, rel=0.12)


def test_a_harder_push_leaves_less_play_and_two_pushes_narrow_it() -> None:
    """The sum of play and give is read: the more gives, the less is play."""
    none, light, hard = (closed_end_play(read(0.6, 0.4, push=push)) for push in (0.0, 2.0, 5.0))
    assert none[0] > light[0] > hard[0]
    assert none[1] < light[1] < hard[1]
    unknown = closed_end_play(read(0.6, 0.4))
    assert hard[0] < unknown[0] < none[0]
    assert unknown[1] > hard[1]
    twice: dict[str, Any] = {"play_hard": 0.5e-3, "push_hard": 6.0}
    two = readings_of({"rim_closed": Play(play=0.4e-3, push=2.0, **twice)})
    one = readings_of({"rim_closed": Play(play=0.4e-3, push=2.0)})
    assert closed_end_play(two)[1] < closed_end_play(one)[1]


def test_a_tight_hub_pushed_hard_does_not_accuse_the_clamp() -> None:
    """Play 0.2 mm open and none closed, and 0.17 mm of wheel in both: it looks as if half stayed on closing."""

    def accused(readings: Readings) -> Any:
        return next(fault for fault in diagnose(readings, REAR).faults if fault.key == "not_clamping")

    for more in ({"push": 5.0}, {}):
        assert accused(read(0.39, 0.19, **more)).chance < 0.1
        assert accused(read(0.9, 0.9, **more)).blocks


@pytest.mark.parametrize(
    ("first", "harder", "words"),
    [
        (0.5, 0.6, "differ too little for the harder push"),
        (0.6, 0.4, "a harder push cannot give less"),
        (0.5, 1.6, "differ too much for the harder push"),
    ],
)
def test_two_pushes_that_clash_with_each_other_are_told_so(first: float, harder: float, words: str) -> None:
    """10 N more each way bend a wheel of 60 N/mm by 2 x 10/60 = 0.33 mm (Hooke's law), and never the other way."""
    twice: dict[str, Any] = {"push": 5.0, "play_hard": harder * 1e-3, "push_hard": 15.0}
    readings = readings_of({"rim_closed": Play(play=first * 1e-3, **twice)})
    (said,) = diagnose(readings, REAR).contradictions
    assert words in said
    assert "lead one to expect" not in said
    twice["play_hard"] = (first + 0.33) * 1e-3
    assert not diagnose(readings_of({"rim_closed": Play(play=first * 1e-3, **twice)}), REAR).contradictions


def test_play_that_grew_on_closing_is_questioned_not_averaged() -> None:
    grown = read(0.1, 0.6)
    found = diagnose(grown, REAR)
    assert any("grew on closing" in line for line in found.contradictions)
    assert found.move is None
    explained = diagnose(grown.replace(checks=grown.checks.replace(freehub_rocks="yes")), REAR)
    assert not any("grew on closing" in line for line in explained.contradictions)


def keys(found: Diagnosis) -> list[str]:
    return [step.key for step in found.next_steps]


def test_two_pushes_or_a_gauge_along_the_axle_are_offered_where_a_push_blurs() -> None:
    blurred, clear = (diagnose(read(0.6, 0.3, **more), REAR) for more in ({}, {"push": 0.0}))
    assert {"rim_closed.play_hard", "axle_along_closed"} <= set(keys(blurred))
    assert not any(key.endswith("play_hard") for key in keys(clear))
    bits = {step.key: step.bits for step in blurred.next_steps}
    sharp = {step.key: step.bits for step in clear.next_steps}
    assert bits["rim_closed.play_hard"] > 0.1
    assert bits["axle_along_closed"] > sharp["axle_along_closed"]


def test_what_no_push_bears_on_is_the_same_for_every_push() -> None:
    readings = read(0.6, 0.3)
    model: HubModel = model_of(readings, REAR, Beliefs())
    posterior = posterior_of(model, readings)
    count = len(posterior.model.pushes)
    word = posterior.readings[0]["turns_closed"]
    for push in range(1, count):
        assert np.array_equal(word[::count], word[push::count])
