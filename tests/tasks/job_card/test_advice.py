"""Advice for a round: the first from the hub, the next from how the rounds before came out."""

from typing import Any

import numpy as np
import pytest

from conemodel.parts import library
from conemodel.parts.checks import Checks
from conemodel.parts.known_hub import KnownHub
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.readings import Play, Readings, Round, Size
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.job_card.advice import advise_first, rounds_told
from conemodel.tasks.job_card.card import Place
from conemodel.tasks.job_card.from_check import answers_from
from conemodel.tasks.setting.middle import set_in_middle, spread_of_assumed_sizes
from conemodel.tasks.setting.predict import predict
from tests.tasks.job_card.cards import REAR, card_with

HUB = load_scenario(library.SCENARIOS / "touring-rear.toml")


def test_the_first_turn_ends_right_when_all_is_as_assumed() -> None:
    """Predicted again at that many minutes of a clock face, a sixtieth of a turn each, the hub is right."""
    advised = advise_first(HUB)
    assert advised.minutes is not None
    back_off = advised.minutes / 60 * 2 * np.pi
    assert predict(HUB.with_setting(back_off=back_off)).verdict.state == "right"
    assert "out (anticlockwise)" in advised.words


KNOWN: dict[str, Any] = {
    "ball_count_left": 9,
    "ball_diameter_left": 6.35e-3,
    "dropout_width": 0.13,
    "protrusion_left": 5.5e-3,
    "dropout_thickness": 7e-3,
}


def test_sizes_only_assumed_move_the_turn_as_far_as_hubs_that_have_them_are_set_apart() -> None:
    """Each hub at an end of a range is set by itself; what does not depend on each other adds by squares."""
    hub = KnownScenario.of(KnownHub(family="thru-axle front"))
    squares = 0.0
    for field, ends in (("ball_count_left", (13, 18)), ("ball_diameter_left", (3.96875e-3,)),
                        ("over_locknut_width", (0.11,)), ("protrusion_left", (1e-3,)),
                        ("dropout_thickness", (0.01, 0.014))):  # fmt: skip
        others = [KnownScenario.of(hub.known.replace(**{field: end})) for end in ends]
        squares += max(abs(_middle(other) - _middle(hub)) for other in others) ** 2
    assert spread_of_assumed_sizes(hub) == pytest.approx(squares**0.5, rel=1e-6)
    assert advise_first(hub).words.endswith("; sizes only assumed move this by about half a minute")


def _middle(hub: KnownScenario) -> float:
    return set_in_middle(hub).setting.back_off


def test_every_size_that_becomes_known_takes_its_part_away() -> None:
    known: dict[str, Any] = {"family": "usual rear"}
    spreads = [spread_of_assumed_sizes(KnownScenario.of(KnownHub(**known)))]
    for field, value in KNOWN.items():
        known[field] = value
        spreads.append(spread_of_assumed_sizes(KnownScenario.of(KnownHub(**known))))
    assert spreads == sorted(spreads, reverse=True)
    assert spreads[0] > spreads[-1] == 0
    assert "assumed" not in advise_first(KnownScenario.of(KnownHub(**known))).words


def test_rounds_are_told_as_they_came_out() -> None:
    """Fifteen minutes are a quarter turn."""
    card = card_with(
        REAR | {"turn/1": 15, "outcome/1": "loose", "turn/2": -6, "outcome/2": "tight", "turn/3": 2}
    )
    told = rounds_told(card)
    assert told is not None
    assert told.cone_out == pytest.approx(np.pi / 2)
    first, second = told.rounds
    assert (first.rim_closed.hand, first.turned) == ("slight", 0)
    assert second.turns_closed == "tight"
    assert np.degrees(second.turned) == pytest.approx(-36)


@pytest.mark.parametrize(
    "answers", [{}, {"turn/1": 15}, {"outcome/1": "loose"}, {"turn/1": 15, "outcome/1": "right"}]
)
def test_nothing_is_told_before_a_round_came_out_wrong(answers) -> None:
    assert rounds_told(card_with(REAR | answers)) is None


def test_what_check_was_told_is_taken_as_found() -> None:
    readings = Readings(
        clamp="nuts",
        protrusion_left=Size(size=5.5e-3),
        checks=Checks(far_side_unlocked="yes"),
        found=Round(
            rim_open=Play(hand="clear"), rim_closed=Play(play=0.5e-3), turns_closed="gritty",
            axle_along_open=Play(play=0.08e-3),
        ),
    )  # fmt: skip
    assert answers_from(readings) == {
        Place("found_play_open"): "clear",
        Place("found_play_closed"): "clear",
        Place("found_turning"): "gritty",
        Place("found_far_locked"): "no",
        Place("held_by"): "nuts",
        Place("found_gauge"): 0.08,
        Place("found_protrusion", "left"): 5.5,
    }
    assert answers_from(Readings()) == {}
