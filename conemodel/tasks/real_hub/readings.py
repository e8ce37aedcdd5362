"""The kinds of reading that a real hub gives, and what each would be of a hub that is not known.

A reading compares lengths along the axle: what the count of the cone makes of it, and what the hub would show there.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import log, sqrt
from typing import Literal

import numpy as np

from conemodel.base.units import DEG, Array
from conemodel.parts.distributions import standard_error
from conemodel.parts.priors import Beliefs
from conemodel.parts.real_hub import InState, RealHubReadings, State
from conemodel.parts.unknowns.hands import DRIFT, MARK_ERROR
from conemodel.parts.unknowns.senses import FELT_AT_RIM, FELT_RIPPLE
from conemodel.tasks.real_hub.shown import Shown
from conemodel.tasks.real_hub.unknown_hub import UnknownHub

NEW_WITH_EACH_LOOK = sqrt(0.5)
"""Share of a hand's scatter, as a standard deviation, that is new with every look: half the variance, as `Scatter`."""

AXLE_FLOOR = 3e-6
"""Least standard error of a play along the axle against the model [m]: what a push along it gives; a guess."""

BOWED = 0.03
"""Standard error of a play at the rim, as a share of it, that differs from reading to reading [-]: grooves of 0.54 to
0.60 of the ball bow it by so much more or less than those assumed, at end plays of 0.2 mm."""

ROUGH = 1e-6
"""End play over which the last of a play is lost [m]: far less than a gauge shows. At a corner, play or none, a
search for the likeliest hub would go to and fro across it, and never end."""

SEEN = 2.0
"""Standard errors from which a play along the axle that was read is no slip of the gauge [-]: 19 of 20."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Felt:
    """A count at which the hand's answer changes.

    Attributes:
        what: play appears when backed off further, or drag changes no more.
        state: how the hub stands; count: turn of the cone out of finger contact [rad]. Of play the smallest count at
            which it was felt, of drag the largest at which it turned stiffer than further out.
        step: how far apart the counts are that were tried [rad].
    """

    what: Literal["play", "drag"]
    state: State
    count: float
    step: float

    @property
    def read_with(self) -> None:
        """What it shares with others: nothing, each count is a look of its own."""
        return None

    def miss(self, hub: UnknownHub, shown: Shown) -> Array:
        """Return by how much the reading lies above what hubs show (n,) [m].

        The answer changes somewhere between two counts: half a step in from the first with play, and half a step out
        from the last with drag.
        """
        between = -self.step / 2 if self.what == "play" else self.step / 2
        at = shown.felt_play_at if self.what == "play" else shown.felt_drag_at
        return np.asarray((self.count + between) * hub.lead + shown.end_play[self.state] - at)

    def turn_error(self, hub: UnknownHub) -> float:
        """Return the standard error of where the cone stood [m]: mark, step, and the next locking's drift."""
        turns = [standard_error(MARK_ERROR, DEG), DEG.from_si(self.step) / sqrt(12)]
        if self.state != "nut loose":
            turns.append(standard_error(DRIFT, DEG))
        return DEG.to_si(float(np.hypot.reduce(turns))) * hub.lead

    def spread(self, hub: UnknownHub, shown: Shown) -> float:
        """Return its standard error for one hub [m]: of where the cone stood, and the look's own."""
        scatter = NEW_WITH_EACH_LOOK * log((FELT_AT_RIM if self.what == "play" else FELT_RIPPLE).factor)
        felt = shown.felt_play / shown.play_factor if self.what == "play" else shown.felt_drag
        where = hub.end_play_of_play if self.what == "play" else hub.end_play_of_drag
        more, less = (float(where(felt[0] * np.exp(side * scatter))) for side in (1.0, -1.0))
        return float(np.hypot(self.turn_error(hub), abs(more - less) / 2))


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A play that was measured at a count.

    Attributes:
        place: along the axle at its end, or at the rim; state, count: as in `Felt`.
        play: what was read, stop to stop [m]; error: standard error of reading it [m].
        push: each way [N]; None where nobody knows it at the rim, 0 where two pushes were taken back to none.
        mark: number of the pen mark at which the cone stood, None where it was only counted.
        off: standard error of the gauge that is the same in every reading of a state at a mark [m].
    """

    place: Literal["axle", "rim"]
    state: State
    count: float
    play: float
    error: float
    push: float | None = 0.0
    mark: int | None = None
    off: float = 0.0

    @property
    def read_with(self) -> tuple[int, State] | None:
        """What it shares with the readings that one slip would spoil together; None where it stands alone."""
        return None if self.mark is None else (self.mark, self.state)

    def miss(self, hub: UnknownHub, shown: Shown) -> Array:
        """Return by how much the reading lies above what hubs show (n,) [m]."""
        above = self.play - self._met(hub, shown)
        return above if self.mark is None else above - self.off * shown.gauge_off[self.state][:, self.mark]

    def spread(self, hub: UnknownHub, shown: Shown) -> float:
        """Return its standard error for one hub [m]: gauge, model, and the cone not quite where the count says."""
        at_rim = self.place == "rim"
        bowed = np.hypot(Beliefs().play_floor, BOWED * self.play) if at_rim else 0.0
        if (
            self.mark is not None
        ):  # where the cone stands there, and what a push gives, are unknowns of the hub
            return float(np.hypot(self.error, bowed))
        floor = bowed if at_rim else AXLE_FLOOR
        off = DEG.to_si(standard_error(MARK_ERROR, DEG)) * hub.lead
        there = shown._replace(end_play={state: end + off for state, end in shown.end_play.items()})
        moved = float((self._met(hub, there) - self._met(hub, shown))[0])
        return float(np.hypot.reduce([self.error, floor, moved]))

    def _met(self, hub: UnknownHub, shown: Shown) -> Array:
        """Return what would be read of hubs (n,) [m]."""
        end_play = shown.end_play[self.state] + self.count * hub.lead
        if self.mark is not None:
            end_play = end_play + shown.turned[:, self.mark]
            if self.state != "nut loose":
                end_play = end_play - shown.drifted[:, self.mark]
            if self.state == "clamped":
                end_play = end_play - shown.closed[:, self.mark] * shown.clamp_give
        if self.place == "axle":
            # of a play that was seen a hub without any is ever less likely the tighter it is, so that a search gets out
            seen = self.play > SEEN * self.error
            left = end_play if seen else (end_play + np.hypot(end_play, ROUGH)) / 2
            return np.asarray(left + shown.axle_give * (self.push or 0.0))
        push = shown.push if self.push is None else np.full(end_play.shape, self.push)
        return hub.rim_play(end_play) * shown.play_factor + hub.rim_give(push, shown.stiffness)


Reading = Felt | Measured


def readings_in(found: RealHubReadings) -> tuple[Reading, ...]:
    """Return the readings that stand in a file, in the order of the work."""
    return tuple(
        reading for state, there in found.states.items() for reading in _in_state(state, there, found.step)
    )


def _in_state(state: State, there: InState, step: float) -> Iterator[Reading]:
    """Yield what was found in one state."""
    for count in there.play_from:
        yield Felt(what="play", state=state, count=count, step=step)
    for count in there.drag_up_to:
        yield Felt(what="drag", state=state, count=count, step=step)
    if there.measured_at is not None:
        yield from _measured(state, there, there.measured_at)


def _measured(state: State, there: InState, count: float) -> Iterator[Measured]:
    """Yield what was measured in one state at a count [rad]."""
    dial, ruler = Beliefs().dial_uncertainty, Beliefs().ruler_uncertainty
    if there.axle_play is not None:
        yield Measured(place="axle", state=state, count=count, play=there.axle_play, error=dial)
    if there.rim_play is not None:
        yield Measured(
            place="rim",
            state=state,
            count=count,
            play=there.rim_play,
            error=dial if there.rim_by == "dial gauge" else ruler,
            push=there.rim_push,
        )
