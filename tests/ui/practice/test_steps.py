"""What the screen says comes next: never by a hidden number, and never a step that cannot be done."""

import pytest

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.next_step import next_step
from conemodel.tasks.practice.session import Bench
from conemodel.ui.practice.bench import ADVISED, hands_for
from conemodel.ui.practice.steps import advised_action, list_visible_states, looks
from tests.tasks.practice.hubs import open_link


def do(bench: Bench, *actions: a.Action) -> Bench:
    for action in actions:
        bench = act(bench, action)
        assert not bench.log[-1].refused, bench.log[-1]
    return bench


@pytest.mark.parametrize("name", list(ladder()))
def test_the_next_step_is_one_the_exercise_has(name: str) -> None:
    bench = open_link(f"{name}.words.1", key="k")
    step, advised = next_step(bench)[0], advised_action(bench)
    assert step != "look" or looks(bench.exercise)
    assert advised not in ADVISED or ADVISED[advised] in hands_for(bench.exercise)


@pytest.mark.parametrize("name", list(ladder()))
def test_hubs_that_differ_only_in_what_is_hidden_get_the_same_words(name: str) -> None:
    said = {
        str((next_step(b), list_visible_states(b)))
        for b in (open_link(f"{name}.words.{i}", key="k") for i in range(9))
    }
    assert len(said) == 1


def test_the_work_is_led_through_in_its_order_on_the_first_setting_exercise() -> None:
    bench = open_link("04-locknut.words.1", key="k")
    led, advised = [next_step(bench)[0]], [advised_action(bench)]
    for actions in (
        [a.Answer("foretell", "tighter")],
        [a.HoldAxle("vice")],
        [a.ScrewIn()],
        [a.TurnCone(bench.hub.shown + 1.5)],
        [a.HoldCone(), a.Tighten()],
        [a.HoldAxle("nothing"), a.FitClamp("spacers on locknuts"), a.CloseClamp()],
        [a.Rock()],
        [a.Twirl()],
    ):
        bench = do(bench, *actions)
        led.append(next_step(bench)[0])
        advised.append(advised_action(bench))
    assert advised == [None, None, a.ScrewIn, None, a.Tighten, a.CloseClamp, None, None, a.Finish]
    assert led == ["say", "cone", "cone", "cone", "lock", "clamp", "feel", "feel", "say"]


def test_a_later_exercise_leaves_the_checks_to_the_trainee() -> None:
    bench = open_link("05-quick-release.words.1", key="k")
    bench = do(bench, a.HoldAxle("vice"), a.ScrewIn(), a.HoldCone(), a.Tighten())
    words = next_step(bench)[1]
    assert "twirl" not in words
    assert "clamp" not in words.lower()


@pytest.mark.parametrize(
    ("name", "again"),
    [("09-trim-or-leave", "trim it"), ("07-hold-the-cone", "undo it, turn the cone, lock it")],
)
def test_once_felt_a_hub_that_someone_else_set_is_to_be_judged(name: str, again: str) -> None:
    bench = open_link(f"{name}.words.1", key="k")
    assert next_step(bench)[0] == "feel"
    step, words, _ = next_step(do(bench, a.Rock()))
    assert step == "say"
    assert again in words


def test_a_trim_is_felt_and_then_judged_anew() -> None:
    bench = do(
        open_link("09-trim-or-leave.words.1", key="k"), a.Rock(), a.HoldAxle("far spanners"), a.HoldCone()
    )
    bench = do(bench, a.Trim(0.1))
    assert next_step(bench)[0] == "feel"
    assert next_step(do(bench, a.Twirl()))[0] == "say"


def test_the_whole_job_begins_with_looking() -> None:
    bench = open_link("12-the-whole-job.words.1", key="k")
    assert next_step(bench)[0] == "look"
    assert next_step(do(bench, a.Look("protrusion"), a.Look("balls")))[0] == "cone"
