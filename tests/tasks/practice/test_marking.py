"""Marking: a pure function of the bench, by where the hub ended, where it strayed and what was done for it."""

from dataclasses import replace
from math import radians
from typing import Any

import pytest

from conemodel.tasks.practice.actions import (
    Answer,
    CloseClamp,
    Finish,
    FitClamp,
    HoldAxle,
    HoldCone,
    InWords,
    Look,
    OpenClamp,
    PutRight,
    Rock,
    ScrewIn,
    TakeBack,
    Tighten,
    Trim,
    TurnCone,
    Twirl,
    Undo,
)
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.session import Bench
from tests.tasks.practice.hands import do
from tests.tasks.practice.hubs import bench_of, framed, open_link
from tests.tasks.practice.players import careful

ON_SPACERS: dict[str, Any] = {"start": "locked", "seat": "spacers on locknuts"}


def failed(bench: Bench) -> set[str]:
    return {check.name for hub in mark(bench).hubs for check in hub.checks if not check.passed}


def checked(bench: Bench) -> Bench:
    return do(bench, Rock(), Twirl(), Finish())


@pytest.mark.parametrize(
    ("share", "state", "sign"),
    [(0.5, "right", 0), (0.05, "right", 0), (-0.2, "tight", -1), (1.2, "loose", 1)],
)
def test_a_hub_is_marked_by_where_it_would_be_in_the_frame(share, state, sign):
    bench = checked(framed(bench_of(**ON_SPACERS), share))
    (hub,) = mark(bench).hubs
    assert hub.state == state
    off = sign * 0.2 * hub.window.width
    assert hub.off_by == pytest.approx(off, abs=1e-9)
    assert hub.off_turn == pytest.approx(hub.off_by / (1e-3 / (2 * 3.141592653589793)), rel=1e-9)
    assert mark(bench).passed == (state == "right")


def test_the_waterfall_adds_up_to_the_end_play_in_the_frame():
    bench = do(bench_of(), HoldAxle("vice"), HoldCone(), ScrewIn())
    bench = do(bench, TurnCone(bench.hub.shown + radians(80)), Tighten(), Finish())
    (hub,) = mark(bench).hubs
    assert sum(term.length for term in hub.terms) == pytest.approx(hub.end_play, abs=1e-15)
    assert hub.end_play == end_play_of(bench.secret, in_frame(bench.secret, bench.hub))
    assert [term.key for term in hub.terms][:3] == ["finger", "back_off", "thread_slack"]


def test_done_without_a_twirl_is_unchecked_even_when_it_is_right():
    bench = framed(bench_of(**ON_SPACERS), 0.5)
    for action, missing in ((Rock(), "twirled"), (Twirl(), "clamped")):
        result = mark(do(bench, action, Finish()))
        assert result.unchecked
        assert not result.passed
        assert result.stage == "not checked"
        assert failed(do(bench, action, Finish())) == {missing}
    assert mark(do(bench, Twirl(full_turn=False), Rock(), Finish())).unchecked


def test_a_twirl_with_the_clamp_open_is_no_check_of_the_hub_clamped():
    """Open, a hub that is right clamped turns free: it has its drag clamped only. Common practice, no source."""
    bench = do(framed(bench_of(**ON_SPACERS), 0.5), OpenClamp(), Twirl(), CloseClamp(), Rock())
    assert "not clamped" in bench.log[1].told
    assert failed(do(bench, Finish())) == {"twirled"}
    again = do(bench, Twirl())
    assert "not clamped" not in again.log[-1].told
    assert mark(do(again, Finish())).passed


def test_a_move_after_the_check_makes_it_unchecked_again():
    bench = do(bench_of(), HoldAxle("vice"), HoldCone(), ScrewIn())
    bench = do(bench, TurnCone(bench.hub.shown + radians(80)), Tighten(), HoldAxle("far spanners"))
    bench = do(bench, FitClamp("spacer on axle end"), CloseClamp(), Rock(), Twirl())
    assert not mark(bench).unchecked
    assert mark(do(bench, Trim(radians(1)))).unchecked
    assert mark(do(bench, Undo())).unchecked


def set_at(share: float, **prior: object) -> Bench:
    """Lock with the cone where a share of the good range comes out, clamp, check and finish."""
    bench = do(bench_of(prior=dict(prior)), HoldAxle("vice"), HoldCone(), ScrewIn(), Tighten())
    bench = framed(bench, share)
    return checked(do(bench, HoldAxle("nothing"), FitClamp("spacers on locknuts"), CloseClamp()))


@pytest.mark.parametrize(
    ("prior", "share", "stage"),
    [
        ({"thread_clearance": (350e-6, 350e-6)}, -2.0, "slack"),
        ({"drift": (radians(40), radians(40)), "clamp_force": (1e3, 1e3)}, -1.0, "drift"),
        ({"clamp_force": (8e3, 8e3), "thread_clearance": (10e-6, 10e-6)}, -1.0, "clamp"),
        ({"clamp_force": (1e3, 1e3), "thread_clearance": (10e-6, 10e-6)}, -3.0, "touch"),
        ({"thread_clearance": (60e-6, 60e-6)}, -2.0, "touch"),
        ({}, 2.0, "touch"),
        ({}, 0.5, "none"),
    ],
)
def test_the_stage_is_the_one_without_which_a_hub_would_not_be_tight_or_who_left_it_loose(
    prior, share, stage
):
    """Sums of terms; the sizes are chosen so that one stage alone took it over the edge, or none did."""
    assert mark(set_at(share, **prior)).stage == stage


def test_backed_onto_the_nut_and_left_loose_it_is_the_slack_that_did_not_come():
    bench = do(bench_of(), HoldAxle("vice"), HoldCone(), ScrewIn(), Tighten("firm", "cone turned out"))
    bench = framed(bench, 2.0)
    bench = checked(do(bench, HoldAxle("nothing"), FitClamp("spacers on locknuts"), CloseClamp()))
    assert mark(bench).stage == "slack"


def test_loose_and_never_rocked_clamped_it_is_the_clamp():
    bench = do(bench_of(), HoldAxle("vice"), HoldCone(), ScrewIn(), Tighten(), HoldAxle("nothing"))
    bench = do(framed(bench, 2.0), FitClamp("spacers on locknuts"), CloseClamp())
    assert mark(do(bench, Twirl(), Finish())).stage == "clamp"


@pytest.mark.parametrize("share", [0.3, 0.7])
def test_touching_a_hub_that_is_right_scores_worse(share):
    # even where it ends right again
    bench = bench_of(start="locked", seat="spacer on axle end", most_moves=2)
    left = checked(framed(bench, share))
    turned = framed(do(bench, HoldAxle("far spanners"), HoldCone(), Trim(radians(2))), share)
    touched = checked(turned)
    assert mark(left).passed
    assert mark(touched).hubs[0].state == "right"
    assert not mark(touched).passed
    assert mark(touched).rank > mark(left).rank
    assert failed(touched) == {"left alone"}


def test_connecting_the_brake_is_no_move_of_the_cone():
    bench = framed(bench_of(start="locked", brake_loose=True), 0.5)
    bench = do(bench, FitClamp("spacers on locknuts"), CloseClamp(), Rock(), Twirl(), OpenClamp())
    bench = do(bench, FitClamp("dropouts"), PutRight("brake"), Finish())
    assert mark(bench).moves == 0
    assert mark(bench).passed


def test_an_act_that_moved_nothing_is_no_move_of_the_cone():
    bench = do(bench_of(), TurnCone(1.0), TurnCone(2.0))
    assert "nothing has changed" in bench.log[-1].told
    assert mark(bench).moves == 0
    bench = do(bench, HoldAxle("vice"), ScrewIn(), TurnCone(bench.hub.shown + 1.0))
    assert mark(bench).moves == 2


def test_undo_never_improves_a_mark():
    bench = bench_of(assessed=False, most_locks=1)
    bench = do(bench, HoldAxle("vice"), HoldCone(), ScrewIn())
    bench = do(bench, TurnCone(bench.hub.shown + radians(85)))
    # a first locking that is taken back still is the first of one allowed
    plain = do(bench, Tighten())
    undone = do(bench, Tighten(), TakeBack(), Tighten())
    assert undone.hubs == plain.hubs
    marks = [
        mark(checked(do(framed(b, 0.5), HoldAxle("nothing"), FitClamp("spacers on locknuts"), CloseClamp())))
        for b in (plain, undone)
    ]
    assert marks[0].passed
    assert not marks[1].passed
    assert marks[1].rank > marks[0].rank
    assert marks[1].locks == 2


def test_taking_back_is_for_free_practice_and_before_the_last_word():
    assessed = do(bench_of(), HoldAxle("vice"))
    assert "assessed" in act(assessed, TakeBack()).log[-1].told
    free = bench_of(assessed=False)
    assert act(free, TakeBack()).log[-1].refused
    assert act(do(free, Finish()), TakeBack()).log[-1].refused


RIDDEN: dict[str, Any] = {"rides": True, "start": "locked"}


def in_dropouts(bench: Bench, share: float = 0.5) -> Bench:
    bench = framed(do(bench, FitClamp("spacers on locknuts"), CloseClamp(), Twirl(), OpenClamp()), share)
    return do(bench, FitClamp("dropouts"), CloseClamp(), Rock())


def test_a_sound_wheel_ridden_has_nothing_critical():
    result = mark(do(in_dropouts(bench_of(**RIDDEN)), Finish()))
    assert result.critical == ()
    assert result.passed


@pytest.mark.parametrize("how", ["open lever", "on spacers", "play", "brake", "proud", "locknut"])
def test_what_must_never_be_ridden_fails_whatever_else_is_right(how):
    prior = {"faults": ("proud axle",)} if how == "proud" else {}
    bench = in_dropouts(bench_of(**RIDDEN, prior=prior, brake_loose=how == "brake"))
    words = {
        "open lever": "not clamped in the frame",
        "on spacers": "not clamped in the frame",
        "play": "has play when clamped",
        "brake": "brake is not connected",
        "proud": "proud",
        "locknut": "locknut is loose",
    }[how]
    if how == "open lever":
        bench = do(bench, OpenClamp())
    if how == "on spacers":
        bench = do(bench, OpenClamp(), FitClamp("spacers on locknuts"), CloseClamp())
    if how == "play":
        bench = framed(bench, 1.5)
    if how == "locknut":
        bench = do(bench, OpenClamp(), HoldAxle("far spanners"), Undo())
    result = mark(do(bench, Finish()))
    assert any(words in reason for reason in result.critical)
    assert not result.passed
    assert result.critical[0] in result.hint


def test_feel_never_clears_a_proud_axle_and_only_looking_finds_it():
    sound, proud = (
        in_dropouts(bench_of(**RIDDEN, prior={"faults": (fault,)})) for fault in ("none", "proud axle")
    )
    assert sound.log[-1].told == proud.log[-1].told
    seen = [do(bench, Look("protrusion")).log[-1].told for bench in (sound, proud)]
    assert "back from" in seen[0]
    assert "stands out past" in seen[1]
    apart = do(proud, OpenClamp(), FitClamp(None), HoldAxle("vice"), HoldCone(), Undo(), PutRight("axle"))
    assert "back from" in do(apart, Look("protrusion")).log[-1].told


def test_a_thread_worn_out_must_be_refused_and_a_sound_one_must_not():
    worn = bench_of(prior={"faults": ("thread worn out",)}, questions=("refuse",))
    told = do(worn, Answer("refuse", "the thread is worn out"), Finish(refuse=True))
    assert mark(told).passed
    assert not mark(do(worn, Finish(refuse=True))).passed
    assert "refused" in failed(checked(worn))
    sound = bench_of(questions=("refuse",))
    assert "refused" in failed(do(sound, Finish(refuse=True)))


def test_a_mark_is_the_same_each_time():
    bench = checked(framed(bench_of(**ON_SPACERS), -0.4))
    assert mark(bench) == mark(bench)


def test_first_touch_is_not_done_before_the_cone_was_turned_and_its_hint_names_the_hub():
    """The angle of the hint is where the cone was left, from first touch: geometry of the thread."""
    bench = bench_of(kind="touch", hubs=2, needed=1, touch_within=radians(10))
    refused = act(bench, Finish())
    assert refused.log[-1].refused
    assert "not been turned yet" in refused.log[-1].told
    bench = do(bench, HoldAxle("vice"), TurnCone(bench.hub.shown + radians(30)), Finish())
    result = mark(bench)
    left = bench.hubs[0].cone / bench.hidden[0].scenario.axle.lead_per_radian
    assert result.hint.startswith("Hub 1: The cone was still free")
    assert f"{round(left / radians(6))} minutes from first touch: turn it in" in result.hint


@pytest.mark.parametrize("looked", [False, True])
@pytest.mark.parametrize("fault", ["none", "ball missing"])
@pytest.mark.parametrize("made_up", [False, True])
def test_balls_count_once_they_were_looked_at_and_are_all_there(looked, fault, made_up):
    bench = bench_of(**ON_SPACERS, must=("balls counted",), prior={"faults": (fault,)})
    hub = replace(bench.hub, seen=frozenset({"balls"}) if looked else bench.hub.seen, balls_made_up=made_up)
    passed = looked and (fault == "none" or made_up)
    assert ("balls counted" not in failed(do(bench.with_hub(hub), Finish()))) is passed


@pytest.mark.parametrize("fault", ["none", "ball missing"])
def test_who_makes_up_the_balls_has_counted_them(fault):
    bench = bench_of(**ON_SPACERS, must=("balls counted",), prior={"faults": (fault,)})
    bench = do(bench, OpenClamp(), FitClamp(None), Undo(), Look("balls"), PutRight("balls"), Finish())
    assert "balls counted" not in failed(bench)


def test_a_pass_says_that_words_were_asked_for_and_a_miss_claims_nothing():
    felt, told = open_link("01-first-touch.words.1"), act(open_link("01-first-touch.words.1"), InWords())
    assert [mark(careful(bench)).verdict for bench in (felt, told)] == ["Passed", "Passed, told in words"]
    assert mark(told).verdict == "Not yet"
