"""The state of a hub on the bench, and of the bench: frozen, so that undo is nothing but the state before."""

from dataclasses import dataclass, field, replace
from functools import lru_cache

from conemodel.parts.exercise import Exercise, Fault
from conemodel.parts.felt_play import PlayWord
from conemodel.parts.scatter import Scatter
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import AxleHeld, ClampSeat
from conemodel.solve.stages.terms import Term
from conemodel.tasks.practice.keyed_random import Range


@dataclass(frozen=True, slots=True, kw_only=True)
class Lock:
    """A tightened locknut.

    Attributes:
        torque: it was tightened with [N·m].
        terms: what locking, and trimming since, did to end play.
        rotation: how far all that turned the cone, along the thread, outward positive [m]; it stays when undone.
        turned_in: how far the cone turned in at the last tightening, as a pen line shows it [rad].
    """

    torque: float
    terms: tuple[Term, ...]
    rotation: float
    turned_in: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Felt:
    """What was found since the cone was last moved.

    Attributes:
        rocked_open, rocked_clamped: free movement as a word, None where it was not rocked.
        twirled_clamped: what the fingers found, twirled through a full turn, None where it was not; open it says
            nothing of the hub clamped, and is not kept.
    """

    rocked_open: PlayWord | None = None
    rocked_clamped: PlayWord | None = None
    twirled_clamped: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HubState:
    """One hub on the bench.

    Attributes:
        cone: how far out it stands from finger contact, along the axle [m]; while locked, before it was locked.
        shown: where it stands on the clock, outward [rad], as an eye can read it.
        lock: the tightened locknut, or None.
        nut_snug: the loose locknut is run up to the cone by finger: the cone bears on its thread's inboard flank.
        cone_held: a spanner is on the cone; axle_held: what keeps the axle from turning.
        mark: where the cone stood on the clock when a pen line was drawn over axle, cone and locknut [rad].
        marked_at: times locked when it was drawn.
        seat: what the clamp sits on, None without one; closed: whether it is.
        locks, trims, closings: how often each was done; the random numbers of the next depend on it.
        wheel, axle: quarter turns from where they stood.
        felt: since the cone was last moved; positions: of wheel and axle in which it was felt, in all.
        done: what was said at the end: done, refuse, or None.
        answers: to the questions asked, as (question, word).
        seen: what was looked at: protrusion, balls, lever, brake.
        axle_changed, balls_made_up, brake_connected: what was put right.
        touched: something that can move the cone was done.
        judged: what was last said of it since it was moved: a mark from loose (-1) to tight (1), and how sure or None.
        acts: what hands did so far that scatters; it names the next draw.
    """

    cone: float
    shown: float
    lock: Lock | None = None
    nut_snug: bool = False
    cone_held: bool = False
    axle_held: AxleHeld = "nothing"
    mark: float | None = None
    marked_at: int | None = None
    seat: ClampSeat | None = None
    closed: bool = False
    locks: int = 0
    trims: int = 0
    closings: int = 0
    wheel: int = 0
    axle: int = 0
    felt: Felt = Felt()
    positions: frozenset[tuple[int, int]] = frozenset()
    done: str | None = None
    answers: tuple[tuple[str, str], ...] = ()
    seen: frozenset[str] = frozenset()
    axle_changed: bool = False
    balls_made_up: bool = False
    brake_connected: bool = True
    touched: bool = False
    acts: int = 0
    judged: tuple[float, str | None] | None = None

    @property
    def pen(self) -> bool:
        """Whether it is marked."""
        return self.mark is not None

    @property
    def setting(self) -> tuple[object, ...]:
        """What tells whether cone or locknut was moved, or the hub put right, between two states."""
        return self.cone, self.lock, self.nut_snug, self.axle_changed, self.balls_made_up

    def answer(self, question: str) -> str | None:
        """Return the last answer to a question, or None."""
        return dict(self.answers).get(question)

    def moved(self) -> "HubState":
        """Return the state with everything felt before forgotten: the cone may stand elsewhere now."""
        return replace(self, felt=Felt(), judged=None, touched=True, acts=self.acts + 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class HiddenHub:
    """What the trainee cannot know. Never hand it, or its repr, to a page.

    Attributes:
        scenario: the hub with its true thread fit, clamp force, fingers and condition.
        mended: the same with the right axle and all its balls.
        key: of everything drawn for this hub; push: most the hand puts on its cone's spanner [N·m].
        drift: how far a held cone turns in with the nut [rad]; hand_error: of the hand that places it [rad].
        nut_drag: how far an axle nut drags a cone whose lock the clamp has unloaded [rad].
        scatter: how much its hands vary; sitting: key of what is the same for all acts of one sitting.
        fault: what is wrong with it; state: loose, right or tight, as drawn, where that was drawn.
        start: how it comes to the bench.
    """

    scenario: Scenario = field(repr=False)
    mended: Scenario = field(repr=False)
    key: str = field(repr=False)
    push: float = field(repr=False)
    drift: Range = field(repr=False)
    hand_error: float = field(repr=False)
    nut_drag: Range = field(repr=False)
    scatter: Scatter = field(repr=False)
    sitting: str = field(repr=False)
    fault: Fault = field(repr=False)
    state: str = field(repr=False)
    start: HubState = field(repr=False)

    def now(self, state: HubState) -> Scenario:
        """Return the scenario as it is after what was put right."""
        return _mend(self.scenario, self.mended, state.axle_changed, state.balls_made_up)


@lru_cache(maxsize=256)
def _mend(found: Scenario, mended: Scenario, axle: bool, balls: bool) -> Scenario:
    if axle:
        found = found.replace(stack=mended.stack)
    return found.replace(hub=mended.hub) if balls else found


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One line of the log.

    Attributes:
        action: what was done, in words; told: what hands, eyes and ears answered.
        refused: it could not be done, and `told` says why.
        counts: it counts as a move; felt: what it was answered by is felt by the hand, and not seen.
        kind: name of the action; hub: number of the hub on the bench after it.
        undone: taken back since.
        after: the hub on the bench after it; what a page shows of a line is its words.
    """

    action: str
    told: str
    kind: str
    hub: int
    refused: bool = False
    counts: bool = True
    felt: bool = False
    undone: bool = False
    after: HubState | None = field(default=None, repr=False, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """An exercise under way: its hubs, which one is on the bench, what happened so far.

    `past` holds the hubs before each move that can be undone; in an assessed exercise it stays empty. `words`: what is
    felt is told in words at once, for who has asked for that.
    """

    exercise: Exercise
    hidden: tuple[HiddenHub, ...] = field(repr=False)
    hubs: tuple[HubState, ...] = field(repr=False)
    current: int = 0
    log: tuple[Event, ...] = ()
    past: tuple[tuple[tuple[HubState, ...], int], ...] = field(default=(), repr=False)
    words: bool = False

    @property
    def hub(self) -> HubState:
        """The hub on the bench."""
        return self.hubs[self.current]

    @property
    def secret(self) -> HiddenHub:
        """What is hidden about the hub on the bench."""
        return self.hidden[self.current]

    @property
    def finished(self) -> bool:
        """Whether something was said about every hub."""
        return all(hub.done is not None for hub in self.hubs)

    def with_hub(self, hub: HubState) -> "Bench":
        """Return the bench with the hub on it in another state."""
        hubs = (*self.hubs[: self.current], hub, *self.hubs[self.current + 1 :])
        return replace(self, hubs=hubs)
