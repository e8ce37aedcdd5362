"""What was done to one hub, as the bench's own log has it: the ground of every hint."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from conemodel.parts.exercise import Exercise
from conemodel.tasks.practice.actions import ACTIONS
from conemodel.tasks.practice.actions.feel import LITTLE, Rock
from conemodel.tasks.practice.session import Event, Felt, HiddenHub, HubState


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """One hub, what was done to it, and what of it was missed.

    Attributes:
        exercise: it belongs to; secret, hub: what is hidden of it, and how it stands.
        events: what was done and not taken back, in order.
        off: how far outside the good range it ended [m], as `outcome.how_far_off` has it.
        missed: names of the criteria that were not met, in their order.
        locks, moves: how often, what was taken back included.
    """

    exercise: Exercise
    secret: HiddenHub = field(repr=False)
    hub: HubState = field(repr=False)
    events: tuple[Event, ...]
    off: float
    missed: tuple[str, ...]
    locks: int
    moves: int

    def ever(self, kind: str, *, clamped: bool) -> bool:
        """Return whether something was done at any time with the clamp closed, or open."""
        return any(state.closed is clamped for state in _states(self.events, kind))

    def since_moved(self, kind: str, *, clamped: bool) -> bool:
        """Return the same of the time since the cone was last moved."""
        return any(state.closed is clamped for state in _states(self._since_moved(), kind))

    def twirled(self, *, clamped: bool) -> bool:
        """Return whether the axle was twirled through a full turn at any time, clamped or open."""
        full = (event for event in self.events if event.told != LITTLE)
        return any(state.closed is clamped for state in _states(full, "Twirl"))

    def since_closed(self, kind: str) -> bool:
        """Return whether something was done since the clamp was last closed, or at all where it never was opened."""
        kinds = [event.kind for event in self.events]
        return kind in kinds[max((i for i, one in enumerate(kinds) if one == "CloseClamp"), default=0) :]

    def rocked_at_rim(self) -> bool:
        """Return whether it was rocked clamped, at the rim, since the cone was last moved."""
        rim = (
            event for event in self._since_moved() if event.action.startswith(Rock("rim", brisk=False).words)
        )
        return any(state.closed for state in _states(rim, "Rock"))

    def places(self, kind: str, *, clamped: bool) -> set[tuple[int, int]]:
        """Return the positions of wheel and axle in which something was done, clamped or open."""
        states = _states(self.events, kind)
        return {(state.wheel, state.axle) for state in states if state.closed is clamped}

    def ever_saw(self, sight: str) -> bool:
        """Return whether something was looked at, at any time."""
        return any(event.after and sight in event.after.seen for event in self.events)

    def last(self, kind: str) -> HubState | None:
        """Return the hub after something was last done to it, None where it never was."""
        return next((state for state in _states(reversed(self.events), kind)), None)

    def _since_moved(self) -> Iterator[Event]:
        """Yield what was done since what was felt was last forgotten, the latest first."""
        for event in reversed(self.events):
            if ACTIONS[event.kind].moves_cone and event.after and event.after.felt == Felt():
                return
            yield event


def _states(events: Iterable[Event], kind: str) -> Iterator[HubState]:
    """Yield the hub after each event of a kind."""
    return (event.after for event in events if event.kind == kind and event.after is not None)
