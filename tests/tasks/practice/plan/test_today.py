"""A day's practice: what is due, mixed, as long as a person's own hubs take. Dates and sums are counted by hand."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.plan.bench_clock import ASSUMED, LONGEST_PAUSE, BenchClock, pace_of
from conemodel.tasks.practice.plan.mixing import mix
from conemodel.tasks.practice.plan.spacing import Round
from conemodel.tasks.practice.plan.today import MOST, Today, plan_today

DAY = date(2026, 3, 10)
TOUCH, NAME, LOCKNUT, RELEASE, NUTS = list(ladder())[:2] + list(ladder())[3:6]


def done(exercise: str, ago: int, *, passed: bool = True, training: bool = False, **more: float) -> Round:
    stage = "none" if passed else "slack"
    hubs = ladder()[exercise].hubs
    return Round(
        exercise=exercise,
        day=DAY - timedelta(days=ago),
        passed=passed,
        training=training,
        stage=stage,
        hubs=hubs,
        seconds=more.get("seconds"),
    )


def plan(*rounds: Round) -> Today:
    return plan_today(ladder(), sorted(rounds, key=lambda one: one.day), DAY)


def names(today: Today) -> list[tuple[str, bool]]:
    return [(one.exercise, one.training) for one in today.left]


def test_whoever_begins_has_the_first_exercise_coached():
    today = plan()
    assert names(today) == [(TOUCH, True)]
    assert (today.hubs, today.seconds) == (4, 4 * ASSUMED["touch"])


def test_what_is_due_comes_and_what_is_not_does_not():
    today = plan(done(TOUCH, 3), done(NAME, 2), done(LOCKNUT, 1, passed=False))
    assert {one.exercise for one in today.left} == {TOUCH, LOCKNUT}
    reasons = {one.exercise: one.due.missed for one in today.left if one.due}
    assert reasons == {TOUCH: None, LOCKNUT: "slack"}
    assert today.next_day == DAY + timedelta(days=1)  # naming, right two days ago


def test_what_was_missed_comes_coached_then_assessed_with_another_between():
    today = plan(done(LOCKNUT, 1, passed=False), done(RELEASE, 4))
    assert names(today) == [(LOCKNUT, True), (RELEASE, False), (LOCKNUT, False)]


def test_nothing_new_is_added_while_something_is_missed():
    """Difficulty follows the person: Spruit and others 2014, as the review is quoted; page not seen."""
    untried = list(ladder())[2]
    assert {one.exercise for one in plan(done(LOCKNUT, 1, passed=False)).left} == {LOCKNUT}
    assert names(plan(done(TOUCH, 1), done(NAME, 1)))[-1] == (untried, True)


def test_the_plan_stays_what_it_was_while_it_is_worked_through():
    before = (done(LOCKNUT, 1, passed=False), done(RELEASE, 4))
    whole = plan(*before)
    first = plan(*before, done(LOCKNUT, 0, training=True))
    assert first.planned == whole.planned
    assert names(first) == names(whole)[1:]
    missed = plan(*before, done(LOCKNUT, 0, training=True), done(RELEASE, 0, passed=False))
    assert names(missed) == names(whole)[2:]
    over = plan(*before, *(done(e, 0, training=t) for e, t in names(whole)))
    assert (over.left, over.next_day) == ((), DAY + timedelta(days=3))


def test_no_exercise_follows_itself_while_another_is_left():
    today = plan(done(LOCKNUT, 1, passed=False), done(RELEASE, 1, passed=False), done(NUTS, 5))
    at: str | None = None
    for _ in today.left:
        planned = today.next_after(at)
        assert planned is not None
        assert planned.exercise != at
        at = planned.exercise
        today = Today(
            day=DAY,
            planned=today.planned,
            left=tuple(one for one in today.left if one is not planned),
            waiting=(),
            next_day=None,
        )


@given(st.lists(st.sampled_from("abcd"), max_size=12))
def test_the_mix_has_every_round_once_and_neighbours_differ_wherever_they_can(rounds):
    """They can while no exercise has more than half of the rounds and one besides; a law of arranging, by counting."""
    order = mix(rounds, of=str)
    assert sorted(order) == sorted(rounds)
    most = max((rounds.count(name) for name in set(rounds)), default=0)
    alike = sum(one == other for one, other in pairwise(order))
    assert alike == max(0, most - (len(rounds) - most) - 1)


def test_minutes_are_the_median_of_ones_own_hubs_or_those_of_a_like_exercise_or_assumed():
    rounds = [done(LOCKNUT, 9, seconds=each) for each in (100.0, 120.0, 4000.0)]
    assert pace_of(LOCKNUT, ladder(), rounds).seconds == 120.0
    assert pace_of(RELEASE, ladder(), rounds).seconds == 120.0
    assert pace_of(NAME, ladder(), rounds).seconds == ASSUMED["name"]
    assert [pace_of(e, ladder(), rounds).own for e in (LOCKNUT, RELEASE, NAME)] == [True, True, False]
    assert pace_of(NAME, ladder(), [done(NAME, 9, seconds=80.0)]).seconds == pytest.approx(10.0)


def test_a_day_is_no_longer_than_it_may_be_and_says_what_waits():
    due = [done(name, 4, passed=False, seconds=0.5 * MOST) for name in (LOCKNUT, RELEASE, NUTS)]
    today = plan(*due)
    assert {one.exercise for one in today.left} == {LOCKNUT}  # coached and assessed, each half a day
    assert set(today.waiting) == {RELEASE, NUTS}
    assert today.next_day == DAY + timedelta(days=1)


def test_a_clock_counts_acts_and_no_walk_away():
    clock = BenchClock()
    for now in (5.0, 25.0, 25.0, 1e6):
        clock = clock.at(now)
    assert clock.spent == 20.0 + LONGEST_PAUSE


@given(st.lists(st.tuples(st.sampled_from(list(ladder())), st.integers(0, 20), st.booleans(), st.booleans())))
def test_the_same_record_gives_the_same_day_and_nothing_that_was_not_due(made):
    rounds = [done(e, ago, passed=passed, training=coached) for e, ago, passed, coached in made]
    today = plan(*rounds)
    assert today == plan(*rounds)
    for one in today.left:
        assert one.due is None or one.due.day <= DAY
    fresh = [one.exercise for one in today.planned if one.due is None]
    assert len(fresh) <= 1
    assert not {one.exercise for one in rounds if one.day < DAY} & set(fresh)
