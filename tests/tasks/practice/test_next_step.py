"""A hand that does what comes next, and nothing else, never ends with a wheel that must not be ridden.

What must be so before a wheel is ridden (clamped in the frame, locknut tight, no play, brake connected, axle not
proud) is common practice, no source.
"""

from math import radians

import pytest

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.hidden_hub import Given, begin
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.next_step import next_step
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, open_link
from tests.tasks.practice.players import correct, judge

MOST_STEPS = 40
JOB = "12-the-whole-job.words.1"


def follow(bench: Bench) -> Bench:
    """Do what is named; where it is asked whether the setting is right, feel it, and set it again until it is."""
    set_right = False
    for _ in range(MOST_STEPS):
        following = next_step(bench)
        if "If not" in following.words and not set_right and bench.hub.seat != "dropouts":
            bench, set_right = correct(do(bench, a.HoldAxle("nothing")), locks=8), True
            bench = do(bench, a.OpenClamp(), a.Rock()) if "play felt open" in bench.exercise.must else bench
        elif following.acts:
            bench = do(bench, *(() if not isinstance(following.acts[-1], a.Tighten) else (a.HoldCone(),)))
            bench = do(bench, *following.acts)
        else:
            bench = by_hand(bench, following.words)
        if bench.hub.done is not None:
            return bench
    raise AssertionError(f"{bench.exercise.name}: never done, {next_step(bench)}")


def by_hand(bench: Bench, words: str) -> Bench:
    """Do what words leave to the hand."""
    if words.startswith("Say when"):
        return do(bench, a.Answer("recheck", "after the first ride and within about 100 km"))
    if "locking will do" in words:
        return do(bench, a.Answer("foretell", "tighter"))
    if words.startswith("Back the cone off"):
        return do(bench, a.TurnCone(bench.hub.shown + radians(115)))
    assert words.startswith("It is locked"), words
    return judge(bench)[0]


@pytest.mark.parametrize("coached", [False, True])
@pytest.mark.parametrize("name", [name for name, exercise in ladder().items() if exercise.rides])
def test_who_follows_what_comes_next_never_rides_a_wheel_that_must_not_be(name: str, coached: bool) -> None:
    for seed in range(1, 5):
        exercise = ladder()[name].replace(assessed=not coached)
        done = follow(begin(exercise, Given(salt="next", seed=seed)))
        assert mark(done).critical == (), seed
        missed = {check.name for check in mark(done).hubs[0].checks if not check.passed}
        assert missed <= {"locks", "range"}, seed


def test_in_the_frame_brake_and_next_look_are_named_one_after_the_other() -> None:
    bench = bench_of(rides=True, brake_loose=True, questions=("recheck",), start="locked", assessed=False)
    bench = do(bench, *(a.FitClamp("dropouts"), a.CloseClamp(), a.Rock()))
    assert next_step(bench).words == "Connect the brake."
    bench = do(bench, a.PutRight("brake"))
    assert next_step(bench).words == "Say when it must be looked at again."


def test_what_is_to_be_looked_at_is_still_said_after_the_cone_was_touched() -> None:
    bench = do(open_link(JOB), a.HoldAxle("vice"), a.ScrewIn())
    assert next_step(bench).acts == (a.Look("protrusion"),)
    assert next_step(do(bench, a.Look("protrusion"))).step == "look"


def test_a_row_that_is_short_of_a_ball_is_made_up_before_anything_is_locked() -> None:
    bench = bench_of(must=("balls counted",), prior={"faults": ("ball missing",)})
    bench = do(bench, a.HoldAxle("vice"), a.ScrewIn())
    assert next_step(bench).acts == (a.Look("balls"),)
    bench = do(bench, a.Look("balls"))
    assert next_step(bench).acts == (a.PutRight("balls"),)
    assert next_step(do(bench, a.PutRight("balls"))).acts == (a.ScrewIn(),)


def test_a_cone_just_screwed_in_is_backed_off_before_its_locknut_is_tightened() -> None:
    bench = do(bench_of(), a.HoldAxle("vice"), a.ScrewIn())
    assert next_step(bench).words.startswith("Back the cone off")
    assert next_step(do(bench, a.TurnCone(bench.hub.shown + 1.0))).acts == (a.Tighten(),)


def test_an_axle_in_the_vice_is_let_go_of_before_it_is_twirled() -> None:
    seat = "spacers on locknuts"
    bench = bench_of(kind="name", start="locked", seat=seat, questions=("name",), needed=1)
    bench = do(bench, a.Rock(), a.HoldAxle("vice"))
    assert next_step(bench).acts == (a.HoldAxle("nothing"),)
    assert next_step(do(bench, *next_step(bench).acts)).acts == (a.Twirl(),)
