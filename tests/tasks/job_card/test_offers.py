"""One-tap answers: never an answer that a step refuses, never one that is not true of where it comes from."""

from datetime import date
from fractions import Fraction

import pytest

from conemodel.parts import library
from conemodel.parts.hub_families import BALLS, FAMILIES
from conemodel.parts.known_hub import KnownHub
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.job_card.card import Place
from conemodel.tasks.job_card.offers import as_other_side, offers_at, size_name, usual_length
from conemodel.tasks.job_card.sections.strip import BALL_SIZES
from conemodel.tasks.job_card.steps import check_answers, places_of
from tests.tasks.job_card.cards import REAR, card_with

TODAY = date(2026, 1, 31)
HUB = load_scenario(library.SCENARIOS / "road-front.toml")
BEFORE = card_with(
    REAR | {"ball_count/left": 8, "ball_size/left": "1/4 in", "width": 126.5, "fixed_protrusion": 6.1}
)


@pytest.mark.parametrize("wheel", ["front", "rear"])
def test_every_offer_is_an_answer_that_its_steps_take(wheel: str) -> None:
    card = card_with(REAR | {"wheel": wheel})
    offered = [
        offer
        for place in places_of(card)
        for offer in offers_at(place, card, today=TODAY, before=BEFORE, hub=HUB)
    ]
    assert len(offered) > 10
    for offer in offered:
        check_answers(offer.answers)


def test_balls_are_offered_as_the_hub_says_before_what_is_usual() -> None:
    """The shipped road front hub has ten balls of 3/16 in a side; so has the usual front hub (common practice)."""
    place = Place("ball_count", "left")
    front, rear = card_with({"wheel": "front"}), card_with(REAR)
    assert [offer.words for offer in offers_at(place, front, today=TODAY, hub=HUB)] == [
        "10 × 3/16 in, as the hub says"
    ]
    words = [offer.words for offer in offers_at(place, rear, today=TODAY, before=BEFORE)]
    assert words == ["8 × 1/4 in, as before", "9 × 1/4 in, as usual"]


def test_numbers_of_the_card_before_and_of_the_hub_come_first() -> None:
    card = card_with(REAR)
    assert offers_at(Place("width"), card, today=TODAY, before=BEFORE)[0].answers == {Place("width"): 126.5}
    by_hub = offers_at(Place("width"), card, today=TODAY, before=BEFORE, hub=HUB)[0]
    assert by_hub.answers == {Place("width"): pytest.approx(1e3 * HUB.hub.over_locknut_width)}


@pytest.mark.parametrize("family", FAMILIES)
def test_what_is_usual_on_a_card_is_what_a_hub_of_ones_own_starts_from(family: str) -> None:
    """A card that knows the end and what holds the wheel, and a hub that knows its family, speak of one usual hub."""
    usual = KnownScenario.of(KnownHub(family=family))
    card = card_with({"wheel": "front" if FAMILIES[family].front else "rear", "held_by": usual.clamp.kind})
    row, offered = usual.hub.left, offers_at(Place("ball_count", "left"), card, today=TODAY)
    assert offered[0].answers == {
        Place("ball_count", "left"): row.ball_count,
        Place("ball_size", "left"): size_name(row.ball_diameter),
    }
    width = offers_at(Place("width"), card, today=TODAY)[0]
    assert width.answers == {Place("width"): pytest.approx(1e3 * usual.hub.over_locknut_width)}
    assert usual_length("fixed_protrusion", card, None) == pytest.approx(1e3 * usual.stack.left.protrusion)


def test_a_length_that_nobody_measured_is_no_answer() -> None:
    """A tap on what is usual would stand on the card, and on paper, as if it had been measured after locking."""
    card, places = card_with(REAR), (Place("fixed_protrusion"), Place("dropout_thickness"))
    assumed = KnownScenario.of(KnownHub(family="usual rear"))
    for hub in (None, assumed):
        assert [offers_at(place, card, today=TODAY, hub=hub) for place in places] == [(), ()]
    assert offers_at(Place("ball_count", "left"), card, today=TODAY, hub=assumed)[0].words.endswith(
        "as usual"
    )
    fixed = "right" if assumed.hub.adjustable_side == "left" else "left"
    known = assumed.with_known(assumed.known.replace(**{f"protrusion_{fixed}": 6e-3}))
    assert [each.words for each in offers_at(places[0], card, today=TODAY, hub=known)] == [
        "6 as the hub says"
    ]


def test_widths_in_use_stand_beside_the_usual_one_where_nothing_is_known() -> None:
    """Rear hubs with a quick release are 126, 130 and 135 mm wide: common practice, no source."""
    offered = offers_at(Place("width"), card_with(REAR), today=TODAY)
    assert [offer.words for offer in offered] == ["130", "126", "135"]
    known = offers_at(Place("width"), card_with(REAR), today=TODAY, before=BEFORE)
    assert [offer.words for offer in known] == ["126.5 as before", "130"]


def test_a_recheck_counts_days_from_today() -> None:
    """14 days after 31 January is 14 February: the calendar."""
    offers = offers_at(Place("recheck_on"), card_with({}), today=TODAY)
    assert offers[0].answers == {Place("recheck_on"): "2026-02-14"}


def test_a_card_and_ones_own_hub_name_the_same_balls() -> None:
    """An inch is 25.4 mm."""
    inches = {name: float(Fraction(name.removesuffix(" in"))) for name in BALL_SIZES if name != "other"}
    assert {name: size_name(25.4e-3 * size) for name, size in inches.items()} == {
        name: name for name in BALLS
    }
    assert size_name(5e-3) == "other"


def test_the_other_side_fills_what_is_open_only() -> None:
    card = card_with({"cone/left": "good", "cup/left": "pitted", "cup/right": "good"})
    offer = as_other_side(card, "right")
    assert offer is not None
    assert offer.answers == {Place("cone", "right"): "good"}
    assert as_other_side(card, "left") is None
