"""An action is one class and one entry: nothing else has to know of it. The laws here are the project's own."""

from dataclasses import dataclass, replace
from typing import ClassVar

import pytest

from conemodel.tasks.practice.actions import ACTIONS, Action, Answer, HoldAxle, Mark, Rock, Take, TakeBack
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.questions import QUESTIONS
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice.hubs import bench_of, open_link


@dataclass(frozen=True, slots=True)
class Wash(Action):
    """Wash the hub: made up for these tests."""

    twice: bool = False
    group: ClassVar[str] = "look"
    button: ClassVar[str] = "Wash it"

    @property
    def words(self) -> str:
        return "washed twice" if self.twice else "washed"

    def cannot(self, bench: Bench) -> str | None:
        return "It is clean." if "clean" in bench.hub.seen else None

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        return bench.with_hub(replace(bench.hub, seen=bench.hub.seen | {"clean"})), "It shines."


def test_every_action_is_in_the_list_once():
    own = [kind for kind in Action.__subclasses__() if kind.__module__.startswith("conemodel.")]
    # a set: a dataclass with slots is made anew, and the class it was made from may still be about
    assert {kind.__name__ for kind in own} == set(ACTIONS)


@pytest.mark.parametrize("kind", ACTIONS.values(), ids=lambda kind: kind.__name__)
def test_every_action_has_its_line_in_the_log(kind):
    assert kind.done or "words" in vars(kind)


def test_a_made_up_action_is_checked_done_logged_and_taken_back():
    bench = act(open_link("free-practice.any.1"), Wash(twice=True))
    assert (bench.log[-1].action, bench.log[-1].told) == ("washed twice", "It shines.")
    assert bench.log[-1].kind == "Wash"
    assert bench.log[-1].counts
    again = act(bench, Wash())
    assert again.hubs == bench.hubs
    assert again.log[-1].refused
    assert again.log[-1].told == "It is clean."
    back = act(again, TakeBack())
    assert "clean" not in back.hub.seen
    assert [event.undone for event in back.log] == [True, False, False]


def test_a_button_says_what_it_does_and_does_it():
    bench = bench_of()
    assert Wash.buttons(bench) == (("Wash it", Wash()),)
    for name, kind in ACTIONS.items():
        buttons = kind.buttons(bench)
        assert bool(buttons) == bool(kind.group), name
        assert all(label and type(action) is kind for label, action in buttons), name


def test_what_only_feels_is_no_move_and_another_hub_is_not_taken_back():
    bench = act(act(act(open_link("free-practice.any.1"), Rock()), Mark()), HoldAxle("vice"))
    assert [event.counts for event in bench.log] == [False, True, True]
    bench = act(act(bench, Take(0)), TakeBack())
    assert [event.undone for event in bench.log] == [False, False, True, False, False]
    assert bench.hub.axle_held == "nothing"


@pytest.mark.parametrize(("question", "word"), [("weather", "fair"), ("name", "fair")])
def test_what_is_not_asked_is_refused_in_words(question, word):
    bench = act(bench_of(), Answer(question, word))
    assert bench.log[-1].refused
    assert bench.log[-1].told.startswith("That is not")


@pytest.mark.parametrize("state", ["loose", "right", "tight"])
def test_the_right_answer_is_one_of_the_answers(state):
    secret = replace(bench_of().secret, state=state)
    for name, question in QUESTIONS.items():
        assert question.right(secret) in question.answers, name
