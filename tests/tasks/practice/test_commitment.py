"""Words come last: a reader of words learns nothing before it has said what the hub is; who asks for them fares alike.

The players see what a trainee sees: the hand what the widgets are given, the readers the lines of the log that may be
read. The bounds are the project's own.
"""

from math import exp, log
from random import Random

import pytest

from conemodel.tasks.practice.actions import Finish, HoldAxle, InWords, Judge, Rock, Take, TurnCone, Twirl
from conemodel.tasks.practice.actions.judge import line_words, state_said
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.commitment import AT_THE_END, TO_SAY, read
from conemodel.tasks.practice.felt_words import DRAG_FROM, DRAG_GRADES, PLAY_FROM, PLAY_GRADES
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice.hands import OFTEN, do, hardest_right
from tests.tasks.practice.hubs import bench_of
from tests.tasks.practice.namers import MARKS, Judging, by_hand, by_words_alone, lines, name_all, start


def _middle(edges: tuple[float, ...], grade: int) -> float:
    """The middle of a grade on a scale of ratios."""
    inner = [edges[0] / 1.6, *edges, edges[-1] * 1.6]
    return exp((log(inner[grade]) + log(inner[grade + 1])) / 2)


def in_words(bench: Bench, _: Random) -> tuple[Bench, float]:
    """Somebody who has asked for words, and means as many of them as the hand feels."""
    play, drag = [], []
    for _time in range(OFTEN):
        since = len(bench.log)
        bench = do(bench, Rock(), Twirl())
        told = lines(bench, since)
        grade = max(i for i, word in enumerate(PLAY_GRADES) if f": {word} free" in told)
        play.append(_middle(PLAY_FROM["rim"], grade) if grade else 0.0)
        drag.append(log(_middle(DRAG_FROM, max(i for i, word in enumerate(DRAG_GRADES) if word in told))))
    if sum(play) / OFTEN > 0.1e-3:
        return bench, MARKS["loose"]
    stiff = sum(drag) / OFTEN > log(hardest_right(bench.exercise.scenario))
    return bench, MARKS["tight" if stiff else "right"]


def rate(judging: Judging, seeds: int, *before: InWords) -> float:
    return sum(name_all(start(seed), judging, seed, *before) for seed in range(seeds)) / seeds


def check_rates(seeds: int, *, leave: float) -> None:
    """Hold the shares of rounds that each player passes to their bounds, `leave` for how few rounds are played."""
    hand = rate(by_hand, seeds)
    assert hand > 0.8 - leave
    assert rate(by_words_alone, seeds) < 0.3
    assert abs(rate(in_words, seeds, InWords()) - hand) < 0.1 + leave


def test_a_reader_of_words_fails_and_who_asks_for_words_fares_as_the_hand_does():
    check_rates(16, leave=0.15)


@pytest.mark.slow
def test_the_same_over_two_hundred_seeds():
    check_rates(200, leave=0.0)


def test_a_line_from_loose_over_right_to_tight_says_the_word_its_mark_comes_to():
    marks = [n / 20 for n in range(-20, 21)]
    said = [state_said(at) for at in marks]
    assert said == sorted(said, key=["loose", "right", "tight"].index)
    assert all(state_said(at) in line_words(at) for at in marks)
    assert line_words(1.0).startswith("very")


def test_what_was_felt_is_read_once_it_is_said_what_it_was_and_again_not_of_what_is_felt_after():
    training = do(bench_of(assessed=False, start="locked", seat="spacers on locknuts"), Rock(), Twirl())
    assert [read(training, number) for number in (0, 1)] == [TO_SAY] * 2
    told = [event.told for event in training.log]
    said = do(training, Judge(0.2, "guessing"))
    assert [read(said, number) for number in (0, 1)] == told
    assert all(words in said.log[-1].told for words in told)
    again = do(said, Rock())
    assert read(again, 0) == told[0]
    assert read(again, 3) == TO_SAY
    nothing = act(do(again, Judge(0.0, "sure")), Judge(0.0, "sure"))
    assert nothing.log[-1].refused
    assert act(again, Judge(1.5, "sure")).log[-1].refused


def test_in_an_assessed_round_no_word_is_read_and_no_truth_told_before_the_last_hub_is_named():
    bench = start(1)
    for hub in range(8):
        bench = do(bench, Take(hub), Rock(), Twirl())
        assert read(bench, len(bench.log) - 1) == AT_THE_END
        bench = do(bench, Judge(0.0, "guessing"))
        assert bench.log[-1].told == "Noted."
    assert bench.finished
    assert AT_THE_END not in lines(bench, 0)


def test_how_a_cone_turns_is_felt_and_that_nothing_holds_it_is_seen():
    bench = do(bench_of(kind="touch"), TurnCone(-0.1))
    assert "nothing has changed" in read(bench, 0)
    held = do(bench, HoldAxle("vice"), TurnCone(bench.hub.shown - 0.1))
    assert read(held, 2) == AT_THE_END
    assert "turns freely" in read(do(held, InWords()), 2)
    assert "turns freely" in read(do(held, Finish()), 2)
