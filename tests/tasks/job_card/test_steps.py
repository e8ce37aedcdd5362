"""What a job card asks: steps that do not apply are absent, answers beyond their limits are all named at once."""

import pytest

from conemodel.base.errors import InputProblems
from conemodel.tasks.job_card.card import Card, Entry, Place, Value
from conemodel.tasks.job_card.step import Amount, Choice, Step
from conemodel.tasks.job_card.steps import STEPS, check_answers, open_places, places_of

REAR: dict[str, Value] = {"wheel": "rear", "held_by": "quick release", "brake": "rim", "drive": "freehub"}


def card_with(answers: dict[str, Value]) -> Card:
    entries = tuple(
        Entry(at="2026-01-01T10:00:00+00:00", by=None, place=Place(step), value=value)
        for step, value in answers.items()
    )
    return Card(id="c", begun_at="2026-01-01T10:00:00+00:00", entries=entries)


def some_answer(step: Step) -> Value:
    """Return an answer that the step takes."""
    match step:
        case Choice():
            return step.choices[0]
        case Amount():
            return int(step.least) if step.whole else step.least
    return "2026-03-31" if step.name == "recheck_on" else "x"


def asked(card: Card) -> set[str]:
    return {place.step for place in places_of(card)}


def test_what_does_not_apply_is_absent() -> None:
    rim, disc, nutted = (card_with({**REAR, **more}) for more in ({}, {"brake": "disc"}, {"held_by": "nuts"}))
    front = card_with({"wheel": "front", "held_by": "quick release", "brake": "rim"})
    assert asked(disc) - asked(rim) == {"rotor"}
    assert asked(front) - asked(rim) == {"tabs"}
    assert asked(rim) - asked(front) == {"drive", "freehub_body"}
    assert asked(nutted) - asked(rim) == {"axle_nuts"}
    assert asked(rim) - asked(nutted) == {"lever"}
    assert "axle_torque" in asked(card_with(REAR | {"held_by": "nuts", "axle_nuts": "torque wrench"}))


@pytest.mark.parametrize("start", [REAR, REAR | {"brake": "disc"}, {"wheel": "front", "held_by": "nuts"}])
def test_a_card_is_complete_when_all_that_applies_was_answered(start: dict[str, Value]) -> None:
    card = card_with(start)
    while left := open_places(card):
        place = left[0]
        entry = Entry(at=card.begun_at, by=None, place=place, value=some_answer(STEPS[place.step]))
        card = card.with_entry(entry)
    assert open_places(card) == ()
    last = card.entries[-1].place
    assert open_places(card.with_entry(Entry(at=card.begun_at, by=None, place=last, value=None))) == (last,)


def test_a_correction_stands_and_what_it_corrects_is_kept() -> None:
    card = card_with({"tag": "7"}).with_entry(
        Entry(at="2026-01-02T10:00:00+00:00", by="Ada", place=Place("tag"), value="8")
    )
    assert card.answer("tag") == "8"
    assert [entry.value for entry in card.corrected("tag")] == ["7", "8"]


def test_all_mistakes_are_named_at_once() -> None:
    with pytest.raises(InputProblems) as raised:
        check_answers(
            {
                Place("wheel"): "middle",
                Place("ball_count", "left"): 8.5,
                Place("ball_count", "top"): 9,
                Place("recheck_on"): "2026-02-30",
                Place("no_such_step"): "x",
                Place("turn", "99"): 15,
                Place("note"): "x" * 501,
            }
        )
    steps = ("wheel", "ball_count", "recheck_on", "no_such_step", "turn", "note")
    limits = ("front, rear", "whole number", "left or right", "500")
    for word in (*steps, *limits):
        assert word in str(raised.value)
    assert len(raised.value.problems) == 7


def test_every_step_takes_an_answer_and_refuses_one() -> None:
    for step in STEPS.values():
        assert not list(step.problems(some_answer(step), step.places(1)[0].where)), step.name
        for wrong in ("", "\0" * 9000, "a\ud800", True, float("nan"), 1e9):
            assert step.limit(wrong), (step.name, wrong)


def test_numbers_are_said_with_their_unit_and_a_turn_by_its_way() -> None:
    """Out is above 0, as everywhere in the program."""
    assert [STEPS["turn"].said(minutes) for minutes in (11, -3)] == [
        "11 min out (anticlockwise)",
        "3 min in (clockwise)",
    ]
    assert STEPS["width"].said(135.0) == "135 mm"
    assert STEPS["ball_count"].said(9) == "9"
    assert STEPS["cone"].said("pitted") == "pitted"
    assert STEPS["cone"].said(None) == ""
