"""Numbers at pen marks that are asked for again before anything is told: counts that cannot be, plays in another unit.

Expected are a hundred hundredths to the millimetre, and geometry: balls stop the cone at finger contact.
"""

import pytest

from conemodel.base.units import MM
from conemodel.show.real_hub.doubt_words import confirm_words, doubt_words, mend_words
from conemodel.show.real_hub.measured_wording import headline_words
from conemodel.tasks.real_hub.count_doubt import COUNTS
from conemodel.tasks.real_hub.play_doubt import PlayDoubt
from tests.tasks.real_hub.test_measured_hub import mark, measure


def test_millimetres_written_down_as_hundredths_are_asked_for_and_mended_in_a_tap():
    asked = measure(mark(15, (0.0024, 0.0026)))
    assert headline_words(asked)[0] == "0.24 mm? That is 24 hundredths"
    assert asked.doubt is not None
    assert mend_words(asked.doubt) == "It was 24 and 26 hundredths"
    assert asked.turn is None
    mended = asked.doubt.mended(asked.found)
    assert mended.first.nut_loose == pytest.approx((MM.to_si(0.24), MM.to_si(0.26)))
    assert measure(mended.first).doubt is None


def test_every_play_a_hundredth_of_what_fits_is_asked_for_though_a_dial_shows_as_much():
    """At the rim 1.35 mm, typed as 1.35 hundredths: more than a division, and a hundredth of what such a hub shows."""
    read = ((1.35, 1.4), (0.85, 0.9))
    assert measure(mark(15, *read), by="dial at the rim").doubt is None
    small = mark(15, *(tuple(play / 100 for play in plays) for plays in read))
    asked = measure(small, by="dial at the rim")
    assert isinstance(asked.doubt, PlayDoubt)
    assert mend_words(asked.doubt) == "It was 135, 140, 85 and 90 hundredths"


def test_plays_that_were_confirmed_are_asked_for_no_more_and_no_play_is_never_asked_for():
    asked = measure(mark(8, (0.12, 0.12), (0.0, 0.005)))
    assert asked.doubt is not None
    assert doubt_words(asked.doubt) == "0.5 mm? That is 50 hundredths"
    assert confirm_words(asked.doubt) == "0.5 hundredths is right"
    assert measure(asked.doubt.confirmed(asked.found).first).doubt is None
    assert measure(mark(8, (0.12, 0.12), (0.0, 0.0))).doubt is None


def test_no_count_further_in_than_finger_contact_is_ever_offered():
    """A play of a few thousandths at 15 minutes would want the cone held in beyond contact by as much as it lacks."""
    assert COUNTS.min() == 0
    confirmed = mark(15, (0.0024, 0.0026)).replace(plays_checked=True)
    words = headline_words(measure(confirmed))[0]
    assert "−" not in words
    assert "-" not in words


@pytest.mark.parametrize(
    ("times", "asked"),
    [(1 / 25.4, "0.0094 mm? 0.24 would fit: inches?"), (10, "2.4 mm? 0.24 would fit")],
)
def test_plays_that_agree_in_another_unit_are_asked_for_in_it(times, asked):
    """An inch is 25.4 mm by definition."""
    read = ((0.24, 0.25), (0.15, 0.15), (0.10, 0.10))
    wrong = mark(15, *(tuple(round(times * play, 4) for play in plays) for plays in read))
    doubted = measure(wrong)
    assert headline_words(doubted)[0] == asked
    assert doubted.turn is None
    assert doubted.doubt is not None
    mended = measure(doubted.doubt.mended(doubted.found).first)
    assert mended.doubt is None
    assert mended.turn is not None
