"""What a card says largest. The rules are common practice, no source; that an axle must not stand proud is geometry."""

import pytest

from conemodel.tasks.headline import DO_NOT_RIDE
from conemodel.tasks.job_card.card import Value
from conemodel.tasks.job_card.stops import STOPS, headline_of_card, longest_protrusion
from tests.tasks.job_card.cards import REAR, card_with

FRONT_DISC: dict[str, Value] = {"wheel": "front", "held_by": "quick release", "brake": "disc"}


@pytest.mark.parametrize(("step", "answer"), STOPS)
def test_each_answer_that_forbids_riding_is_said_largest(step: str, answer: str) -> None:
    card = card_with(FRONT_DISC | {"cone/left": "pitted", step: answer})
    said = headline_of_card(card)
    assert said.question == "safe"
    assert said.answer.words.startswith(DO_NOT_RIDE)
    assert len(said.unsafe) == 1
    assert any("cone, left" in one.words for one in said.below)


def test_what_does_not_apply_forbids_nothing() -> None:
    said = headline_of_card(card_with(REAR | {"held_by": "nuts", "rotor": "not looked", "lever": "light"}))
    assert said.question == "adjustment"


def test_the_gravest_come_first_and_none_is_left_out() -> None:
    said = headline_of_card(card_with(FRONT_DISC | {"brake_works": "no", "rotor": "no", "rim_central": "no"}))
    for reason, word in zip(said.unsafe, ("brake is not", "rim is not", "rotor is not"), strict=True):
        assert word in reason


@pytest.mark.parametrize(
    ("answers", "proud"),
    [
        ({"fixed_protrusion": 6.9}, False),
        ({"fixed_protrusion": 7.0}, True),
        ({"found_protrusion/left": 7.5, "found_protrusion/right": 3.5}, True),
        ({"found_protrusion/left": 7.5, "found_protrusion/right": 3.5, "fixed_protrusion": 5.5}, False),
        ({"found_protrusion/left": 7.5, "found_protrusion/right": 3.5, "fixed_protrusion": 3.0}, True),
        ({"found_protrusion/left": 7.5, "held_by": "nuts"}, False),
    ],
)
def test_a_proud_axle_forbids_riding(answers: dict[str, Value], proud: bool) -> None:
    """Dropouts 7 mm thick; both sides together stay 11 mm, so 3 mm on the fixed side leave 8 mm on the other."""
    said = headline_of_card(card_with(REAR | {"dropout_thickness": 7.0} | answers))
    assert (said.question == "safe") is proud


def test_an_axle_that_nobody_measured_is_not_judged() -> None:
    assert longest_protrusion(card_with(REAR | {"dropout_thickness": 7.0})) is None


def test_pitted_races_are_to_be_renewed_on_the_sides_they_are_on() -> None:
    said = headline_of_card(
        card_with(REAR | {"cup/left": "pitted", "cup/right": "pitted", "cone/left": "pale track"})
    )
    assert said.question == "sound"
    assert [one.words for one in said.answers][:-1] == ["To be renewed: cup, left and right"]


def test_a_far_side_found_unlocked_forbids_riding_until_it_was_tried_again() -> None:
    for again, question in (
        ({}, "safe"),
        ({"far_locked": "not looked"}, "safe"),
        ({"far_locked": "yes"}, "adjustment"),
    ):
        said = headline_of_card(card_with(REAR | {"found_far_locked": "no"} | again))
        assert said.question == question, again
        assert len(said.unsafe) == (question == "safe")


def test_a_damaged_axle_thread_forbids_riding_until_it_is_renewed() -> None:
    said = headline_of_card(card_with(REAR | {"axle_thread/left": "damaged", "axle_thread/right": "good"}))
    assert said.answer.words == f"{DO_NOT_RIDE}: the axle's thread is damaged, left"
    assert headline_of_card(card_with(REAR | {"axle_thread/left": "renewed"})).question == "adjustment"


@pytest.mark.parametrize(
    ("answers", "words"),
    [
        ({"outcome/1": "tight"}, ["The last setting was tight: set it again"]),
        (
            {"outcome/1": "tight", "turn/2": 3, "outcome/2": "loose"},
            ["The last setting was loose: set it again"],
        ),
        ({"outcome/1": "tight", "turn/2": 3}, []),
        ({"outcome/1": "tight", "outcome/2": "right"}, []),
        ({"play_closed": "slight"}, ["Slight play with the clamp closed"]),
        ({"turning": "tight"}, ["It turns tight in the frame"]),
        (
            {"play_closed": "slight", "turning": "tight", "outcome/1": "tight"},
            ["It turns tight and has play, clamp closed"],
        ),
    ],
)
def test_the_last_setting_counts_and_play_with_a_tight_turn_is_not_the_cone(
    answers, words: list[str]
) -> None:
    said = headline_of_card(card_with(REAR | answers))
    assert [one.words for one in said.answers][:-1] == words


def test_no_card_says_that_a_wheel_is_safe() -> None:
    for answers in ({}, REAR, REAR | {"brake_works": "yes", "play_closed": "none"}):
        said = headline_of_card(card_with(answers)).sentences.lower()
        assert "safe" not in said
        assert "may be ridden" not in said
