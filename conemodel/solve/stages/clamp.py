"""What closing the clamp does: its force, where it enters, and how much it shortens the axle."""

from dataclasses import dataclass
from math import inf
from typing import Any, Generic, overload

import numpy as np

from conemodel.base.units import Number
from conemodel.parts.hub import Side
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import ClampSeat
from conemodel.physics.joint import nut_unloading_force
from conemodel.solve.stages.clamp_force import ASSUMED
from conemodel.solve.stages.compliances import Entry, clamp_compliance, compliances_of
from conemodel.solve.stages.dropouts import dropout_length
from conemodel.solve.stages.inputs import Inputs, inputs_of
from conemodel.solve.stages.locknut import lock_force_on

PROUD_WARNING = 0.1e-3
"""An axle end this close below its dropout's outer face is warned about [m]. Assumption."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampSide(Generic[Number]):
    """One side of the closed clamp: numbers for one hub, shape (n,) for n hubs.

    Attributes:
        entry: where the force enters the axle: locknut, axle end or axle nut.
        share: part of it that goes through stack and cone [-].
        push: how far it pushes the cone inboard along its thread [m].
        unlocked: the clamp has taken the last load off the locknut's thread, which it alone holds (of n hubs, any).
        proud: the axle end reaches the outer face of its dropout: the frame is not held on this side.
        margin: dropout thickness less protrusion [m], or None where the seat has no dropout.
    """

    entry: Entry
    share: Number
    push: Number
    unlocked: bool
    proud: bool
    margin: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampState(Generic[Number]):
    """The closed clamp: numbers for one hub, shape (n,) for n hubs.

    Attributes:
        force: clamp force [N]; source: how it was found, in words; assumed: nobody measured it.
        shortening: how much it shortens the axle between the cones' threads [m]; 0 for axle nuts.
        dropouts: what dropouts out of parallel add to end play [m].
        left, right: what it does on each side.
        seat: what the clamp presses on.
    """

    force: Number
    source: str
    assumed: bool
    shortening: Number
    dropouts: Number
    left: ClampSide[Number]
    right: ClampSide[Number]
    seat: ClampSeat

    @property
    def sides(self) -> dict[Side, ClampSide[Number]]:
        """Both sides by name."""
        return {"left": self.left, "right": self.right}

    def lengths(self, *, loose: Side | None = None) -> dict[str, Number]:
        """Return what closing the clamp adds to end play, by key [m]; a cone that is `loose` is not pushed."""
        pushed: Any = sum(state.push for side, state in self.sides.items() if side != loose)
        bowed = {"dropouts": self.dropouts} if np.any(self.dropouts) else {}
        return {"axle_shortening": -self.shortening, "cone_thread_clamp": -pushed, **bowed}

    @property
    def proud(self) -> tuple[Side, ...]:
        """Sides on which the axle stands proud of its dropout."""
        return tuple(side for side, state in self.sides.items() if state.proud)

    @property
    def nearly_proud(self) -> tuple[Side, ...]:
        """Sides on which it stands within `PROUD_WARNING` of that."""
        return tuple(
            side
            for side, state in self.sides.items()
            if state.margin is not None and not state.proud and state.margin <= PROUD_WARNING
        )


@overload
def close_clamp(scenario: Scenario) -> ClampState[float]: ...
@overload
def close_clamp(scenario: Scenario, inputs: Inputs[Number]) -> ClampState[Number]: ...
def close_clamp(scenario: Scenario, inputs: Inputs[Any] | None = None) -> ClampState[Any]:
    """Return what closing the scenario's clamp on its seat does, for one hub or for `inputs` of many."""
    given = inputs or inputs_of(scenario)
    through = scenario.clamp.traits.through_axle
    squeezed: Any = clamp_compliance(scenario, bridging=given.thread_bridging) if through else 0.0
    left, right = _side(scenario, "left", given), _side(scenario, "right", given)
    free: Any = 0.0 * given.clamp_force  # a frame that the clamp does not hold bows nothing
    return ClampState(
        force=given.clamp_force,
        source=given.clamp_source,
        assumed=given.clamp_source == ASSUMED,
        shortening=given.clamp_force * squeezed,
        dropouts=free if left.proud or right.proud else dropout_length(scenario, given.clamp_force),
        left=left,
        right=right,
        seat=scenario.setting.clamp_seat,
    )


def _side(scenario: Scenario, side: Side, given: Inputs[Any]) -> ClampSide[Any]:
    """Return what the clamp does on one side."""
    stack, force = scenario.stack.side(side), given.clamp_force
    adjusted = side == scenario.hub.adjustable_side
    margin = _margin(scenario, side)
    proud = margin is not None and margin <= 0.0
    entry = _entry(scenario, side, proud)
    yielding = compliances_of(scenario, side, thread=given.thread_compliance)
    share = yielding.share(entry)
    locked = lock_force_on(scenario, side, given.lock_torque if adjusted else stack.lock_torque, given)
    limit = inf if entry == "axle end" else nut_unloading_force(lock_force=locked, share=share)
    # past that limit the whole clamp goes through the stack, which carried the locking force before
    through_cone = np.where(force <= limit, force * share, force - locked)[()]
    return ClampSide(
        entry=entry,
        share=share,
        push=through_cone * yielding.cone_thread,
        unlocked=bool(np.any(force > limit)),
        proud=proud,
        margin=margin,
    )


def _entry(scenario: Scenario, side: Side, proud: bool) -> Entry:
    """Return where the clamp's force enters the axle on one side."""
    if not scenario.clamp.traits.through_axle:
        return "axle nut"
    bench = scenario.setting.clamp_seat in ("spacer on axle end", "one side in frame")
    return "axle end" if proud or (bench and side == scenario.hub.adjustable_side) else "locknut"


def _margin(scenario: Scenario, side: Side) -> float | None:
    """Return how far the axle end stands back from its dropout's outer face [m], None where it cannot matter.

    Only a rod through the axle is fooled by a proud axle: axle nuts need the axle to stand out, and a thru-axle
    hub sits between the dropouts.
    """
    seat = scenario.setting.clamp_seat
    adjusted = side == scenario.hub.adjustable_side
    in_dropout = seat == "dropouts" or (seat == "one side in frame" and not adjusted)
    if not scenario.clamp.traits.held_by_ends or not in_dropout:
        return None
    return scenario.frame.dropout_thickness - scenario.stack.side(side).protrusion
