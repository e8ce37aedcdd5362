"""Replay: the path of a hub is what was done, its cue is true of it, and a careful hand's path ends right and checked.

What was done is the attempts' own record of acts, kept apart from the bench's log. Where the cone truly stood is held
against the five stages of a prediction; what no stage has (the hand's own error, trims, the far side) adds to them.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import radians
from random import Random

import pytest

from conemodel.base.units import UM
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.feel import LITTLE
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.good_path import good_path
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame, window_for
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.missed_check import missed_check
from conemodel.tasks.practice.missed_feel import Cue
from conemodel.tasks.practice.replay import replay_of
from conemodel.tasks.practice.session import HubState
from conemodel.tasks.practice.track import Frame, track_of
from conemodel.tasks.setting.predict import predict
from tests.tasks.practice.attempts import Attempt, Step, attempt
from tests.tasks.practice.hub_record import UNKNOWN_TO_A_HAND
from tests.tasks.practice.hubs import open_link
from tests.tasks.practice.players import careful

SET = [name for name, one in ladder().items() if one.kind == "set"]
NAMES = [*(SET * 6)[:50], *(["01-first-touch"] * 5), *(["11-what-is-wrong"] * 5)]
"""Sixty attempts."""

BY_HAND = ("hand", "far_side", "trim", "nut_drag", "clamp_let_go")
"""Keys of what no stage of a prediction has."""


@dataclass(frozen=True)
class Mine:
    """One hub's own path and cue: a replay without the good path, which is slower than both."""

    mine: tuple[Frame, ...]
    cue: Cue | None


def path_of(made: Attempt, number: int) -> Mine:
    mine = track_of(made.bench, number)
    return Mine(mine, missed_check(made.bench.exercise, made.bench.hidden[number], mine))


@pytest.fixture(scope="module")
def attempts() -> list[tuple[Attempt, list[Mine]]]:
    made = [attempt(open_link(f"{name}.replay.{seed}"), Random(seed)) for seed, name in enumerate(NAMES)]
    return [(one, [path_of(one, number) for number in range(len(one.bench.hubs))]) for one in made]


def steps_by_frame(made: Attempt, number: int, frames: tuple[Frame, ...]) -> list[list[Step]]:
    """The recorded acts since the frame before, up to the one after which each frame stands; none for the first."""
    left = [step for step in made.steps if step.hub == number]
    assert sum(frame.times for frame in frames[1:]) == len(left)
    groups: list[list[Step]] = [[]]
    for frame in frames[1:]:
        at = next(i for i, step in enumerate(left) if step.after == frame.hub and kind(step) == frame.kind)
        groups.append(left[: at + 1])
        left = left[at + 1 :]
    assert not left
    return groups


def kind(step: Step) -> str:
    return type(step.action).__name__


def test_a_path_is_what_was_done(attempts):
    for made, replays in attempts:
        for number, replay in enumerate(replays):
            assert replay.mine[0].hub == made.bench.hidden[number].start
            for frame, steps in zip(
                replay.mine[1:], steps_by_frame(made, number, replay.mine)[1:], strict=True
            ):
                assert frame.hub == steps[-1].after
                assert frame.told == steps[-1].told
                assert {kind(step) for step in steps[:-1]} <= {"Rock", "Twirl", "Spin"}
                secret = made.bench.hidden[number]
                assert frame.end_play == pytest.approx(end_play_of(secret, frame.hub), abs=1e-12)


def predicted(made: Attempt, number: int, hub: HubState) -> float | None:
    """End play by the stages of a prediction [m]; None where there is none for it."""
    secret = made.bench.hidden[number]
    lead = secret.scenario.axle.lead_per_radian
    setting = {"back_off": hub.cone / lead, "axle_held": "vice"}
    if hub.lock is None:
        if hub.closed or hub.nut_snug:
            return None
        return float(predict(secret.now(hub).with_setting(**setting)).stages["backed_off"].end_play)
    terms = {term.key: term.length for term in hub.lock.terms}
    setting |= {"lock_torque": hub.lock.torque, "drift": -terms.get("drift", 0.0) / lead}
    stage = "clamped" if hub.closed else "locked"
    if hub.closed:
        setting["clamp_seat"] = hub.seat
    made_of = predict(secret.now(hub).with_setting(**setting)).stages[stage].end_play
    return float(made_of) + sum(terms.get(key, 0.0) for key in BY_HAND)


def turned_along(hub: HubState) -> float:
    """How far all that turns a held cone took it out [m]: it drifts in with the nut, and hands err."""
    terms = hub.lock.terms if hub.lock else ()
    return sum(term.length for term in terms if term.key in ("drift", *BY_HAND[:-1]))


def plain_locks(frames: tuple[Frame, ...], steps: list[list[Step]]) -> Iterator[Frame]:
    """Frames of a hub that is loose, or was locked once from loose with the nut turned and the cone held."""
    plain = True
    for frame, done in zip(frames, steps, strict=True):
        for step in done:
            if isinstance(step.action, a.Tighten):
                held = step.before.cone_held and step.before.axle_held == "vice"
                plain = (
                    held and step.before.lock is None and not step.before.nut_snug and not step.before.closed
                )
                plain = plain and step.action.technique == "nut turned"
            if step.after.lock is None:
                plain = True
        if plain and (done or frame.hub.lock is None):
            yield frame


def test_where_the_cone_stood_is_what_is_predicted(attempts):
    compared = {"backed_off": 0, "contact": 0, "locked": 0, "clamped": 0}
    for made, replays in attempts[::8]:
        for number, replay in enumerate(replays):
            for frame in plain_locks(replay.mine, steps_by_frame(made, number, replay.mine)):
                if frame.hub.lock and made.bench.hidden[number].fault == "thread worn out":
                    continue
                expected = predicted(made, number, frame.hub)
                if expected is not None:
                    assert frame.end_play == pytest.approx(expected, abs=UM.to_si(1.0)), frame.done
                    lead = made.bench.hidden[number].scenario.axle.lead_per_radian
                    along = frame.hub.cone + turned_along(frame.hub)
                    assert frame.angle * lead == pytest.approx(along, abs=UM.to_si(1.0))
                    compared[frame.stage] += 1
    assert min(compared["backed_off"], compared["locked"], compared["clamped"]) > 8


def test_the_good_range_is_where_the_cone_is_right_once_locked_and_clamped(attempts):
    for made, replays in attempts[::3]:
        if made.bench.exercise.kind == "touch":
            continue
        for number, replay in enumerate(replays):
            secret = made.bench.hidden[number]
            for frame in replay.mine:
                tight, loose = frame.good
                inside = tight <= frame.angle <= loose
                if frame.hub.lock is not None:
                    end, window = (
                        end_play_of(secret, in_frame(secret, frame.hub)),
                        window_for(secret, frame.hub),
                    )
                    assert inside == (window.tight_edge <= end <= window.loose_edge)
                if inside and made.bench.exercise.kind == "set" and window_for(secret, frame.hub).width > 0:
                    assert frame.state == "right" or secret.fault != "none"


class CueFacts:
    """What has to be so of an attempt for its cue, by its own record of acts."""

    def __init__(self, made: Attempt, number: int, replay: Mine) -> None:
        assert replay.cue is not None
        self.cue, self.made, self.number = replay.cue, made, number
        self.secret = made.bench.hidden[number]
        groups = steps_by_frame(made, number, replay.mine)
        self.at = groups[self.cue.at]
        self.hub = self.at[-1].after if self.at else self.secret.start
        # from the act it names to the next that moved the cone or its lock
        self.next: list[Step] = []
        before = [step for steps in groups[: self.cue.at + 1] for step in steps]
        for step in [step for steps in groups[self.cue.at + 1 :] for step in steps]:
            if (step.after.cone, step.after.lock) != (self.hub.cone, self.hub.lock):
                break
            self.next.append(step)
        self.since = self.next
        for step in reversed(before):
            if (step.after.cone, step.after.lock) != (self.hub.cone, self.hub.lock):
                break
            self.since = [step, *self.since]

    @property
    def off(self) -> float:
        """How far past the loose (above 0) or the tight edge it would be in the frame [rad]."""
        window, end = window_for(self.secret, self.hub), end_play_of(self.secret, self.framed)
        over = max(end - window.loose_edge, 0.0) + min(end - window.tight_edge, 0.0)
        return over / self.secret.scenario.axle.lead_per_radian

    @property
    def framed(self) -> HubState:
        return in_frame(self.secret, self.hub)

    def of(self, kind: type, *, closed: bool = True) -> list[Step]:
        found = [step for step in self.since if isinstance(step.action, kind) and step.told != LITTLE]
        return [step for step in found if step.before.closed is closed]

    def hold(self) -> None:
        cue, words = self.cue, self.cue.gesture
        if "dragged here" in words:
            assert self.off < -UNKNOWN_TO_A_HAND
            twirls = self.of(a.Twirl)
            assert bool(twirls) is (cue.missed != "not made")
            stiff = any("stiff" in (step.after.felt.twirled_clamped or ()) for step in twirls[-1:])
            assert stiff is (cue.missed == "not believed")
        elif "moved freely here" in words or "It moved freely" in words:
            assert self.off > UNKNOWN_TO_A_HAND
            rocks = self.of(a.Rock)
            assert bool(rocks) is (cue.missed != "not made")
            free = any(step.after.felt.rocked_clamped != "none" for step in rocks[-1:])
            assert free is (cue.missed == "not believed")
        elif "turned lightly" in words:
            assert abs(self.off) <= radians(8)
            assert not self.of(a.Twirl) or not self.of(a.Rock)
        elif "no play left" in words:
            assert not any(
                step.after.felt.rocked_clamped for step in self.next if isinstance(step.action, a.Rock)
            )
        elif "ball short" in words or "stands out" in words or "rattles: no" in words:
            assert {"ball short": "ball missing", "stands out": "proud axle"}.get(
                next((key for key in ("ball short", "stands out") if key in words), ""), "thread worn out"
            ) == self.secret.fault
        assert cue.missed == "not made" or type(self.at[-1].action).__name__ == cue.check


def test_a_cue_names_an_act_of_the_history_and_is_true_of_it(attempts):
    said = set()
    for made, replays in attempts:
        for number, replay in enumerate(replays):
            if replay.cue is not None:
                assert 0 <= replay.cue.at < len(replay.mine)
                CueFacts(made, number, replay).hold()
                said.add((replay.cue.check, replay.cue.missed))
    assert {("Twirl", "not made"), ("Rock", "not made"), ("Rock", "not believed")} <= said


def test_no_cue_is_shown_where_nothing_was_missed(attempts):
    """A hub with none ended right and felt both ways, clamped; or it could not be set, and was refused or unsaid."""
    shown = 0
    for made, replays in attempts:
        for replay, marked in zip(replays, mark(made.bench).hubs, strict=True):
            if replay.cue is None and made.bench.exercise.kind == "set" and marked.checks:
                hub = made.bench.hubs[marked.hub]
                felt = hub.felt.rocked_clamped is not None and hub.felt.twirled_clamped is not None
                refused = hub.done == "refuse" or hub.lock is None
                assert refused or (marked.state == "right" and felt), marked
                shown += 1
    assert shown > 3


@pytest.mark.parametrize("name", SET)
def test_a_careful_player_that_passes_at_the_first_lock_is_shown_no_cue(name):
    bench = careful(open_link(f"{name}.careful.3"))
    for marked in mark(bench).hubs:
        if marked.passed and marked.locks <= 1:
            assert replay_of(bench, marked.hub).cue is None


@pytest.mark.parametrize("name", list(ladder()))
def test_the_good_path_ends_right_and_checked_with_nothing_missed(name):
    exercise = ladder()[name]
    for seed in range(1 if exercise.hubs > 2 else 3):
        bench = open_link(f"{name}.good.{seed}")
        for number in range(len(bench.hubs)):
            done = good_path(bench, number)
            assert [event for event in done.log if event.refused] == []
            marked = mark(done).hubs[number]
            assert marked.passed, (seed, number, marked.hint)
            assert missed_check(exercise, bench.hidden[number], track_of(done, number)) is None


def test_what_was_done_before_changes_nothing_in_the_good_path():
    bench = open_link("05-quick-release.same.1")
    after = attempt(bench, Random(4)).bench
    replay = replay_of(after, 0)
    assert replay.good == track_of(good_path(bench, 0), 0)
    assert replay.good[0] == replay.mine[0] == track_of(after, 0)[0]
    assert (replay.cue, replay.kind) == (path_of(Attempt(after), 0).cue, "set")
