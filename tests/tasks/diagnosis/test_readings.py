"""A reading is one object and one entry. Laws of probability; the rest are the project's own rules."""

from typing import Any

import numpy as np
import pytest

from conemodel.base.units import Array
from conemodel.parts.felt_play import PLAY_WORDS
from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Play, Readings, Round
from conemodel.tasks.diagnosis.diagnose import diagnose
from conemodel.tasks.diagnosis.likelihood import TURNING_WORDS, Feel, turning_chances
from conemodel.tasks.diagnosis.model import HubModel, model_of
from conemodel.tasks.diagnosis.readings import READINGS, turning
from conemodel.tasks.diagnosis.readings.reading import NumberField, Pick, Reading

ENDS = np.linspace(-60e-6, 250e-6, 40)[None, :, None]
"""End plays [m], as the model takes them."""


@pytest.fixture(scope="module")
def model() -> HubModel:
    return model_of(Readings(), None, Beliefs())


class Smell(Reading):
    """The axle smells bent, ten times likelier where it is: made up for these tests."""

    __slots__ = ()

    def is_in(self, look: Round) -> bool:
        return True

    def describe(self, look: Round) -> str:
        return "bent"

    def likelihood(self, model: HubModel, look: Round, end_play: Array) -> Array:
        return np.array([0.5 if case.cause == "bent" else 0.05 for case in model.cases])[:, None, None]

    def strangeness(
        self, model: HubModel, look: Round, end_play: Array, chance: Array, likelihood: Array
    ) -> tuple[float, str]:
        return 0.5, ""

    def outcomes(self, model: HubModel, end_play: Array, pick: Pick) -> Array:
        raise AssertionError("it was taken")


def test_every_field_of_a_round_that_is_read_is_in_the_list():
    done = {"turned_in", "turned_out", "ridden", "ridden_distance"}
    read = {name for name in Round.model_fields if not name.endswith("_uncertainty")} - done
    assert set(READINGS) == read
    for reading in READINGS.values():
        for asked in reading.asked:
            names = [asked.name] + ([asked.uncertainty or ""] if isinstance(asked, NumberField) else [])
            for name in filter(None, names):
                assert Round.locate(name), name


def test_a_made_up_reading_changes_the_odds_by_its_likelihood_and_is_named(monkeypatch):
    smell = Smell(
        key="smell",
        label="smell of the axle",
        clamp="open",
        group="turning",
        instruction="",
        why="",
        settle="",
    )
    before = diagnose(Readings(clamp="quick release"))
    monkeypatch.setitem(READINGS, "smell", smell)
    after = diagnose(Readings(clamp="quick release"))
    odds = [
        next(fault.chance / (1 - fault.chance) for fault in found.faults if fault.key == "bent")
        for found in (before, after)
    ]
    assert odds[1] / odds[0] == pytest.approx(10.0, rel=1e-6)  # Bayes
    bent = next(fault for fault in after.faults if fault.key == "bent")
    assert bent.evidence == ("smell of the axle: bent",)
    assert "smell" not in [step.key for step in after.next_steps]


@pytest.mark.parametrize("key", READINGS)
def test_the_chances_of_all_outcomes_sum_to_one(model, key):
    def pick(values: Array) -> Array:
        spread = np.broadcast_to(values, (len(model.cases), ENDS.size, 1))
        return np.asarray(spread.reshape(-1)[::7])

    chances = READINGS[key].outcomes(model, ENDS, pick)
    assert np.all(chances >= 0.0)
    np.testing.assert_allclose(chances.sum(axis=1), 1.0, atol=1e-12)


def round_of(values: dict[str, Any]) -> Round:
    return Round(**values)


def looks(key: str) -> list[Round]:
    """Rounds with each word that a reading can have."""
    if key.startswith("turns"):
        return [round_of({key: word}) for word in TURNING_WORDS]
    return [round_of({key: Play(hand=word)}) for word in PLAY_WORDS]


@pytest.mark.parametrize("key", [key for key in READINGS if not key.startswith(("starting", "axle_along"))])
def test_the_chances_of_all_words_sum_to_one(model, key):
    total: Any = sum(READINGS[key].likelihood(model, look, ENDS) for look in looks(key))
    np.testing.assert_allclose(total, 1.0, atol=1e-12)


@pytest.mark.parametrize("key", READINGS)
def test_a_reading_says_what_was_read(key):
    plays = [name for name in READINGS if name.startswith(("rim", "axle_"))]
    rest = {"turns_open": "free", "turns_closed": "tight", "starting_weight": 0.012}
    look = round_of({**dict.fromkeys(plays, Play(play=0.4e-3)), **rest})
    words = {"turns_open": "free", "turns_closed": "tight", "starting_weight": "12 g"}
    assert READINGS[key].is_in(look)
    assert not READINGS[key].tells_more(look)
    assert READINGS[key].describe(look) == words.get(key, "0.40 mm by dial gauge")
    assert not READINGS[key].is_in(Round())


def test_a_word_for_a_play_still_leaves_something_to_measure():
    look = Round(rim_open=Play(hand="clear"))
    assert READINGS["rim_open"].is_in(look)
    assert READINGS["rim_open"].tells_more(look)


def test_a_play_says_under_which_pushes_it_was_read():
    look = Round(rim_open=Play(play=0.4e-3, push=2.0, play_hard=0.52e-3, push_hard=6.0))
    assert READINGS["rim_open"].describe(look) == "0.40 mm by dial gauge at 2 N, 0.52 mm at 6 N"


def test_what_fingers_find_is_worked_out_once_for_each_grid(monkeypatch: pytest.MonkeyPatch) -> None:
    """A coarse grid, a fine one, and what is worth feeling next: weighing a word needs its likelihood no more."""
    counted = []

    def chances(feel: Feel, beliefs: Beliefs) -> Array:
        counted.append(feel.torque.ndim)
        return turning_chances(feel, beliefs)

    monkeypatch.setattr(turning, "turning_chances", chances)
    diagnose(Readings(clamp="quick release", found=Round(turns_closed="free")))
    assert counted.count(3) == 2
