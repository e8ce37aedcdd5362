"""What a card keeps of a measured hub reads back, or not at all; the turn goes with the round to come."""

import json
from typing import Any

import pytest

from conemodel.tasks.job_card.advice import answers_of_measured
from conemodel.tasks.job_card.card import Place
from conemodel.tasks.job_card.measured import UNREADABLE, read_measured, readings_kept, without_turn
from conemodel.tasks.job_card.steps import STEPS
from conemodel.tasks.job_card.turn_left import measured_turn
from tests.tasks.job_card.cards import card_with

KEPT: dict[str, Any] = {
    "slack_mm": 0.074, "slack_low80_mm": 0.066, "slack_high80_mm": 0.083,
    "clamp_give_mm": 0.052, "clamp_give_low80_mm": 0.045, "clamp_give_high80_mm": 0.06, "clamp_read": True,
    "turn_minutes": -4.0, "chance_right": 0.83, "chance_tight": 0.1,
}  # fmt: skip


def test_it_is_said_in_a_line() -> None:
    words = STEPS["measured"].said(json.dumps(KEPT))
    assert words.startswith(
        "thread slack 0.074 mm (0.066 to 0.083), the clamp takes 0.052 mm (0.045 to 0.060)"
    )


def test_a_clamp_that_nobody_read_is_not_said_to_be_measured() -> None:
    assert "clamp" not in STEPS["measured"].said(json.dumps(KEPT | {"clamp_read": False}))


def test_a_turn_that_was_made_is_no_longer_advised() -> None:
    made = card_with({"measured": json.dumps(KEPT | {"turn_minutes": None, "turned_to_minutes": 9.0})})
    turn = measured_turn(made)
    assert turn is not None
    assert turn.minutes is None
    assert "made, to 9 minutes out of finger contact: not read there yet" in turn.words


def test_its_readings_are_gone_on_from_only_while_the_cone_stands_as_it_was_read() -> None:
    kept = json.dumps(KEPT | {"readings": "name = 'one'"})
    assert readings_kept(kept) == "name = 'one'"
    assert (
        readings_kept(json.dumps(KEPT | {"readings": "", "turn_minutes": None, "turned_to_minutes": 9})) == ""
    )
    assert readings_kept(without_turn(kept)) == readings_kept(json.dumps(KEPT)) == readings_kept("x") == ""


@pytest.mark.parametrize(
    "damage",
    [
        {"slack_mm": "0.07"}, {"slack_mm": -1}, {"slack_low80_mm": 0.08}, {"clamp_give_mm": None},
        {"turn_minutes": True}, {"chance_right": 2}, {"slack_high80_mm": float("nan")},
    ],
)  # fmt: skip
def test_what_cannot_be_is_not_read(damage: dict[str, Any]) -> None:
    text = json.dumps(KEPT | damage)
    assert read_measured(text) is None
    assert STEPS["measured"].said(text) == UNREADABLE


@pytest.mark.parametrize("text", ["", "{}", "[]", "1", "x", "[" * 3000])
def test_a_text_of_something_else_is_not_read(text: str) -> None:
    assert read_measured(text) is None


def test_the_turn_is_advice_for_the_round_to_come() -> None:
    first, second = card_with({}), card_with({"turn/1": 10, "outcome/1": "loose"})
    right = card_with({"turn/1": 10, "outcome/1": "right"})
    text, leave = json.dumps(KEPT), json.dumps(KEPT | {"next": "leave"})
    for card, where in ((first, "1"), (second, "2")):
        answers = answers_of_measured(card, text)
        assert set(answers) == {Place("measured"), Place("advice", where)}
        assert "4 minutes (24°) in (clockwise)" in str(answers[Place("advice", where)])
    assert answers_of_measured(right, text) == {Place("measured"): text}
    assert "leave" in str(answers_of_measured(first, leave)[Place("advice", "1")])
