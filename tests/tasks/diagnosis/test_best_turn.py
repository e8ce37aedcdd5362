"""Do the turns bring hubs right? Hubs drawn from the prior, measured, turned by a hand that errs, measured again."""

from typing import Any

import numpy as np
import pytest
from scipy.special import ndtr

from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Play, Readings, Round
from conemodel.tasks.diagnosis.assumed_hub import usual_hub
from conemodel.tasks.diagnosis.best_turn import CURABLE, best_move
from conemodel.tasks.diagnosis.between_rounds import turn_error
from conemodel.tasks.diagnosis.diagnose import diagnose
from conemodel.tasks.diagnosis.model import model_of
from conemodel.tasks.diagnosis.posterior import Posterior, posterior_of
from conemodel.tasks.setting.good_range import Window, window_of
from tests.tasks.diagnosis.simulated import Bench, readings_of

REAR = usual_hub("rear")
DIALS = ("rim_open dial", "rim_closed dial", "turns_open", "turns_closed")
WITH_WEIGHT = (*DIALS, "weight")
HANDS = ("rim_open hand", "rim_closed hand", "turns_closed")


def shares_right(
    count: int, kinds: tuple[str, ...], *, moves: int, seed: int
) -> tuple[list[float], list[float]]:
    """Return the share of sound hubs in the good range after each move, and the mean chance that was foretold."""
    beliefs = Beliefs()
    bench = Bench(REAR, beliefs, seed)
    window = window_of(REAR)
    hubs = [bench.draw(sound=True) for _ in range(count)]
    looks: list[list[dict]] = [[] for _ in hubs]
    turned = [0.0] * count
    foretold = [0.0] * count
    found, said = [], []
    live = list(range(count))
    for move in range(moves):
        for i, look in zip(live, list(bench.looks([hubs[j] for j in live], kinds)), strict=True):
            if move:
                look |= {"turned_out": max(turned[i], 0.0), "turned_in": max(-turned[i], 0.0)}
            looks[i].append(look)
            readings = readings_of(*looks[i])
            best = best_move(posterior_of(model_of(readings, REAR, beliefs), readings), window)
            assert best is not None
            turned[i] = best.angle if best.worth_it else 0.0
            foretold[i] = best.chance if best.worth_it else best.chance_now
            if best.worth_it:
                bench.turn(hubs[i], best.length)
        found.append(sum(window.state(hub.closed) == "right" for hub in hubs) / count)
        said.append(sum(foretold) / count)
        live = [i for i in live if turned[i] != 0.0]
    return found, said


def test_measured_hubs_come_right(record_testsuite_property):
    found, said = shares_right(50, WITH_WEIGHT, moves=2, seed=3)
    record_testsuite_property("share right after each move", found)
    assert found[0] >= 0.86  # 90 % less a standard error of fifty draws
    assert found[1] >= 0.96
    assert said[0] == pytest.approx(found[0], abs=0.12)


def test_where_the_gauge_shows_play_clamped_it_is_enough():
    """Dial gauge alone, at the rim: play that is left once clamped places the cone."""
    beliefs = Beliefs()
    bench = Bench(REAR, beliefs, 11)
    window = window_of(REAR)
    right = []
    for look in range(120):
        hub = bench.draw(sound=True)
        if hub.closed < 0.015e-3:
            continue
        found = next(bench.looks([hub], ("rim_open dial", "rim_closed dial")))
        readings = readings_of(found)
        best = best_move(posterior_of(model_of(readings, REAR, beliefs), readings), window)
        assert best is not None, look
        if best.worth_it:
            bench.turn(hub, best.length)
        right.append(window.state(hub.closed) == "right")
    assert len(right) > 40
    assert sum(right) / len(right) >= 0.95


@pytest.mark.slow
def test_most_measured_hubs_come_right_in_one_move_and_nearly_all_in_two(record_testsuite_property):
    """Dial gauge and the weight that starts the wheel; the project's own goal of 90 % and 98 %."""
    found, said = shares_right(400, WITH_WEIGHT, moves=2, seed=4)
    record_testsuite_property("share right after each move", found)
    assert found[0] >= 0.90
    assert found[1] >= 0.98
    assert said[0] == pytest.approx(found[0], abs=0.04)


@pytest.mark.slow
@pytest.mark.parametrize("kinds", [DIALS, HANDS], ids=["dial gauge alone", "hands alone"])
def test_what_less_achieves_is_what_is_foretold(record_testsuite_property, kinds):
    found, said = shares_right(300, kinds, moves=3, seed=5)
    record_testsuite_property("share right after each move", found)
    record_testsuite_property("chance foretold", said)
    for share, chance in zip(found, said, strict=True):
        assert share == pytest.approx(chance, abs=0.08)
    assert found[2] > found[0]


def chances_after(
    posterior: Posterior, window: Window, length: float, *, hard: bool = False
) -> tuple[float, float]:
    """Return the chances of ending in the good range and tight after a turn of `length` [m] instead of the best one.

    `hard`: where the hand pushed harder than three of four would.
    """
    pushes, beliefs = posterior.model.pushes, posterior.model.beliefs
    asked = [
        case.cause in CURABLE and (not hard or pushes[i % len(pushes)].rank >= 0.75)
        for i, case in enumerate(posterior.model.cases)
    ]
    chance = posterior.chance[asked]
    ends = np.broadcast_to(posterior.closed, posterior.chance.shape)[asked] + length
    error = np.hypot(turn_error(posterior.model.scenario, beliefs.hand_error), beliefs.range_error)
    tight = ndtr((window.tight_edge - ends) / error)
    inside = ndtr((window.loose_edge - ends) / error) - tight
    return float((inside * chance).sum() / chance.sum()), float((tight * chance).sum() / chance.sum())


def chance_after(posterior: Posterior, window: Window, length: float) -> float:
    """Return the chance of ending in the good range after a turn of `length` [m] instead of the best one."""
    return chances_after(posterior, window, length)[0]


LOOKS: dict[str, Any] = {
    "unstated": {"rim_open": Play(play=0.9e-3), "rim_closed": Play(play=0.3e-3)},
    "stated": {"rim_open": Play(play=0.9e-3, push=5.0), "rim_closed": Play(play=0.3e-3, push=5.0)},
    "loose by hand": {
        "rim_open": Play(hand="clear"),
        "rim_closed": Play(hand="clear"),
        "turns_closed": "free",
    },
    "tight by hand": {
        "rim_open": Play(hand="none"),
        "rim_closed": Play(hand="none"),
        "turns_closed": "tight",
    },
}


@pytest.mark.parametrize("name", LOOKS)
def test_an_advised_turn_ends_tight_one_time_in_ten_at_most_whoever_pushed(name):
    """The project's own rule; another sum over the posterior, and over the part of hands that push hard."""
    readings = readings_of(LOOKS[name])
    posterior = posterior_of(model_of(readings, REAR, Beliefs()), readings)
    window = window_of(REAR)
    best = best_move(posterior, window)
    assert best is not None
    assert best.known
    assert best.worth_it
    right, tight = chances_after(posterior, window, best.length)
    assert (best.chance, best.tight) == pytest.approx((right, tight), abs=0.01)
    assert tight <= 0.1 + 0.005
    if name == "unstated":
        assert chances_after(posterior, window, best.length, hard=True)[1] <= 0.1 + 0.005
        # it is this that holds it back: one degree further and it is broken
        further = best.length - np.radians(1.5) * best.lead_per_radian
        assert chances_after(posterior, window, further, hard=True)[1] > 0.1
    assert best.cautious == (right < 0.5)


def test_a_turn_that_will_hardly_end_right_is_a_step_to_be_felt_again():
    diagnosis = diagnose(readings_of(LOOKS["loose by hand"]), REAR)
    assert diagnosis.move is not None
    assert diagnosis.move.cautious
    assert "A cautious step: " in diagnosis.sentence
    assert "in (clockwise), then feel it clamped again" in diagnosis.sentence
    sure = diagnose(readings_of(LOOKS["stated"]), REAR)
    assert sure.move is not None
    assert not sure.move.cautious
    assert "cautious" not in sure.sentence


def test_a_hub_that_is_unlikely_right_is_not_left_alone_for_want_of_a_turn():
    """One word open: loose most likely, and no turn that seldom ends tight gains much. Then it is measured first."""
    diagnosis = diagnose(readings_of({"rim_open": Play(hand="clear")}), REAR)
    assert diagnosis.states is not None
    assert diagnosis.states["right"] < 0.5
    assert not diagnosis.leave
    assert "Leave it" not in diagnosis.sentence


def test_the_chance_of_the_best_turn_is_no_worse_than_of_any_other():
    readings = readings_of(
        {"rim_open": Play(play=0.9e-3, push=0.0), "rim_closed": Play(play=0.3e-3, push=0.0)}
    )
    posterior = posterior_of(model_of(readings, REAR, Beliefs()), readings)
    window = window_of(REAR)
    best = best_move(posterior, window)
    assert best is not None
    assert best.chance == pytest.approx(chance_after(posterior, window, best.length), abs=0.01)
    for other in (-0.1e-3, -0.02e-3, 0.0, 0.02e-3):
        assert chance_after(posterior, window, other) <= best.chance + 0.01
    assert best.chance_now == pytest.approx(chance_after(posterior, window, 0.0), abs=0.05)


def test_a_hub_that_is_right_is_left_alone():
    look = {
        "rim_open": Play(play=0.55e-3, push=0.0),
        "rim_closed": Play(play=0.0, push=0.0),
        "turns_closed": "free",
    }
    look["starting_weight"] = 3.0e-3
    diagnosis = diagnose(readings_of(look), REAR)
    assert diagnosis.leave
    assert diagnosis.move is None
    assert "Leave it" in diagnosis.sentence
    assert diagnosis.steps == ()


def test_the_turn_is_said_as_a_procedure_with_side_direction_and_range():
    look = {"rim_open": Play(play=0.9e-3), "rim_closed": Play(play=0.3e-3)}
    diagnosis = diagnose(readings_of(look), REAR)
    assert diagnosis.move is not None
    low, high = diagnosis.move.angle_range
    assert low < diagnosis.move.angle < high < 0
    work = " ".join(diagnosis.steps)
    for word in (
        "pen line",
        "loosen",
        "left",
        "in (clockwise)",
        "o'clock",
        "tighten",
        "between",
        "next round",
    ):
        assert word in work


def test_what_is_a_toss_up_is_measured_before_it_is_turned():
    """None, none, free: right or too tight; the turn is likelier to end right than the hub is to be so."""
    by_hand = {"rim_open": Play(hand="none"), "rim_closed": Play(hand="none"), "turns_closed": "free"}
    diagnosis = diagnose(readings_of(by_hand), REAR)
    assert diagnosis.move is not None
    assert diagnosis.move.chance > diagnosis.move.chance_now
    assert diagnosis.headline.answer.certainty == "not to be told from these readings"
    assert diagnosis.headline.answer.act.startswith("Measure first. Where you cannot: turn the cone out")
    assert diagnosis.next_steps


def test_no_turn_is_advised_that_is_no_likelier_to_end_right_than_the_hub_is_to_be_so():
    """Nutted, no play open or closed, not yet turned: a step out would only trade too tight for loose."""
    nothing = Round(rim_open=Play(hand="none"), rim_closed=Play(hand="none"))
    diagnosis = diagnose(Readings(clamp="nuts", found=nothing))
    assert diagnosis.move is None
    assert diagnosis.steps == ()
    assert "No turn yet: look further first." in diagnosis.sentence
    assert diagnosis.next_steps


def test_the_work_begins_with_opening_the_clamp():
    """Common practice, no source: what holds the wheel is opened before the axle can be held in a vice.

    Where nobody said what holds it, nothing is named that may not be there.
    """
    acts = (("quick release", "Open the clamp"), ("nuts", "Open the nuts"), (None, "Release the wheel"))
    for clamp, opens in acts:
        diagnosis = diagnose(
            Readings(clamp=clamp, found=Round(rim_open=Play(hand="clear"), rim_closed=Play(hand="slight")))
        )
        assert diagnosis.steps[0].startswith(opens)
        assert diagnosis.steps[0].index("vice") > diagnosis.steps[0].index(" out")
