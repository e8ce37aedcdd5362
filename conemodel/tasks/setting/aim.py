"""Where to bring the cone: where it most likely ends right, and never further in than is safe."""

from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.tasks.setting.drawn_hubs import DrawnHubs

MOST_TIGHT = 0.1
"""Chance of ending too tight that a turn may have. Judgement: play that is left shows and can be measured, a bearing
that was left tight hides it and wears; common practice is to come in from the loose side."""

TRIED = 241
"""Positions tried between the furthest in and the furthest out."""

PLATEAU = 0.002
"""Positions whose chance is this close to the best are as good; the middle of them is taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """Where a turn of the cone should end, wherever it begins.

    Attributes:
        moved: backed off along the axle from where the fingers left it [m].
        right, tight: how likely the hub is so then [-].
    """

    moved: float
    right: float
    tight: float


def aim_of(drawn: DrawnHubs) -> Aim:
    """Return the likeliest position of the cone to be right of those whose chance of tight is small."""
    furthest_in = drawn.cautious_turn(0.0, tight=MOST_TIGHT)
    furthest_out = max(furthest_in, float(np.max(drawn.loose_edge - drawn.end_play)))
    positions = np.linspace(furthest_in, furthest_out, TRIED)
    right, tight = drawn.chances_after(0.0, positions)
    best = middle_of_best(right)
    return Aim(moved=float(positions[best]), right=float(right[best]), tight=float(tight[best]))


def middle_of_best(chance: Array) -> int:
    """Return the number of the likeliest of several positions (t,), of those as good the middle one."""
    good = np.flatnonzero(chance >= chance.max() - PLATEAU)
    return int(good[good.size // 2])
