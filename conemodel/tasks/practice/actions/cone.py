"""The loose cone: screwed in, turned, marked, wiggled on its thread."""

from dataclasses import dataclass, replace
from math import pi
from typing import ClassVar

import numpy as np

from conemodel.solve.equilibrium.unloaded import solve_unloaded
from conemodel.solve.stages.terms import cone_arm, pair_of
from conemodel.tasks.practice.actions.action import Action
from conemodel.tasks.practice.actions.obstacles import AXLE_TURNS, cone_locked
from conemodel.tasks.practice.cone_position import EYE, clock_position, place_cone
from conemodel.tasks.practice.hub_terms import end_play_of, pinch
from conemodel.tasks.practice.senses import felt
from conemodel.tasks.practice.session import Bench, HiddenHub, HubState
from conemodel.tasks.practice.torque_feel import BINDS_FROM
from conemodel.tasks.wording import clock_minutes

OUTERMOST = 9.5
"""Angle on the clock beyond which a cone is nearly off its thread [rad], one and a half turns."""

FREE_BELOW = 0.02
"""Effort on the cone below which it turns freely [N·m]."""

AT_TOUCH = "it just begins to resist"
"""What the cone does at first touch, in the words of the exercise, of what is next, of the hints and of the mark."""

TURNS_FREELY, PINCHED, BINDS = (
    "The cone turns freely.",
    "The cone resists: the balls are pinched.",
    "The cone binds on the balls.",
)
"""What the hand on the spanner is told short of first touch, past it, and well past it."""

SHAKE = (
    (0.1e-3, "The cone shakes a trace on its thread."),
    (0.25e-3, "The cone shakes clearly on its thread."),
    (0.5e-3, "The cone shakes a lot on its thread."),
)
"""Clearance on the thread [m] up to which a loose cone does no more than that in the fingers. Assumption."""

RATTLES = "The cone rattles on its thread."


@dataclass(frozen=True, slots=True)
class ScrewIn(Action):
    """Screw the cone in by finger until the balls are pinched."""

    moves_cone: ClassVar[bool] = True
    group: ClassVar[str] = "cone"
    button: ClassVar[str] = "Screw in by finger"
    done: ClassVar[str] = "cone screwed in by finger"

    def cannot(self, bench: Bench) -> str | None:
        """Return why fingers do not find first touch here, what locks the cone, or None."""
        if bench.exercise.kind == "touch":
            return f"Find it with the spanner: turn in until {AT_TOUCH}."
        return cone_locked(bench.hub)

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the balls just pinched, where the cone was not further in already."""
        secret, hub = bench.secret, bench.hub
        if hub.axle_held == "nothing":
            return bench, AXLE_TURNS
        pinched = pinch(secret.now(hub), felt(secret, hub, "pinch")).length
        wanted = pinched - end_play_of(secret, hub)
        if wanted > 0:
            return bench, "It is tight already: fingers turn it no further in."
        after = replace(hub, cone=hub.cone + wanted, shown=clock_position(secret, hub, wanted)).moved()
        return bench.with_hub(after), "The cone is in as far as fingers take it: the balls are just pinched."


@dataclass(frozen=True, slots=True)
class TurnCone(Action):
    """Turn the cone with the spanner to `angle` on the clock [rad], outward positive."""

    angle: float
    moves_cone: ClassVar[bool] = True

    @property
    def words(self) -> str:
        """What was done; the angle is the trainee's own."""
        return f"cone turned to {clock_minutes(-self.angle % (2 * pi))} on the clock"

    def cannot(self, bench: Bench) -> str | None:
        """Return that the thread does not reach so far, what locks the cone, or None."""
        if abs(self.angle) > OUTERMOST:
            return (
                "The cone would come off its thread." if self.angle > 0 else "The cone does not go in so far."
            )
        if bench.hub.nut_snug:
            return "The locknut stands snug against the cone: run it back first."
        return cone_locked(bench.hub)

    def is_felt(self, told: str) -> bool:
        """Return whether it tells how the cone turns."""
        return told in (TURNS_FREELY, PINCHED, BINDS)

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the cone there, or where the balls stopped it."""
        secret, hub = bench.secret, bench.hub
        if hub.axle_held == "nothing":
            return bench, AXLE_TURNS
        length = (self.angle - hub.shown) * secret.now(hub).axle.lead_per_radian
        much = felt(secret, hub, "drag")
        after, stopped = place_cone(secret, hub, length, secret.push)
        if stopped:
            after = replace(after, shown=round(after.shown / EYE[hub.pen]) * EYE[hub.pen])
            return bench.with_hub(after), "The cone binds hard on the balls and goes no further."
        return bench.with_hub(after), _how_it_turns(secret, after, much)


def _how_it_turns(secret: HiddenHub, hub: HubState, much: float) -> str:
    """Return how a cone turns that feels `much` times as hard to turn as it is."""
    scenario = secret.now(hub)
    ends = np.array([end_play_of(secret, hub)])
    effort = float(solve_unloaded(pair_of(scenario), ends).preload.mean()) * float(cone_arm(scenario))
    if effort * much < FREE_BELOW:
        return TURNS_FREELY
    return PINCHED if effort < BINDS_FROM else BINDS


@dataclass(frozen=True, slots=True)
class Mark(Action):
    """Draw a line over axle, cone and locknut."""

    group: ClassVar[str] = "cone"
    button: ClassVar[str] = "Draw a pen line"
    done: ClassVar[str] = "marked with a pen"

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the line where the cone stands."""
        hub = replace(bench.hub, mark=bench.hub.shown, marked_at=bench.hub.locks)
        return bench.with_hub(hub), "A line runs over axle, cone and locknut."


@dataclass(frozen=True, slots=True)
class Wiggle(Action):
    """Wiggle the loose cone on its thread."""

    counts: ClassVar[bool] = False
    group: ClassVar[str] = "cone"
    button: ClassVar[str] = "Wiggle on its thread"
    done: ClassVar[str] = "cone wiggled on its thread"

    def cannot(self, bench: Bench) -> str | None:
        """Return that the locknut holds it still, or None."""
        return "The locknut is tight against the cone." if bench.hub.lock is not None else None

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench as it is, and how the cone shakes."""
        clearance = bench.secret.now(bench.hub).axle.pitch_clearance_range[0]
        return bench, next((text for most, text in SHAKE if clearance <= most), RATTLES)
