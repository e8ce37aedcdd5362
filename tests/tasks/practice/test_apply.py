"""Any sequence of actions: end play changes only by computed terms, refusals change nothing, undo is exact."""

from math import radians

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.apply import act
from conemodel.tasks.practice.catalogue import ladder
from conemodel.tasks.practice.hub_terms import terms_of
from conemodel.tasks.practice.marking import mark
from conemodel.tasks.practice.session import Bench, HubState
from tests.tasks.practice.hubs import end_play, open_link

STILL = (
    a.Take, a.Mark, a.HoldAxle, a.HoldCone, a.TurnWheel, a.TurnAxle, a.Rock, a.Twirl, a.Spin, a.Wiggle,
    a.FitClamp, a.Answer, a.Finish,
)  # fmt: skip
"""Actions that leave the cone and the clamp alone."""

# half the runs in free practice, where moves can be taken back; a dented hub is slow to feel
NAMES = [n for n in ladder() if n[:2] != "11"] + ["free-practice"] * 11

SIMPLE = (a.ScrewIn, a.Mark, a.Undo, a.TurnWheel, a.TurnAxle, a.Spin, a.Wiggle, a.CloseClamp, a.OpenClamp)

ACTIONS: st.SearchStrategy[a.Action] = st.one_of(
    st.sampled_from([kind() for kind in SIMPLE]),
    st.builds(a.HoldAxle, st.sampled_from(["vice", "vice", "far spanners", "nothing"])),
    st.builds(a.HoldCone, st.booleans()),
    st.builds(
        a.Tighten,
        st.sampled_from(["light", "firm", "hard"]),
        st.sampled_from(["nut turned", "cone turned out", "both"]),
    ),
    st.builds(a.Trim, st.floats(-0.25, 0.25)),
    st.builds(a.Rock, st.sampled_from(["rim", "axle end"]), st.booleans()),
    st.builds(a.Twirl, st.booleans()),
    st.builds(a.FitClamp, st.sampled_from([None, "dropouts", "spacers on locknuts", "spacer on axle end"])),
    st.builds(a.Look, st.sampled_from(["protrusion", "lever", "brake"])),
)


class AtTheBench(RuleBasedStateMachine):
    """A trainee who does anything at all, in free practice and in assessed exercises."""

    bench: Bench
    snapshots: list[tuple[HubState, ...]]

    @initialize(name=st.sampled_from(NAMES), seed=st.integers(0, 50))
    def begin(self, name: str, seed: int) -> None:
        self.bench = open_link(f"{name}.any.{seed}")
        self.snapshots = []

    def step(self, action: a.Action) -> None:
        before = self.bench
        self.bench = act(before, action)
        event = self.bench.log[-1]
        if event.refused:
            assert self.bench.hubs == before.hubs
            assert event.told
            return
        if not isinstance(action, a.Take) and not before.exercise.assessed:
            self.snapshots.append(before.hubs)
        self.check(before, action)

    def check(self, before: Bench, action: a.Action) -> None:
        """End play is the sum of its terms, and only the terms an action is about may change."""
        was, now = ({t.key: t.length for t in terms_of(b.secret, b.hub)} for b in (before, self.bench))
        changed = {key for key in was | now if was.get(key, 0.0) != now.get(key, 0.0)}
        clamp = {"axle_shortening", "cone_thread_clamp"}
        lock = {"thread_slack", "cone_thread", "cone_backed_out", "drift", "hand", "far_side", "clamp_let_go"}
        allowed: dict[type, set[str]] = {
            a.ScrewIn: {"back_off"},
            a.TurnCone: {"back_off"},
            a.Tighten: lock | clamp,
            a.Undo: lock | clamp | {"back_off", "trim", "nut_drag"},
            a.Trim: {"trim"},
            a.CloseClamp: clamp | {"nut_drag"},
            a.OpenClamp: clamp,
        }
        assert changed <= allowed.get(type(action), set())
        if isinstance(action, STILL):
            assert end_play(self.bench) == end_play(before)

    @rule(action=ACTIONS)
    def anything(self, action: a.Action) -> None:
        self.step(action)

    @rule(turn=st.floats(-2.0, 3.0))
    def turn_the_cone(self, turn: float) -> None:
        self.step(a.TurnCone(self.bench.hub.shown + turn))

    @rule()
    def a_whole_locking(self) -> None:
        for action in (a.HoldAxle("vice"), a.HoldCone(), a.Undo(), a.ScrewIn()):
            self.step(action)
        self.step(a.TurnCone(self.bench.hub.shown + radians(80)))
        self.step(a.Tighten())

    @precondition(lambda self: not self.bench.exercise.assessed and self.snapshots)
    @rule()
    def take_back(self) -> None:
        before, was = mark(self.bench), self.bench.hub.setting
        self.bench = act(self.bench, a.TakeBack())
        assert not self.bench.log[-1].refused
        assert self.bench.hubs == self.snapshots.pop()
        # what was taken back still counts, and taking it back is one move more where it moved something
        after = mark(self.bench)
        assert (after.locks, after.moves) == (before.locks, before.moves + (self.bench.hub.setting != was))

    @invariant()
    def nothing_leaks_into_the_log(self) -> None:
        for event in self.bench.log[-1:] if hasattr(self, "bench") else ():
            assert not any(letter.isdigit() for letter in event.told)

    @invariant()
    def assessed_keeps_no_past(self) -> None:
        if hasattr(self, "bench") and self.bench.exercise.assessed:
            assert self.bench.past == ()


TestAtTheBench = AtTheBench.TestCase
TestAtTheBench.settings = settings(max_examples=40, stateful_step_count=30, deadline=None)
