"""The rear hub that sums outside the project were made for: no shipped hub has its measures."""

from conemodel.parts.cone import Cone
from conemodel.parts.hub import SIDES
from conemodel.parts.scenario import Scenario

LONG_CONE = Cone(length=30e-3, ball_place=27.75e-3, thread_length=15.5e-3)


def hand_calculated(rear: Scenario) -> Scenario:
    """Return the hub with rows 60 mm apart, cone threads 100 mm, each locknut's thread 12 mm further out.

    60 + 2 (27.75 - 15.5/2) = 100 mm, and (129 - 5 - 100)/2 = 12 mm.
    """
    stacks = {side: rear.stack.side(side).replace(cone=LONG_CONE, locknut_length=5e-3) for side in SIDES}
    return rear.replace(
        hub=rear.hub.replace(row_spacing=60e-3, over_locknut_width=129e-3),
        stack=rear.stack.replace(**stacks),
        frame=rear.frame.replace(dropout_width=129e-3),
    )
