"""Two histories of a card made one: nothing is lost, nothing doubled, whichever comes first.

What is asked of it are the laws of a join: commutative, idempotent, both within it. Closed form, no source.
"""

from collections import Counter
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from conemodel.tasks.job_card.card import Card, Entry
from conemodel.tasks.job_card.merge import merge_cards
from tests.tasks.job_card.random_cards import FEW_TIMES, cards, entries, entry


def marks(card: Card) -> Counter[str]:
    return Counter(map(repr, card.entries))


def is_within(row: tuple[Entry, ...], whole: tuple[Entry, ...]) -> bool:
    """Return whether a row stands in another in its order."""
    rest = iter(whole)
    return all(any(one == other for other in rest) for one in row)


FEW = st.sampled_from(
    [entry("tag", value, at=f"2026-03-31T14:05:0{time}+00:00") for value in "78" for time in (0, 1)]
)
ROWS = st.lists(entries(FEW_TIMES) | FEW, max_size=6).map(tuple)


@given(cards(FEW_TIMES, most=4), ROWS, ROWS)
def test_nothing_is_lost_and_nothing_doubled(card, mine, theirs):
    one, other = (replace(card, entries=card.entries + row) for row in (mine, theirs))
    both = merge_cards(one, other)
    assert marks(both) == marks(one) | marks(other)
    assert merge_cards(other, one) == both
    for known in (one, other, both):
        assert merge_cards(both, known) == both


@given(cards(most=8), st.data())
def test_the_longer_history_stands_where_it_goes_on_from_the_other(card, data):
    shorter = replace(card, entries=card.entries[: data.draw(st.integers(0, len(card.entries)))])
    assert merge_cards(shorter, card) == merge_cards(card, shorter) == card


@given(st.lists(entries(FEW_TIMES), unique_by=repr, max_size=8), st.integers(0, 8))
def test_each_machine_s_own_order_stands(drawn, cut):
    one, other = (Card(id="c", begun_at="", entries=tuple(row)) for row in (drawn[:cut], drawn[cut:]))
    both = merge_cards(one, other).entries
    assert is_within(one.entries, both)
    assert is_within(other.entries, both)


def test_answers_of_two_machines_stand_in_order_of_time():
    begun = entry("tag", "7", at="2026-03-31T14:00:00+00:00")
    mine = entry("wheel", "rear", at="2026-03-31T14:05:00+00:00")
    theirs = entry("wheel", "front", at="2026-03-31T14:04:00+00:00")
    one, other = (Card(id="c", begun_at="", entries=(begun, last)) for last in (mine, theirs))
    assert merge_cards(one, other).entries == (begun, theirs, mine)
    assert merge_cards(one, other).answer("wheel") == "rear"
