"""What hubs and hands, many at once, show to who counts, feels and measures."""

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.real_hub import State


class Shown(NamedTuple):
    """What n hubs and hands show; every array has shape (n,), at m marks (n, m).

    Attributes:
        end_play: by state, the cone where the fingers left it [m].
        slack: axial, of the cone on its thread [m].
        felt_play: least play at the rim that the hand feels [m]; felt_play_at: end play that has it [m].
        felt_drag: least torque from preload that the hand feels [N·m]; felt_drag_at: end play that has it [m].
        push: each way at the rim where none was stated [N]; stiffness: of the wheel there [N/m].
        play_factor: free play at the rim over what is computed [-].
        axle_give: what a gauge at the axle end shows more, per newton of push each way [m/N].
        turned: by how much further out the cone stands at a mark than was counted [m].
        drifted: by how much further in than at other lockings the cone went when it was locked at a mark [m].
        closed: by how much more than usually the clamp took off end play at a mark, as a share of that [-].
        gauge_off: what a gauge errs by at a mark, in its standard errors, by state.
    """

    end_play: Mapping[State, Array]
    slack: Array
    felt_play: Array
    felt_play_at: Array
    felt_drag: Array
    felt_drag_at: Array
    push: Array
    stiffness: Array
    play_factor: Array
    axle_give: Array
    turned: Array
    drifted: Array
    closed: Array
    gauge_off: Mapping[State, Array]

    @property
    def clamp_give(self) -> Array:
        """What closing the clamp takes off end play (n,) [m]."""
        return np.asarray(self.end_play["locked"] - self.end_play["clamped"])
