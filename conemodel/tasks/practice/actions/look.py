"""What eyes see, and what can be put right of it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import ClassVar, Literal

from conemodel.base.units import MM
from conemodel.tasks.practice.actions.action import Action
from conemodel.tasks.practice.actions.clamp import clamp_word
from conemodel.tasks.practice.actions.obstacles import NO_CLAMP, NOT_IN_FRAME
from conemodel.tasks.practice.hub_terms import clamp_of
from conemodel.tasks.practice.session import Bench, HubState

Sight = Literal["protrusion", "balls", "lever", "brake"]


@dataclass(frozen=True, slots=True)
class Look(Action):
    """Look at something: how far the axle stands out, how many balls there are, lever, brake."""

    at: Sight
    counts: ClassVar[bool] = False
    group: ClassVar[str] = "look"

    @property
    def words(self) -> str:
        """What was done."""
        return f"looked at {self.at}"

    @classmethod
    def buttons(cls, bench: Bench) -> tuple[tuple[str, Action], ...]:
        """Return a button for each thing to look at."""
        return (
            ("Look at the axle ends", cls("protrusion")),
            ("Count the balls", cls("balls")),
            (f"Look at the {clamp_word(bench)}", cls("lever")),
            ("Look at the brake", cls("brake")),
        )

    def cannot(self, bench: Bench) -> str | None:
        """Return that what is to be looked at is not there, or None."""
        if self.at == "lever" and bench.hub.seat is None:
            return NO_CLAMP
        if self.at == "brake" and bench.hub.seat != "dropouts":
            return NOT_IN_FRAME
        return None

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with that looked at, and what the eye sees."""
        after = bench.with_hub(replace(bench.hub, seen=bench.hub.seen | {self.at}))
        return after, _SEEN[self.at](after)


def looks_wrong(bench: Bench, at: Sight) -> bool:
    """Return whether who looks at axle ends or balls sees them wrong: an end stands proud, a row is short of a ball."""
    scenario, whole = bench.secret.now(bench.hub), bench.secret.mended.hub
    if at == "protrusion":
        return bool(_proud(bench))
    there = (scenario.hub.left.ball_count, scenario.hub.right.ball_count)
    return at == "balls" and there != (whole.left.ball_count, whole.right.ball_count)


def _proud(bench: Bench) -> tuple[str, ...]:
    scenario = bench.secret.now(bench.hub)
    return tuple(clamp_of(scenario, "dropouts", scenario.setting.lock_torque).proud)


def _axle_ends(bench: Bench) -> str:
    proud = _proud(bench)
    if not proud:
        return "The axle ends stand back from the outer faces of the dropouts."
    where = "both sides" if len(proud) == 2 else f"the {proud[0]}"
    return f"On {where} the axle end stands out past the dropout."


def _balls(bench: Bench) -> str:
    shell = bench.secret.now(bench.hub).hub
    size = MM.from_si(shell.left.ball_diameter)
    return f"{shell.left.ball_count} on the left, {shell.right.ball_count} on the right, {size:.2f} mm."


def _lever(bench: Bench) -> str:
    return "The clamp is closed." if bench.hub.closed else "The clamp is open."


def _brake(bench: Bench) -> str:
    return "The brake is connected." if bench.hub.brake_connected else "The brake hangs loose."


_SEEN: dict[Sight, Callable[[Bench], str]] = {
    "protrusion": _axle_ends,
    "balls": _balls,
    "lever": _lever,
    "brake": _brake,
}


@dataclass(frozen=True, slots=True)
class PutRight(Action):
    """Fit an axle of the right length, make up the balls, or connect the brake."""

    what: Literal["axle", "balls", "brake"]
    moves_cone: ClassVar[bool] = True
    group: ClassVar[str] = "put right"

    @property
    def words(self) -> str:
        """What was done."""
        return f"{self.what} put right"

    @classmethod
    def buttons(cls, bench: Bench) -> tuple[tuple[str, Action], ...]:
        """Return a button for each thing to put right."""
        return (
            ("Fit an axle of the right length", cls("axle")),
            ("Make up the balls", cls("balls")),
            ("Connect the brake", cls("brake")),
        )

    def cannot(self, bench: Bench) -> str | None:
        """Return that the wheel is not in the frame, that the hub is still together, or None."""
        if self.what == "brake":
            return None if bench.hub.seat == "dropouts" else NOT_IN_FRAME
        if bench.hub.lock is not None or bench.hub.seat is not None:
            return "Take the clamp off and undo the locknut first."
        return None

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with that put right."""
        after, told = _MENDED[self.what](bench.hub)
        return bench.with_hub(after), told


def _new_axle(hub: HubState) -> tuple[HubState, str]:
    after = replace(hub, axle_changed=True, seen=hub.seen - {"protrusion"}).moved()
    return after, "An axle of the right length is in."


def _new_balls(hub: HubState) -> tuple[HubState, str]:
    # who fills both rows has counted them in: nobody need count again what was counted out of the packet
    after = replace(hub, balls_made_up=True, seen=hub.seen | {"balls"}).moved()
    return after, "Both rows have all their balls, new and from one packet."


def _connect_brake(hub: HubState) -> tuple[HubState, str]:
    return replace(hub, brake_connected=True), "The brake is connected and works."


_MENDED: dict[str, Callable[[HubState], tuple[HubState, str]]] = {
    "axle": _new_axle,
    "balls": _new_balls,
    "brake": _connect_brake,
}
