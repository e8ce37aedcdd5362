"""The clamp: fitted on a seat, closed, opened."""

from dataclasses import dataclass, replace
from typing import ClassVar

from conemodel.parts.clamp_kinds import ON_LOCKNUTS
from conemodel.parts.setting import ClampSeat
from conemodel.tasks.practice.actions.action import Action
from conemodel.tasks.practice.actions.obstacles import IN_FRAME, IN_VICE, NO_CLAMP
from conemodel.tasks.practice.cone_position import show_cone
from conemodel.tasks.practice.hub_terms import clamp_of
from conemodel.tasks.practice.keyed_random import within
from conemodel.tasks.practice.locknut import turn_locked
from conemodel.tasks.practice.session import Bench, HubState

SEATED: dict[ClampSeat | None, str] = {
    None: "The clamp is off.",
    "dropouts": "The wheel is in the frame, the clamp not closed yet.",
    "spacers on locknuts": "Spacers stand on both locknuts, the clamp through them not closed yet.",
    "spacer on axle end": "A spacer stands on the axle end, clear of cone and locknut; not closed yet.",
    "one side in frame": "The far side is in the frame, the wheel outside it; not closed yet.",
}
"""What is told once it is fitted."""


def clamp_word(bench: Bench) -> str:
    """Return what is closed on the hub on the bench."""
    return bench.secret.scenario.clamp.traits.handle


@dataclass(frozen=True, slots=True)
class FitClamp(Action):
    """Fit the clamp on a seat; None takes it off."""

    seat: ClampSeat | None

    @property
    def words(self) -> str:
        """What was done."""
        return f"clamp fitted: {self.seat}" if self.seat else "clamp taken off"

    def cannot(self, bench: Bench) -> str | None:
        """Return that it is closed, that the axle is in the vice, that nuts have no such seat, or None."""
        hub = bench.hub
        if hub.closed:
            return "The clamp is closed: open it first."
        if self.seat in IN_FRAME and hub.axle_held == "vice":
            return IN_VICE
        kind = bench.secret.scenario.clamp.traits
        if self.seat is not None and self.seat not in kind.seats:
            return f"{kind.words.capitalize()} press on the locknuts: there is no such seat for them."
        return None

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the clamp there, open."""
        return bench.with_hub(replace(bench.hub, seat=self.seat)), SEATED[self.seat]


@dataclass(frozen=True, slots=True)
class CloseClamp(Action):
    """Close the clamp."""

    done: ClassVar[str] = "clamp closed"

    def cannot(self, bench: Bench) -> str | None:
        """Return that there is none, that it is closed, that the locknut is loose, or None."""
        hub = bench.hub
        if hub.seat is None:
            return NO_CLAMP
        if hub.closed:
            return "The clamp is closed already."
        if hub.seat in ON_LOCKNUTS and hub.lock is None:
            return "The locknut is loose: the clamp would only drive it against the cone."
        return None

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the clamp closed; nuts may drag a cone whose lock the clamp has unloaded."""
        scenario = bench.secret.now(bench.hub)
        after = replace(bench.hub, closed=True, closings=bench.hub.closings + 1)
        if not scenario.clamp.traits.through_axle:
            after = _drag_cone(bench, after)
        return bench.with_hub(after), scenario.clamp.traits.closed


def _drag_cone(bench: Bench, closed: HubState) -> HubState:
    """Return a hub after its axle nuts were closed on it."""
    secret, hub = bench.secret, bench.hub
    if hub.lock is None or hub.seat is None:
        return closed
    scenario = secret.now(hub)
    after = replace(closed, felt=replace(hub.felt, rocked_clamped=None))
    if not clamp_of(scenario, hub.seat, hub.lock.torque).sides[scenario.hub.adjustable_side].unlocked:
        return after
    drag = within(secret.key, f"nut drag {after.closings}", secret.nut_drag)
    return show_cone(secret, after, turn_locked(after, "nut_drag", -drag * scenario.axle.lead_per_radian))


@dataclass(frozen=True, slots=True)
class OpenClamp(Action):
    """Open the clamp."""

    done: ClassVar[str] = "clamp opened"

    def cannot(self, bench: Bench) -> str | None:
        """Return that it is not closed, or None."""
        return None if bench.hub.closed else "The clamp is not closed."

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the clamp open."""
        return bench.with_hub(replace(bench.hub, closed=False)), "The clamp is open."
