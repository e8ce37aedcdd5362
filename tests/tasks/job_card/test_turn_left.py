"""A measured turn counts down by what the cone was turned since, and holds no longer where it came out otherwise."""

import json

import pytest

from conemodel.tasks.job_card.advice import advise_measured
from conemodel.tasks.job_card.card import Card, Value
from conemodel.tasks.job_card.offers import as_last_time
from conemodel.tasks.job_card.turn_left import measured_turn, measured_words
from tests.tasks.job_card.cards import card_with
from tests.tasks.job_card.test_measured import KEPT

SIX_IN = json.dumps(KEPT | {"turn_minutes": -6.0})
FOUND: dict[str, Value] = {"turn/1": 15, "outcome/1": "loose", "measured": SIX_IN}
"""A cone at a quarter turn out, loose, then measured: six minutes in."""


def minutes_left(card: Card) -> float | None:
    """Return what is left of the measured turn [min of a clock face]."""
    turn = measured_turn(card)
    assert turn is not None
    return turn.minutes


@pytest.mark.parametrize(
    ("turned", "left"), [({}, -6), ({"turn/2": -4}, -2), ({"turn/2": -8}, 2), ({"turn/2": -2.5}, -3.5)]
)
def test_it_counts_down_by_what_was_turned_since(turned: dict[str, float], left: float) -> None:
    """The place of the cone is the sum of its turns: geometry. What was turned before it was measured is in it."""
    assert minutes_left(card_with(FOUND | turned)) == left


def test_advice_and_summary_say_the_same_turn_in_minutes() -> None:
    card = card_with(FOUND)
    advised = advise_measured(card)
    assert advised is not None
    assert set(advised) == {"2"}
    assert "6 minutes (36°) in (clockwise)" in advised["2"].words
    assert advised["2"].words in measured_words(card)


def test_a_count_from_finger_contact_is_no_turn_from_the_pen_line() -> None:
    """The first round says where the cone stands, unless it is the measured turn or a part of it."""
    assert minutes_left(card_with({"measured": SIX_IN, "turn/1": 15})) == -6
    assert minutes_left(card_with({"measured": SIX_IN, "turn/1": -4})) == -2
    assert minutes_left(card_with({"measured": SIX_IN, "turn/1": -6})) is None


def test_a_turn_that_is_made_is_advised_no_more() -> None:
    assert minutes_left(card_with(FOUND | {"turn/2": -6})) is None
    assert "is made" in measured_words(card_with(FOUND | {"turn/2": -6}))


def test_correcting_a_turn_made_before_it_does_not_count() -> None:
    corrected = Card(
        id="c", begun_at="", entries=(*card_with(FOUND).entries, *card_with({"turn/1": 14}).entries)
    )
    assert minutes_left(corrected) == -6


@pytest.mark.parametrize(
    "answers",
    [
        FOUND | {"outcome/1": "tight"},
        FOUND | {"turn/2": -4, "outcome/2": "tight"},
        FOUND | {"turn/2": -6, "outcome/2": "loose"},
    ],
)
def test_no_turn_is_named_where_it_came_out_otherwise(answers: dict[str, Value]) -> None:
    card = card_with(answers)
    assert minutes_left(card) is None
    assert "measure it again" in measured_words(card)


def test_what_can_be_left_is_left() -> None:
    card = card_with({"measured": json.dumps(KEPT | {"next": "leave"})})
    assert minutes_left(card) is None
    assert "leave the cone" in measured_words(card)


def test_a_turn_does_not_outlive_its_card() -> None:
    """Slack and clamp are the hub's; the cone was taken off since, so that its turn counts from nowhere."""
    offer = as_last_time(card_with({}), card_with(FOUND))
    assert offer is not None
    taken = card_with({place.step: value for place, value in offer.answers.items()})
    assert measured_turn(taken) is None
    assert measured_words(taken).startswith("thread slack 0.074 mm")
