"""Looks at a hub that need no measuring, each answered by yes or no."""

from typing import Literal

from conemodel.base.units import ONE
from conemodel.parts.schema import Part, quantity

Answer = Literal["yes", "no"]


class Checks(Part):
    """Looks that need no measuring; None where nobody looked."""

    freehub_rocks: Answer | None = quantity(ONE, "the freehub rocks on the hub", default=None)
    headset_or_pivots_rock: Answer | None = quantity(
        ONE, "headset, fork or frame pivots have play", default=None
    )
    spokes_loose: Answer | None = quantity(ONE, "spokes are loose", default=None)
    axle_moves_in_dropouts: Answer | None = quantity(
        ONE, "the axle moves in the dropouts when the wheel is rocked", default=None
    )
    far_side_unlocked: Answer | None = quantity(
        ONE, "cone and locknut of the other side turn against each other", default=None
    )
    axle_wobbles: Answer | None = quantity(ONE, "the axle wobbles rolled on a flat plate", default=None)
    axle_broken: Answer | None = quantity(ONE, "the axle is cracked or broken", default=None)
    hub_cracked: Answer | None = quantity(ONE, "a flange or the shell is cracked", default=None)
    track_dented: Answer | None = quantity(
        ONE, "a ball-point tip finds dents, pits or flaking in a race", default=None
    )
    cone_rocks_on_thread: Answer | None = quantity(
        ONE, "the cone rocks on the axle's thread with the locknut loose: normal slack", default=None
    )
    locknut_never_hard: Answer | None = quantity(
        ONE, "the locknut never comes up hard against the held cone", default=None
    )
    washer_tab_lost: Answer | None = quantity(ONE, "the keyed washer has lost its tab", default=None)
    seal_or_brake_rubs: Answer | None = quantity(ONE, "a seal, a dust cap or the brake rubs", default=None)
    cup_moves_in_shell: Answer | None = quantity(
        ONE, "a cup turns in the shell, or has crept along it", default=None
    )
