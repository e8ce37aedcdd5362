"""The locknut: tightened, undone, trimmed together with its cone."""

from dataclasses import dataclass, replace
from typing import ClassVar, Literal

from conemodel.base.units import DEG
from conemodel.parts.setting import Technique
from conemodel.tasks.practice.actions.action import Action
from conemodel.tasks.practice.actions.obstacles import clamp_on_locknut
from conemodel.tasks.practice.cone_position import clock_position, show_cone
from conemodel.tasks.practice.hub_terms import end_play_of, pinch
from conemodel.tasks.practice.locknut import (
    HAND,
    MOST_TRIM,
    effort_torque,
    goes_along,
    run_up,
    tighten,
    trim,
    trim_torque,
    undo,
)
from conemodel.tasks.practice.session import Bench, HiddenHub, HubState
from conemodel.tasks.wording import clock_minutes

Effort = Literal["light", "firm", "hard"]

EFFORTS: dict[Effort, str] = {"light": "light hand", "firm": "firm hand", "hard": "hard"}
"""How hard it is tightened, to choose from."""

TURNED: dict[Technique, str] = {
    "nut turned": "the nut",
    "cone turned out": "the cone, out onto the nut",
    "both": "both, against each other",
}
"""What is turned to lock it."""

LINE_MOVED = DEG.to_si(1.5), DEG.to_si(5.0)
"""Turn of the cone at locking that a pen line shows as a little, and as clear [rad]. Assumption."""


@dataclass(frozen=True, slots=True)
class Tighten(Action):
    """Tighten the locknut against the cone, or further if it is tight."""

    effort: Effort = "firm"
    technique: Technique = "nut turned"
    moves_cone: ClassVar[bool] = True

    @property
    def words(self) -> str:
        """What was done."""
        turned = TURNED[self.technique]
        return f"locknut tightened, {self.effort} hand, {turned}{',' if ',' in turned else ''} turned"

    def cannot(self, bench: Bench) -> str | None:
        """Return what is not held, that it is tight already, what presses on the locknut, or None."""
        hub = bench.hub
        if reason := clamp_on_locknut(hub):
            return reason
        if hub.axle_held == "nothing" and not hub.cone_held:
            return "Nothing is held: axle, cone and locknut turn together."
        if self.technique != "nut turned" and not hub.cone_held:
            return "That needs a spanner on the cone, and it is left free."
        if hub.lock and effort_torque(bench.secret, hub, self.effort) <= hub.lock.torque * (1 + 1e-9):
            return "It is tight already: only a harder hand turns it further."
        return None

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the locknut tight, and what is felt and seen there."""
        secret, hub = bench.secret, bench.hub
        after = tighten(secret, hub, effort=self.effort, technique=self.technique)
        return bench.with_hub(show_cone(secret, hub, after)), _describe_locking(secret, after)


def _describe_locking(secret: HiddenHub, after: HubState) -> str:
    """Return what is felt and seen at the locknut; the pen line tells how far the cone went with it."""
    lock = after.lock
    if lock is None:
        return "The locknut is loose."
    parts = ["The locknut is tight."]
    if secret.fault == "thread worn out":
        parts = ["The thread gives under the spanner: the locknut never comes up hard."]
    if any(term.key == "far_side" for term in lock.terms):
        parts.append("The axle itself turned: the spanners on its far side did not hold it.")
    if after.pen:
        turn = -lock.turned_in
        little, clear = LINE_MOVED
        way = "in" if turn < 0 else "out"
        if abs(turn) < little:
            parts.append("The line on the cone has not moved.")
        else:
            how = "clearly" if abs(turn) >= clear else "a little"
            parts.append(f"The line on the cone has moved {way} {how}.")
    return " ".join(parts)


@dataclass(frozen=True, slots=True)
class RunUp(Action):
    """Run the loose locknut up to the cone by finger: it pushes the cone in through its thread's slack."""

    moves_cone: ClassVar[bool] = True
    group: ClassVar[str] = "locknut"
    button: ClassVar[str] = "Run the locknut up by finger"
    done: ClassVar[str] = "locknut run up to the cone by finger"

    def cannot(self, bench: Bench) -> str | None:
        """Return that it stands there already, that balls or clamp are in its way, or None."""
        hub, secret = bench.hub, bench.secret
        if hub.lock is not None or hub.nut_snug:
            return "The locknut stands against the cone already."
        scenario = secret.now(hub)
        if end_play_of(secret, hub) - scenario.axle.backlash < pinch(scenario).length:
            return "The balls are in the way: a finger on the nut does not pinch them. Turn the cone out a little."
        return clamp_on_locknut(hub)

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the locknut snug."""
        return bench.with_hub(run_up(bench.hub)), "The locknut stands snug against the cone, not tightened."


@dataclass(frozen=True, slots=True)
class Undo(Action):
    """Undo the locknut; one that is only snug is run back by finger. A cone that nobody holds goes with it."""

    moves_cone: ClassVar[bool] = True
    done: ClassVar[str] = "locknut undone"

    def cannot(self, bench: Bench) -> str | None:
        """Return that it is loose already, what presses on it, or None."""
        if bench.hub.lock is None and not bench.hub.nut_snug:
            return "The locknut is loose already."
        return clamp_on_locknut(bench.hub)

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the locknut loose."""
        secret, hub = bench.secret, bench.hub
        after = undo(secret, hub)
        along = goes_along(secret, hub)
        if not along:
            return bench.with_hub(after), "The locknut is loose; the cone stayed where it was."
        length = along * secret.now(hub).axle.lead_per_radian
        after = replace(after, shown=clock_position(secret, hub, length))
        return bench.with_hub(after), "The locknut is loose; nobody held the cone, and it went out with it."


@dataclass(frozen=True, slots=True)
class Trim(Action):
    """Turn cone and locknut together, two spanners the same way, by `angle` [rad], outward positive."""

    angle: float
    moves_cone: ClassVar[bool] = True

    @property
    def words(self) -> str:
        """What was done; the angle is the trainee's own."""
        way = "out" if self.angle > 0 else "in"
        return f"cone and locknut turned {way} together, {clock_minutes(abs(self.angle))}"

    def cannot(self, bench: Bench) -> str | None:
        """Return what is loose or not held, that it is too far or too tight, or None."""
        hub = bench.hub
        if hub.lock is None:
            return "Cone and locknut must be tight against each other."
        if reason := clamp_on_locknut(hub):
            return reason
        if hub.axle_held == "nothing":
            return "The axle turns with them: hold it."
        if not hub.cone_held:
            return "It takes a spanner on the cone as well, and it is left free."
        if abs(self.angle) > MOST_TRIM:
            return "So far is more than a trim: undo the locknut."
        scenario = bench.secret.now(hub)
        if trim_torque(bench.secret, hub) > 2 * HAND["hard"] * scenario.assumed.spanner_length:
            return "They are too tight on the axle to be turned together."
        return None

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with both further round, the joint still tight."""
        secret, hub = bench.secret, bench.hub
        after = show_cone(secret, hub, trim(secret, hub, self.angle))
        return bench.with_hub(after), "Cone and locknut went round together, still tight."
