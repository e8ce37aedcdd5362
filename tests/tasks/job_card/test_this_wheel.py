"""What earlier cards say of the wheel in hand, and what all of them count. Common practice, no source."""

from datetime import date

import pytest

from conemodel.tasks.job_card.card import Place, Value
from conemodel.tasks.job_card.faults import FAULTS, count_faults
from conemodel.tasks.job_card.memory import find_cards, list_rechecks
from conemodel.tasks.job_card.offers import as_last_time
from conemodel.tasks.job_card.same_wheel import is_same_wheel
from conemodel.tasks.job_card.steps import STEPS
from conemodel.tasks.job_card.this_wheel import came_back, last_of_wheel, side_by_side
from tests.tasks.job_card.cards import REAR, card_with

NOW = card_with(REAR | {"tag": "a 7", "customer": "Ada"}, begun="2026-03-01T09:00:00+00:00", name="now")


def earlier(answers: dict[str, Value], *, begun: str = "2026-01-01T09:00:00+00:00", name: str = "then"):
    return card_with({"wheel": "rear"} | answers, begun=begun, name=name)


@pytest.mark.parametrize(
    ("answers", "same"),
    [
        ({"tag": " A  7"}, True),
        ({"customer": "ADA"}, True),
        ({"customer": "Ada", "rim_mark": "blue"}, True),
        ({"tag": "8", "customer": "Ada", "rim_mark": "blue"}, True),
        ({"tag": "8"}, False),
        ({"tag": "a 7", "wheel": "front"}, False),
        ({}, False),
    ],
)
def test_a_wheel_is_known_by_its_tag_or_its_customer_front_and_rear_apart(answers, same: bool) -> None:
    assert (last_of_wheel(NOW, [earlier(answers), NOW]) is not None) is same


def test_two_wheels_of_one_customer_are_told_by_the_rims_mark() -> None:
    marked = card_with(REAR | {"customer": "Ada", "rim_mark": "red"}, begun=NOW.begun_at, name="now")
    assert last_of_wheel(marked, [earlier({"customer": "Ada", "rim_mark": "blue"})]) is None


def test_the_last_card_is_the_latest_before_this_one() -> None:
    days = {"old": "2025-11-01", "last": "2026-02-27", "after": "2026-03-02"}
    cards = [earlier({"tag": "a 7"}, begun=f"{day}T09:00:00+00:00", name=name) for name, day in days.items()]
    last = last_of_wheel(NOW, cards)
    assert last is not None
    assert last.id == "last"


def test_a_card_that_may_be_of_the_wheel_gives_way_to_one_that_is() -> None:
    theirs = earlier({"customer": "Ada"}, begun="2026-02-01T09:00:00+00:00", name="theirs")
    assert last_of_wheel(NOW, [theirs]) == theirs
    assert last_of_wheel(NOW, [theirs, earlier({"tag": "A 7"})]) == earlier({"tag": "A 7"})


AGAIN = date(2026, 4, 1)


@pytest.mark.parametrize(
    ("answers", "same"),
    [
        ({"tag": "A  7 "}, True),
        ({"tag": "8", "customer": "ada", "rim_mark": "Blue"}, True),
        ({"tag": "8", "customer": "Ada"}, False),
        ({"tag": "8", "customer": "Ada", "rim_mark": "red"}, False),
        ({"tag": "a 7", "wheel": "front"}, False),
        ({"tag": "a 7", "wheel": None}, False),
    ],
)
def test_a_recheck_is_past_once_the_same_wheel_came_back_and_never_for_another(answers, same: bool) -> None:
    """One that only may be the same, such as another rear wheel of one customer, takes nobody's day away."""
    due = earlier({"tag": "a 7", "customer": "Ada", "rim_mark": "blue", "recheck_on": "2026-03-01"})
    later = earlier(answers, begun="2026-03-02T09:00:00+00:00", name="later")
    assert [recheck.card.id for recheck in list_rechecks([due, later], AGAIN)] == ([] if same else ["then"])
    assert is_same_wheel(due, later) is is_same_wheel(later, due) is same


def test_a_letter_with_its_accent_is_the_same_as_one_sign_or_as_two() -> None:
    """Unicode Standard Annex 15: U+00EB and U+0065 U+0308 are canonically equivalent."""
    one, two = (earlier({"customer": name, "rim_mark": "x"}) for name in ("Zo\u00eb", "zoe\u0308"))
    assert is_same_wheel(one, two)
    assert find_cards([two], " ZO\u00cb ")


def test_play_that_comes_back_is_said_with_its_days() -> None:
    """From 1 January to 1 March 2026 are 59 days: the calendar."""
    again = card_with(REAR | {"tag": "7", "found_play_closed": "clear"}, begun=NOW.begun_at)
    assert came_back(again, earlier({"tag": "7", "play_closed": "none"})) == (
        "Seen on 2026-01-01, left without play: play is back, 59 days after the last card.",
    )
    assert came_back(again, earlier({"tag": "8", "play_closed": "none"})) == (
        "If it is the same wheel: seen on 2026-01-01, left without play: play is back, 59 days after the last card.",
    )
    assert came_back(again, earlier({"tag": "7", "play_closed": "slight"})) == ()
    assert came_back(NOW, earlier({"tag": "a 7", "play_closed": "none"})) == ()


def test_then_and_now_stand_side_by_side() -> None:
    before = earlier({"cone/left": "good", "turn/1": 15, "turn/2": -3, "width": 135.0})
    now = card_with(REAR | {"cone/left": "pitted", "turn/1": 10})
    assert [tuple(row) for row in side_by_side(now, before)] == [
        ("Cone, left", "good", "pitted"),
        ("Over both locknuts, after locking", "135 mm", ""),
        ("Cone turned, round 1", "15 min out (anticlockwise)", "10 min out (anticlockwise)"),
        ("Cone turned, round 2", "3 min in (clockwise)", ""),
    ]


def test_hub_and_measured_start_the_next_job() -> None:
    before = earlier({"held_by": "nuts", "hub": "name = 'x'", "measured": "{}"})
    offer = as_last_time(card_with({"wheel": "rear"}), before)
    assert offer is not None
    assert offer.answers == {Place("held_by"): "nuts", Place("hub"): "name = 'x'", Place("measured"): "{}"}
    assert as_last_time(before, before) is None


def test_faults_are_counted_once_a_card_of_those_that_were_looked_at() -> None:
    cards = [
        card_with({"cone/left": "pitted", "cone/right": "pitted"}),
        card_with({"cone/left": "good"}),
        card_with({"cone/left": "not looked"}),
    ]
    counted = {one.words: (one.found, one.looked) for one in count_faults(cards)}
    assert counted["Pitted cone"] == (1, 2)
    assert "Pitted cup" not in counted


def test_every_fault_can_be_found() -> None:
    every = [
        card_with({place if not where else f"{place}/{where}": answer})
        for place in STEPS
        for where in ("", "left")
        for answer in getattr(STEPS[place], "choices", ())
    ]
    assert {one.words for one in count_faults(every) if one.found} == {kind.words for kind in FAULTS}
