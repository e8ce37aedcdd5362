"""What riding does between two rounds. Laws of probability; facts of the trade are common practice, no source."""

from typing import Any

import numpy as np
import pytest

from conemodel.base.errors import InputProblems
from conemodel.parts.checks import Answer
from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Play, Readings, Round
from conemodel.parts.toml_files import read_part
from conemodel.tasks.diagnosis.between_rounds import spread_out, spreads_before
from conemodel.tasks.diagnosis.diagnose import Diagnosis, diagnose
from conemodel.tasks.diagnosis.looks import MARKS
from conemodel.tasks.diagnosis.model import model_of

GRID = np.linspace(-0.2e-3, 0.8e-3, 501)
BACK = ("creeping", "loose_cup", "wearing")
"""What lets play come back. Common practice, no source."""


def set_right_then(ridden: Answer, play: float) -> Diagnosis:
    """Return the diagnosis of a hub found loose, set right, and looked at again."""
    return diagnose(
        Readings(
            clamp="quick release",
            found=Round(rim_open=Play(play=0.86e-3), rim_closed=Play(play=0.43e-3)),
            round_2=Round(turned_in=0.45, rim_open=Play(play=0.4e-3), rim_closed=Play(play=0.02e-3)),
            round_3=Round(ridden=ridden, rim_open=Play(play=play + 0.4e-3), rim_closed=Play(play=play)),
        )
    )


def of(diagnosis: Diagnosis, *causes: str) -> float:
    return sum(fault.chance for fault in diagnosis.faults if fault.key in causes)


def test_play_that_comes_back_in_riding_speaks_for_what_creeps_or_wears():
    before = sum(Beliefs().chance(cause) for cause in BACK)
    ridden = set_right_then("yes", 0.5e-3)
    assert not ridden.contradictions  # the turn before was not wrong
    assert of(ridden, *BACK) > 0.9 > 10 * before
    assert of(set_right_then("yes", 0.02e-3), *BACK) < before


def test_play_that_comes_back_by_hand_words_alone_is_said_before_any_turn():
    felt: dict[str, Any] = {"rim_open": Play(hand="clear"), "turns_closed": "free"}
    rounds: dict[str, Any] = {
        "found": Round(**felt, rim_closed=Play(hand="clear")),
        "round_2": Round(**felt, rim_closed=Play(hand="none"), turned_in=0.45),
        "round_3": Round(**felt, rim_closed=Play(hand="clear"), ridden="yes"),
    }
    diagnosis = diagnose(Readings(clamp="quick release", **rounds))
    assert diagnosis.headline.answer.words == "Play came back with riding"
    assert diagnosis.move is None
    assert diagnosis.next_steps[0].key in MARKS
    still = rounds["round_3"].replace(rim_closed=Play(hand="none"))
    assert diagnose(Readings(clamp="quick release", **{**rounds, "round_3": still})).leave


def test_play_that_comes_back_without_riding_is_not_blamed_on_riding():
    assert set_right_then("no", 0.5e-3).contradictions


@pytest.mark.parametrize("cause", BACK)
def test_riding_moves_end_play_by_its_mean_where_something_gives_and_keeps_all_chance(cause):
    """Of an exponential distribution: its mean, all of it to one side; bedding in has no mean."""
    model = model_of(Readings(clamp="quick release"), None, Beliefs())
    believed = model.beliefs
    start = np.zeros((len(model.cases), GRID.size, 1))
    start[:, 100] = 1.0
    after = spread_out(start, spreads_before(model, Round(ridden="yes"), GRID))
    moved = ((GRID - GRID[100]) @ after)[:, 0]
    mean = believed.wear if cause == "wearing" else believed.growth
    for case, total, much in zip(model.cases, after.sum(axis=(1, 2)), moved, strict=True):
        assert total == pytest.approx(1.0, abs=0.01)
        if case.cause == cause:
            assert much == pytest.approx(mean, rel=0.05)
        elif case.cause not in BACK:
            assert much == pytest.approx(0.0, abs=1e-9)


def test_nothing_was_ridden_before_the_first_look_and_a_distance_is_a_ride():
    with pytest.raises(InputProblems, match="ridden"):
        read_part(Readings, "[found]\nridden = 'yes'", name="x")
    with pytest.raises(InputProblems, match="ridden_distance"):
        read_part(Readings, "[round_2]\nridden = 'no'\nridden_distance_km = 3", name="x")
    assert read_part(Readings, "[round_2]\nridden_distance_km = 30", name="x").round_2.was_ridden
