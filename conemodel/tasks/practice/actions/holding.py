"""What is held while the cone is turned and the locknut tightened."""

from dataclasses import dataclass, replace
from typing import NamedTuple

from conemodel.parts.setting import AxleHeld
from conemodel.tasks.practice.actions.action import Action
from conemodel.tasks.practice.actions.obstacles import IN_FRAME
from conemodel.tasks.practice.session import Bench


class Hold(NamedTuple):
    """A way of holding in words: to choose it, as it stands, as it was done, and what is told."""

    choice: str
    standing: str
    done: str
    told: str


AXLE: dict[AxleHeld, Hold] = {
    "vice": Hold("Vice", "in the vice", "axle put in the vice", "The axle is in soft jaws in the vice."),
    "far spanners": Hold(
        "Far-side spanners",
        "held by far-side spanners",
        "spanners put on the far side",
        "Spanners on the far side hold the axle.",
    ),
    "nothing": Hold("Nothing holds it", "nothing holds it", "axle let go", "Nothing holds the axle."),
}
"""Ways to hold the axle."""

CONE = {
    True: Hold(
        "Held with a spanner",
        "held",
        "spanner put on the cone",
        "A spanner holds the cone while the nut is turned.",
    ),
    False: Hold(
        "Left free",
        "left free",
        "spanner taken off the cone",
        "Nothing holds the cone while the nut is turned.",
    ),
}
"""Whether the cone is held while the locknut is tightened or undone."""


@dataclass(frozen=True, slots=True)
class HoldAxle(Action):
    """Hold the axle in a vice, by spanners on the far side, or let go of it."""

    by: AxleHeld

    @property
    def words(self) -> str:
        """What was done."""
        return AXLE[self.by].done

    def cannot(self, bench: Bench) -> str | None:
        """Return that the frame is in the way of the vice, or None."""
        if self.by == "vice" and bench.hub.seat in IN_FRAME:
            return "The axle is in the frame: there is no vice to be got at it."
        return None

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the axle held so."""
        return bench.with_hub(replace(bench.hub, axle_held=self.by)), AXLE[self.by].told


@dataclass(frozen=True, slots=True)
class HoldCone(Action):
    """Put a spanner on the cone, or take it off."""

    held: bool = True

    @property
    def words(self) -> str:
        """What was done."""
        return CONE[self.held].done

    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench with the cone held or free."""
        return bench.with_hub(replace(bench.hub, cone_held=self.held)), CONE[self.held].told
