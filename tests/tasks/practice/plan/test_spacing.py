"""When an exercise comes again. The days 1, 3 and 10 are what was asked for; the dates are counted by hand."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from conemodel.tasks.practice.plan.spacing import DAYS, Round, due_after

START = date(2026, 2, 25)


def done(*rounds: tuple[int, bool] | tuple[int, bool, bool]) -> list[Round]:
    """Rounds of one exercise: on which day after the start, whether right, whether coached."""
    return [
        Round(
            exercise="04-locknut",
            day=START + timedelta(days=one[0]),
            passed=one[1],
            training=one[2] if len(one) > 2 else False,
            stage="none" if one[1] else "drift",
        )
        for one in rounds
    ]


def due_in(*rounds: tuple[int, bool] | tuple[int, bool, bool]) -> int:
    return (due_after(done(*rounds)).day - START).days


def test_missed_right_and_right_again_come_after_one_three_and_ten_days():
    assert due_in((0, False)) == 1
    assert due_in((0, True)) == 3
    assert due_in((0, True), (3, True)) == 13
    assert due_in((0, True), (3, True), (13, True)) == 23  # ten is the longest
    assert str(due_after(done((0, True), (3, True))).day) == "2026-03-10"  # over the end of February


def test_missed_again_goes_back_to_one_day_and_says_where():
    due = due_after(done((0, True), (3, True), (13, False)))
    assert (due.day, due.rights, due.missed) == (START + timedelta(days=14), 0, "drift")
    assert due_in((0, True), (3, True), (13, False), (14, True)) == 17
    assert due_after(done((0, False), (1, True))).missed is None


def test_right_before_it_is_due_lengthens_nothing():
    assert due_in((0, True), (2, True)) == 3
    assert due_in((0, True), (0, True), (0, True)) == 3
    assert due_in((0, False), (0, True)) == 1
    assert due_in((0, True), (8, True)) == 18  # later than due counts from when it was done


def test_a_coached_round_leads_to_an_assessed_one_and_proves_nothing():
    assert due_in((0, True, True)) == 1
    assert due_in((0, True, True), (0, True)) == 3
    assert due_in((0, True), (3, True, True)) == 3
    assert due_in((0, True), (1, False, True)) == 2  # but missed is missed


@given(st.lists(st.tuples(st.integers(0, 4), st.booleans(), st.booleans()), min_size=1, max_size=12))
def test_it_is_never_due_later_than_the_longest_pause_after_the_last_round(steps):
    """And a miss, whenever it was, is followed by an assessed right round before it rests for longer than a day."""
    day, rounds = 0, []
    for pause, passed, training in steps:
        day += pause
        rounds.append((day, passed, training))
    due = due_after(done(*rounds))
    assert due.day <= START + timedelta(days=day + DAYS[-1])
    if not rounds[-1][1]:
        assert due.day == START + timedelta(days=day + DAYS[0])
    proved = [one for one in rounds if one[1] and not one[2]]
    assert due.rights <= min(len(proved), len(DAYS) - 1)
