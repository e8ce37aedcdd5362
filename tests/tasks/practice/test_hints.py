"""Hints said of one thing that went wrong, each as the gesture that would have been right.

The laws here are the project's own: a hint is true of what was done. The gestures are common practice, no source.
"""

from math import radians
from typing import Any, get_args

import pytest

from conemodel.parts.exercise import Fault, Must
from conemodel.tasks.practice.actions import (
    Answer,
    CloseClamp,
    Finish,
    FitClamp,
    HoldAxle,
    HoldCone,
    OpenClamp,
    Rock,
    ScrewIn,
    Take,
    Tighten,
    Trim,
    TurnCone,
    TurnWheel,
    Twirl,
)
from conemodel.tasks.practice.faults import FAULTS
from conemodel.tasks.practice.hint_answers import ANSWERS
from conemodel.tasks.practice.hint_checks import HINT_CHECK
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.questions import QUESTIONS
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, framed, open_link
from tests.tasks.practice.players import adjust

ON_SPACERS: dict[str, Any] = {"start": "locked", "seat": "spacers on locknuts"}
AS_IT_CAME = "right as it"


def hint(bench: Bench) -> str:
    return mark(bench).hubs[0].hint


def failed(bench: Bench) -> set[str]:
    return {check.name for check in mark(bench).hubs[0].checks if not check.passed}


def test_exercise_five_failed_only_for_the_order_of_feeling_is_told_to_feel_it_open():
    bench = adjust(open_link("05-quick-release.order.1"), out=115.0)
    bench = do(bench, OpenClamp(), FitClamp(None), FitClamp("dropouts"), CloseClamp(), Rock(), Finish())
    assert failed(bench) == {"play felt open"}
    assert AS_IT_CAME not in hint(bench)
    assert "rocked it only clamped" in hint(bench)
    assert mark(bench).stage == "not checked"


@pytest.mark.parametrize("state", ["loose", "tight"])
@pytest.mark.parametrize(
    "fault", ["bent axle", "dents", "dry grease", "odd ball", "proud axle", "ball missing"]
)
def test_a_hub_no_setting_cures_is_to_be_stripped_and_looked_at_and_no_turn_is_named(fault, state):
    prior = {"faults": (fault,), "states": (state,)}
    bench = do(bench_of(prior=prior, **ON_SPACERS), Rock(), Finish())
    assert "trip" in hint(bench)
    assert not any(word in hint(bench) for word in ("bring the cone", "°", "minute"))
    assert mark(bench).stage == "judged"


FELT_ALL_ROUND = tuple(act for _ in range(3) for act in (Rock(), Twirl(), TurnWheel()))
OPEN_ONCE = (OpenClamp(), Twirl())
OPEN_ALL_ROUND = (Twirl(), OpenClamp(), *FELT_ALL_ROUND)


@pytest.mark.parametrize(
    ("fault", "felt", "said", "stage", "words"),
    [
        ("none", OPEN_ONCE, "bent axle", "not checked", "twirled it only open"),
        ("bent axle", OPEN_ONCE, "odd ball", "not checked", "twirled it only open"),
        ("bent axle", OPEN_ONCE, "bent axle", "not checked", "in one position only"),
        ("none", FELT_ALL_ROUND, "odd ball", "not checked", "never rocked it open"),
        ("odd ball", (*FELT_ALL_ROUND, OpenClamp(), Rock()), "dents", "not checked", "open in one position"),
        ("none", OPEN_ALL_ROUND, "odd ball", "judged", "moves alike in all positions, so only the adj"),
        ("odd ball", OPEN_ALL_ROUND, "bent axle", "judged", "moves more in one position than in another"),
        ("dents", FELT_ALL_ROUND, "odd ball", "judged", "twirled clamped it feels notchy"),
        ("none", FELT_ALL_ROUND, "dents", "judged", "does not feel notchy, so only the adjustment"),
        ("dry grease", OPEN_ONCE, "dents", "judged", "it feels dry and scratchy"),
    ],
)
def test_a_fault_named_wrong_is_told_by_the_feeling_that_was_left_out_else_by_what_was_felt(
    fault, felt, said, stage, words
):
    """A stiff hub, to be felt in three positions: an open twirl in one place is no fault of judgement."""
    asked: dict[str, Any] = {"kind": "name", "questions": ("fault",), "must": ("three positions",)}
    prior = {"faults": (fault,), "states": ("tight",), "beyond": (0.05, 0.05)}
    bench = do(bench_of(prior=prior, **asked, **ON_SPACERS), *felt, Answer("fault", said))
    assert words in hint(bench)
    assert mark(bench).stage == stage
    assert ("Strip it and look" in hint(bench)) == (fault != "none")


def test_it_was_right_as_it_came_is_said_where_it_was_and_was_touched():
    bench = bench_of(start="locked", seat="spacer on axle end", most_moves=2)
    touched = do(framed(bench, 0.5), HoldAxle("far spanners"), HoldCone(), Trim(radians(2)), Rock(), Twirl())
    assert AS_IT_CAME in hint(do(touched, Finish()))


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        ((), (Twirl(),), "never rocked it clamped"),
        ((Rock(),), (Twirl(),), "before the last move"),
        ((), (OpenClamp(), Rock(), CloseClamp(), Twirl()), "only open"),
        ((), (Rock(),), "never twirled it"),
        ((Twirl(),), (Rock(),), "before the last move"),
        ((), (Rock(), OpenClamp(), Twirl(), CloseClamp()), "only open"),
        ((), (Rock(), Twirl(full_turn=False)), "less than a full turn"),
    ],
)
def test_what_was_not_felt_is_named_by_how_it_was_not_felt(before, after, words):
    trim = (HoldAxle("far spanners"), HoldCone(), Trim(radians(1)), HoldAxle("nothing"))
    loose = bench_of(start="locked", seat="spacer on axle end", prior={"states": ("loose",)})
    bench = do(loose, *before, *trim)
    assert words in hint(do(framed(bench, 0.5), *after, Finish()))


def locked_at(share: float, *tighten: Any, scenario: str = "touring-rear", **prior: Any) -> Bench:
    """Lock with the cone where a share of the good range comes out, and clamp it on spacers."""
    bench = do(bench_of(scenario=scenario, prior=prior), HoldAxle("vice"), *tighten[:-1], ScrewIn())
    bench = do(bench, TurnCone(bench.hub.shown + radians(120)), tighten[-1])
    bench = framed(bench, share)
    return do(bench, HoldAxle("nothing"), FitClamp("spacers on locknuts"), CloseClamp(), Rock())


HELD = (HoldCone(), Tighten())


def test_a_stiff_hub_said_to_be_done_is_told_to_bring_the_cone_out_from_a_line():
    """Half a minute of the clock is 3° of cone: the hint goes to the middle of the range and no finer than that."""
    bench = do(locked_at(-1.0, *HELD), Twirl(), Finish())
    (marked,) = mark(bench).hubs
    assert "It twirled stiff, clamped" in marked.hint
    lead = bench.secret.scenario.axle.lead_per_radian
    minutes = round((marked.window.target - marked.end_play) / lead / radians(6) * 2) / 2
    assert f"out by {minutes:.0f}" in marked.hint.replace("½", "")
    assert "twirl" in hint(do(locked_at(-1.0, *HELD), Finish()))


def test_a_cone_left_free_is_to_be_held():
    free = {"drift": (radians(30), radians(30)), "clamp_force": (1e3, 1e3)}
    bench = do(
        locked_at(-1.0, HoldCone(False), Tighten(), scenario="unkeyed-locknut", **free), Twirl(), Finish()
    )
    assert "left the cone free" in hint(bench)
    assert mark(bench).stage == "drift"


def test_a_loose_hub_is_told_by_what_was_felt_or_was_not():
    felt = locked_at(2.0, *HELD)
    assert "It moved freely when you rocked it clamped" in hint(do(felt, Twirl(), Finish()))
    onto = do(locked_at(2.0, HoldCone(), Tighten("firm", "cone turned out")), Twirl(), Finish())
    assert "out onto the nut" in hint(onto)


@pytest.mark.parametrize(
    ("state", "said", "words"),
    [
        ("loose", "right", "moves freely"),
        ("tight", "right", "twirls stiff"),
        ("right", "loose", "from the start"),
        ("right", "tight", "not stiff"),
    ],
)
def test_a_hub_named_wrong_is_told_by_what_the_hand_was_told(state, said, words):
    bench = bench_of(kind="name", questions=("name",), prior={"states": (state,)}, **ON_SPACERS)
    assert words in hint(do(bench, Rock(), Twirl(), Answer("name", said)))


def test_the_hint_of_several_hubs_is_that_of_the_one_that_must_not_be_ridden():
    bench = do(bench_of(hubs=2, needed=2, rides=True, **ON_SPACERS), Finish(), Take(1))
    bench = do(bench, OpenClamp(), FitClamp("dropouts"), Finish())
    result = mark(bench)
    assert result.hint.startswith("Hub 1: Before anything else")


def test_everything_that_can_be_asked_for_has_its_hint():
    """But for the reason to refuse: that is asked only of a hub to be stripped."""
    assert set(get_args(Must)) <= set(HINT_CHECK)
    assert {"name", "flex", "refuse", "fault", *ANSWERS} == set(QUESTIONS)
    assert set(get_args(Fault)) == set(FAULTS)
