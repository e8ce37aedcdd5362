"""The cue of a replay on attempts made for it: hubs without chance, felt by senses that do not scatter.

Which check tells which state is common practice, no source: clamped, rocking tells play and only twirling too tight.
"""

from math import radians
from typing import Any

import pytest

from conemodel.tasks.practice.actions import (
    Action,
    Answer,
    CloseClamp,
    Finish,
    FitClamp,
    HoldAxle,
    HoldCone,
    Look,
    OpenClamp,
    Rock,
    Tighten,
    TurnCone,
    Twirl,
    Undo,
    Wiggle,
)
from conemodel.tasks.practice.missed_check import missed_check
from conemodel.tasks.practice.missed_feel import Cue
from conemodel.tasks.practice.session import Bench
from conemodel.tasks.practice.track import track_of
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of

CLAMP = (HoldAxle("nothing"), FitClamp("spacers on locknuts"), CloseClamp())
FAR = {"beyond": (radians(20), radians(20))}
"""Far enough outside the good range for any hand."""


def found(state: str, **exercise: Any) -> Bench:
    """A hub that comes locked: loose, right or tight."""
    return bench_of(start="locked", prior={**FAR, "states": (state,)}, **exercise)


def cue_of(bench: Bench, *actions: Action) -> Cue | None:
    done = do(bench, *actions)
    return missed_check(done.exercise, done.secret, track_of(done, 0))


def turned(bench: Bench, angle: float) -> Bench:
    """Taken off its clamp, undone with the cone held, turned out by an angle [rad] and locked again."""
    bench = do(bench, OpenClamp(), FitClamp(None)) if bench.hub.closed else bench
    bench = do(bench, HoldAxle("vice"), HoldCone(), Undo())
    return do(bench, TurnCone(bench.hub.shown + angle), Tighten())


def what(cue: Cue | None) -> tuple[int, str, str] | None:
    return None if cue is None else (cue.at, cue.check, cue.missed)


@pytest.mark.parametrize(
    ("state", "felt", "expected"),
    [
        ("tight", (), (0, "Twirl", "not made")),
        ("tight", (*CLAMP, Rock()), (0, "Twirl", "not made")),
        ("tight", (Twirl(),), (0, "Twirl", "not made")),
        ("tight", (*CLAMP, Twirl(full_turn=False)), (0, "Twirl", "not made")),
        ("tight", (*CLAMP, Rock(), Twirl()), (5, "Twirl", "not believed")),
        ("loose", (), (0, "Rock", "not made")),
        ("loose", (*CLAMP, Twirl()), (0, "Rock", "not made")),
        ("loose", (*CLAMP, Rock(), Twirl()), (4, "Rock", "not believed")),
        ("right", (), (0, "Twirl", "not made")),
        ("right", (*CLAMP, Twirl()), (3, "Rock", "not made")),
        ("right", (*CLAMP, Rock()), (0, "Twirl", "not made")),
        ("right", (*CLAMP, Rock(), Twirl()), None),
    ],
)
def test_a_hub_left_as_it_came(state, felt, expected):
    assert what(cue_of(found(state), *felt, Finish())) == expected


def test_a_tight_hub_felt_and_brought_out_is_missed_nowhere_but_further_in_is():
    felt = do(found("tight"), *CLAMP, Twirl())
    out = turned(felt, radians(28))
    assert cue_of(out, *CLAMP, Rock(), Twirl(), Finish()) is None
    further = turned(felt, -radians(8))
    assert what(cue_of(further, *CLAMP, Rock(), Twirl(), Finish())) == (4, "Twirl", "not believed")


def test_a_right_hub_that_is_moved_was_right():
    moved = turned(found("right"), radians(40))
    cue = cue_of(moved, *CLAMP, Rock(), Twirl(), Finish())
    assert what(cue) == (9, "Rock", "not believed")  # nobody felt it before: what it was, nobody could say
    felt = turned(do(found("right"), *CLAMP, Rock(), Twirl()), radians(40))
    cue = cue_of(felt, *CLAMP, Rock(), Twirl(), Finish())
    assert what(cue) == (5, "Twirl", "not believed")
    assert cue is not None
    assert cue.gesture.endswith("it was right.")


def test_a_clamp_in_the_frame_is_told_to_be_taken_out_of_it():
    cue = cue_of(found("tight"), FitClamp("dropouts"), CloseClamp(), Rock(), Finish())
    assert cue is not None
    assert cue.gesture == "Out of the frame, on spacers, clamped and twirled, it would have dragged here."


@pytest.mark.parametrize(
    ("state", "said", "expected"),
    [
        ("tight", "right", "Twirl"),
        ("loose", "right", "Rock"),
        ("right", "tight", "Twirl"),
        ("right", "loose", "Rock"),
        ("right", "right", None),
        ("tight", "tight", None),
    ],
)
def test_a_name_that_is_wrong_points_to_the_gesture_that_told(state, said, expected):
    bench = found(state, kind="name", seat="spacers on locknuts", questions=("name",))
    cue = cue_of(bench, Rock(), Twirl(), Answer("name", said))
    assert (cue and cue.check) == expected
    assert cue is None or cue.missed == "not believed"


@pytest.mark.parametrize(("out", "words"), [(30, "still turned freely"), (-12, "past first touch")])
def test_a_cone_left_off_first_touch(out, words):
    bench = bench_of(kind="touch", prior={"cone_out": (radians(90), radians(90))}, scenario="road-front")
    bench = do(bench, HoldAxle("vice"))
    at = bench.hub.shown - radians(90)
    cue = cue_of(bench, TurnCone(at + radians(40)), TurnCone(at + radians(out)), Finish())
    assert what(cue) == (3, "TurnCone", "not believed")
    assert cue is not None
    assert words in cue.gesture
    assert cue_of(bench, TurnCone(at), Finish()) is None


@pytest.mark.parametrize(
    ("fault", "look", "expected"),
    [
        ("thread worn out", (), ("Wiggle", "not made")),
        ("thread worn out", (Wiggle(),), ("Wiggle", "not believed")),
        ("proud axle", (Look("balls"),), ("Look", "not made")),
        ("proud axle", (Look("protrusion"),), ("Look", "not believed")),
        ("ball missing", (Look("balls"),), ("Look", "not believed")),
    ],
)
def test_what_no_setting_cures(fault, look, expected):
    prior: dict[str, Any] = {"faults": (fault,), "cone_out": (radians(90), radians(90))}
    if fault == "thread worn out":
        prior["thread_clearance"] = (800e-6, 800e-6)
    cue = cue_of(bench_of(prior=prior), *look, Finish())
    assert cue is not None
    assert (cue.check, cue.missed) == expected
