"""A card as the browser draws it: every place that is asked is there once, nothing that was not tapped is chosen."""

import json
import re
from datetime import date

import pytest

from conemodel.parts import library
from conemodel.parts.toml_files import load_scenario
from conemodel.show.job_card.condition_pictures import PITS, condition_pictures
from conemodel.show.job_card.entry_hints import entry_caution
from conemodel.show.job_card.on_page import Beside, card_on_page
from conemodel.show.palette import DARK, LIGHT
from conemodel.tasks.job_card.sections.strip import GOOD, PALE, PITTED
from conemodel.tasks.job_card.steps import STEPS, places_of
from conemodel.tasks.job_card.turn_left import TurnAdvice
from tests.tasks.job_card.cards import REAR, card_with

BESIDE = Beside(today=date(2026, 3, 31))


def cells(data):
    return [
        cell for part in data["sections"] for row in (*part["rows"], *part["more"]) for cell in row["cells"]
    ]


@pytest.mark.parametrize(
    "answers", [{}, REAR, REAR | {"brake": "disc", "held_by": "nuts", "axle_nuts": "torque wrench"}]
)
def test_every_place_that_is_asked_stands_once(answers) -> None:
    card = card_with(answers)
    drawn = [tuple(cell["place"]) for cell in cells(card_on_page(card, BESIDE))]
    assert sorted(drawn) == sorted(place for place in places_of(card) if not STEPS[place.step].written)


def test_nothing_is_chosen_that_was_not_tapped() -> None:
    before = card_with(REAR | {"cone/left": "good", "width": 135.0})
    data = card_on_page(card_with({"wheel": "rear"}), Beside(today=BESIDE.today, before=before))
    assert [cell["place"] for cell in cells(data) if cell["value"] is not None] == [["wheel", ""]]


def test_it_is_plain_json_and_what_was_corrected_is_said() -> None:
    card = card_with({"tag": "7"}).with_entry(card_with({"tag": "<b>"}).entries[0])
    data = json.loads(json.dumps(card_on_page(card, BESIDE)))
    tag = next(cell for cell in cells(data) if cell["place"][0] == "tag")
    assert (tag["value"], tag["was"]) == ("<b>", "7")


def test_a_round_that_came_out_wrong_opens_the_next_with_its_advice() -> None:
    advised = {"2": TurnAdvice(words="Bring it in.", minutes=-4)}
    card = card_with(REAR | {"turn/1": 15, "outcome/1": "loose"})
    data = card_on_page(card, Beside(today=BESIDE.today, advice=advised))
    turn = next(cell for cell in cells(data) if cell["place"] == ["turn", "2"])
    assert turn["advice"] == "Bring it in."
    assert turn["offers"][0] == {"words": "as advised: in 4", "answers": [["turn", "2", -4]]}
    assert all(
        cell["place"] != ["turn", "2"]
        for cell in cells(card_on_page(card_with(REAR | {"turn/1": 15}), BESIDE))
    )


@pytest.mark.parametrize("tones", [LIGHT, DARK], ids=["light", "dark"])
def test_conditions_are_told_apart_by_shape_and_not_by_colour_alone(tones) -> None:
    """A pitted race has holes, a pale one a band broader than a good one's line; without a word in the picture."""
    for drawn in condition_pictures(tones).values():
        holes = {condition: svg.count("<polygon") for condition, svg in drawn.items()}
        assert holes == {GOOD: 0, PALE: 0, PITTED: len(PITS)}
        assert 'stroke-width="2.5"' in drawn[GOOD]
        assert 'stroke-width="11.0"' in drawn[PALE]
        assert all("<text" not in svg for svg in drawn.values())


@pytest.mark.parametrize("tones", [LIGHT, DARK], ids=["light", "dark"])
def test_a_pale_track_is_paler_than_its_cone_and_duller_than_a_good_one(tones) -> None:
    """What its name says is what is seen, on either ground: light is the sum of the three channels."""

    def light(colour: str) -> int:
        return sum(bytes.fromhex(colour.removeprefix("#")))

    for drawn in condition_pictures(tones).values():
        pale, good = (
            re.search(rf'stroke="(#\w+)" stroke-width="{width}"', drawn[condition])
            for condition, width in ((PALE, "11.0"), (GOOD, "2.5"))
        )
        assert pale
        assert good
        assert light(tones.steel) < light(pale[1]) < light(good[1])


def test_a_card_and_its_hub_that_do_not_agree_say_so_at_the_step() -> None:
    """The shipped touring rear hub is a rear one with a quick release."""
    hub = load_scenario(library.SCENARIOS / "touring-rear.toml")
    said = {
        (step, answer): entry_caution(STEPS[step], card_with({step: answer}), hub)
        for step, answer in (
            ("wheel", "front"),
            ("wheel", "rear"),
            ("held_by", "nuts"),
            ("held_by", "quick release"),
        )
    }
    assert (
        said["wheel", "front"] == "This says front, the hub on this card is a rear hub: the two do not agree."
    )
    assert "one with quick release: the two do not agree" in said["held_by", "nuts"]
    assert {said["wheel", "rear"], said["held_by", "quick release"]} == {""}
    assert entry_caution(STEPS["wheel"], card_with({"wheel": "front"}), None) == ""
