"""No turn while a reading of the mark where the cone stands is in doubt: what is asked for instead.

Expected are sums of lengths along the axle, worked by hand, and laws of the joint: a clamp takes play, never none.
"""

from itertools import pairwise

import pytest

from conemodel.base.units import MINUTE, MM
from conemodel.show.real_hub.measured_wording import headline_words, next_words
from conemodel.tasks.real_hub.next_reading import Measuring
from conemodel.tasks.real_hub.taken_over import measured_summary
from tests.tasks.real_hub.test_measured_hub import mark, measure

FOUND = mark(15, (0.24, 0.25), (0.15, 0.15), (0.10, 0.10))


def assert_asked(measuring: Measuring, state: str, largest: str) -> None:
    said, _ = headline_words(measuring)
    assert said == largest
    assert measuring.turn is None
    assert (measuring.next.what, measuring.next.state) == ("read again", state)
    assert measuring.next.turn == 0.0
    assert "Read the play again" in next_words(measuring)[0]


def test_a_turn_that_was_made_is_not_told_again_where_the_reading_after_it_does_not_fit():
    """Six minutes of 1 mm are 0.10 mm: 0.10 before, none is left; made twice, -0.10 mm of a squeeze pits the races."""
    once = measure(FOUND).turn
    assert once is not None
    assert MINUTE.from_si(once.turn) == pytest.approx(-6)
    after = measure(FOUND, mark(9, clamped=(0.04, 0.04)))
    assert_asked(after, "clamped", "Clamped, 0.04 mm: does not fit. Read it again")


def test_the_turn_after_a_turn_never_jumps_with_what_is_read():
    """Geometry: a division of 0.01 mm is 0.6 of a minute, so half of one moves a turn by no more than a minute."""
    turns = []
    for play in (0, *range(10, 61, 5)):  # less than a division is asked for by itself
        measuring = measure(FOUND, mark(9, clamped=(play / 1000, play / 1000)))
        told = measuring.next.what in ("turn", "leave")
        assert told == (measuring.turn is not None)
        turns.append(MINUTE.from_si(measuring.next.turn) if told else None)
        if told:  # never further in than what was read, with an error of the dial
            assert -measuring.next.turn * measuring.fitted.hub.lead < MM.to_si(play / 1000 + 0.01)
    given = [turn for turn in turns if turn is not None]
    assert turns[: len(given)] == given  # past the first that is in doubt none is told
    assert len(given) > 5
    assert all(abs(one - other) <= 1 for one, other in pairwise(given))


def test_a_clamp_that_took_nothing_is_asked_for():
    after = measure(FOUND, mark(9, locked=(0.05, 0.05), clamped=(0.06, 0.06)))
    assert_asked(
        after, "clamped", "Clamped it reads loose, 0.06 mm: closing took nothing. Is the lever shut?"
    )


@pytest.mark.parametrize(("first", "second"), [(0.10, 0.02), (0.02, 0.10)])
def test_of_two_closings_that_differ_none_is_preferred(first, second):
    """0.08 mm is far beyond 5 % of 0.05 to 0.13 mm and four readings of a dial within 0.01 mm."""
    marks = [mark(15, locked=(0.15, 0.15), clamped=(play, play)) for play in (first, second)]
    assert_asked(measure(*marks), "clamped", "Two closings differ by 0.08 mm. Close it again and read")


def test_a_third_closing_tells_which_of_two_it_was():
    marks = [mark(15, locked=(0.15, 0.15), clamped=(play, play)) for play in (0.02, 0.10, 0.10)]
    told = measure(*marks)
    assert told.again is None
    assert told.turn is not None
    assert told.turn.stands.named == "loose"


def test_closings_as_alike_as_a_gauge_can_tell_are_not_asked_for():
    near = measure(FOUND, mark(15, locked=(0.15, 0.15), clamped=(0.11, 0.12)))
    assert near.again is None
    assert near.turn is not None


@pytest.mark.parametrize(
    "read",
    [
        mark(15, (0.24, 0.27), (0.07, 0.10), (0.0, 0.0)),
        mark(15, (0.04, 0.04), (0.02, 0.05), (0.01, 0.01)),
        mark(15, (0.19, 0.20), (0.19, 0.19), (0.0, 0.01)),
    ],
)
def test_readings_about_a_hub_that_has_just_no_play_are_answered(read):
    """Play cannot be less than none (geometry): there the likeliest hub lies in a corner, and is found all the same."""
    assert measure(read).next.what in ("read again", "back off", "check the count")


@pytest.mark.parametrize("plays", [(0.0, 0.0), (0.0, 0.01), (0.01, 0.01)])
def test_where_no_play_is_read_nobody_knows_right_from_tight(plays):
    """Geometry: end play below none shows none. Of a play of a division an error of 0.01 mm may be all."""
    measuring = measure(mark(15, clamped=plays))
    assert headline_words(measuring)[0] == "No play read clamped: right or too tight"
    assert measuring.turn is None
    assert measured_summary(measuring)["chance_right"] is None
    assert (measuring.next.what, measuring.next.why) == ("back off", "no play clamped")
    assert measuring.next.turn >= MINUTE.to_si(1)


def test_no_play_after_a_known_turn_from_where_there_was_some_is_right():
    """Sum along the axle: 0.10 mm less 6 minutes of 1 mm leaves none, and is known to 0.01 mm or so."""
    assert measure(FOUND, mark(9, clamped=(0.0, 0.0))).next.what == "leave"
