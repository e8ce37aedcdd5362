"""The adjustable side as a state: where its cone stands on the thread, and what holds it there. Acts change it.

End play is a state too: it follows from where the cone stands, on which flank of its thread it bears and how hard
it is locked, never from when somebody judges it. So a hub has the same end play after the same acts, whoever does
them: a prediction, a hub among many, or hands on the practice bench.
"""

from dataclasses import dataclass, replace
from typing import Any, Generic

import numpy as np

from conemodel.base.units import Number
from conemodel.parts.setting import ContactFound
from conemodel.solve.stages.locknut import Joint


@dataclass(frozen=True, slots=True, kw_only=True)
class AdjustableSide(Generic[Number]):
    """Numbers for one hub, shape (n,) for n hubs.

    Attributes:
        cone: how far out the cone was turned from finger contact, along its thread [m].
        slack_taken: how much of its thread's slack the locknut has pushed it in by [m]: nothing while it bears on
            the outboard flank, all of it once it bears on the inboard one.
        nut_touches: the locknut stands against the cone.
        lock_force: between nut and cone [N].
    """

    cone: Number
    slack_taken: Number
    nut_touches: bool
    lock_force: Number

    def loosened(self) -> "AdjustableSide[Number]":
        """Return it with the locknut run back: the balls push the cone out onto its outboard flank again."""
        none: Any = 0.0 * self.slack_taken
        return replace(self, slack_taken=none, nut_touches=False, lock_force=0.0 * self.lock_force)

    def turned(self, length: Number) -> "AdjustableSide[Number]":
        """Return it with the cone turned out by `length` along its thread [m]; a locked nut turns with it."""
        return replace(self, cone=self.cone + length)

    def tightened(
        self, joint: Joint[Number], *, nut: float, turned_in: Number
    ) -> tuple["AdjustableSide[Number]", dict[str, Number]]:
        """Return it with the locknut tightened, or further, and what that adds to end play, by key [m].

        A locknut that is not tightened against the cone takes no slack; tightening loosens nothing.

        Args:
            joint: as it will be locked.
            nut: share of the closing done by the nut [-]; the cone, backed out against it, does the rest.
            turned_in: how far the cone turns in with a nut that does all of the closing from loose to this joint's
                force, along the thread [m].
        """
        give = joint.compliances
        more: Any = np.maximum(joint.force - self.lock_force, 0.0)[()]
        slack: Any = np.where(joint.force > 0.0, joint.backlash - self.slack_taken, 0.0)[()]
        tight: Any = np.where(joint.force > 0.0, joint.force, 1.0)
        drift: Any = -nut * turned_in * (more / tight)
        lengths: dict[str, Any] = {
            "cone_backed_out": (1 - nut) * more * give.behind_cone,
            "thread_slack": -nut * slack,
            "cone_thread": -nut * more * give.cone_thread,
            "drift": drift,
        }
        out = (1 - nut) * (slack + more * (give.behind_cone + give.cone_thread))
        after = replace(
            self,
            cone=self.cone + out + drift,
            slack_taken=self.slack_taken + slack,
            nut_touches=True,
            lock_force=self.lock_force + more,
        )
        return after, lengths


def find_adjustable_side(how: ContactFound, *, slack: Any) -> "AdjustableSide[Any]":
    """Return the side as finger contact was found, on a thread with `slack` [m].

    With the locknut loose the balls hold the cone on its outboard flank. With the locknut run up snug it bears on
    the inboard one. The balls are pinched alike.
    """
    none = 0.0 * slack
    snug = how == "nut snug"
    return AdjustableSide(cone=none, slack_taken=slack if snug else none, nut_touches=snug, lock_force=none)
