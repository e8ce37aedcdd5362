"""What hands find of a hub over its end play, at so few points that straight lines between them serve."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.parts.scenario import Scenario
from conemodel.solve.curves.hub_tables import HubTables, road_load
from conemodel.solve.equilibrium.unloaded import solve_unloaded
from conemodel.solve.equilibrium.wheel_positions import is_uniform, solve_positions, touching_end_play
from conemodel.tasks.setting.sweep import Flags, holds

CLOSE = 1e-6
"""Distance of the points where the balls just touch [m]: nobody feels less."""

GROWTH = 1.25
"""How much further apart each point is than the one before it, away from there [-]: where a quantity grows as a power
of three halves, straight lines between points at x and 1.25 x miss it by 0.5 %. Source: derived.
"""

EVEN = 5e-6
"""Distance of the points where a pair is not uniform [m]: its balls begin to carry one after the other."""

UNEVEN_REACH = 0.15e-3
"""How far from touching the balls of a pair that is not uniform begin to carry [m], at most; as far as curves go."""


class FeltAt(NamedTuple):
    """What hands find at one end play [m], named as in `StageResult`."""

    end_play: float
    preload: float
    rim_play: float
    valid: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FeltCurve:
    """A hub over its end play; every array has shape (m,), and end play rises.

    Attributes:
        end_play: signed, of the unstressed parts [m].
        preload: mean over the wheel's positions [N].
        rim_play, axle_end_play: free play there, stop to stop [m].
        valid: the model holds.
    """

    end_play: Array
    preload: Array
    rim_play: Array
    axle_end_play: Array
    valid: Flags

    def at(self, end_play: float) -> FeltAt:
        """Return what hands find at one end play [m]; it is valid where both points about it are."""
        after = int(np.clip(self.end_play.searchsorted(end_play), 1, self.end_play.size - 1))
        preload, rim_play = (
            float(np.interp(end_play, self.end_play, field)) for field in (self.preload, self.rim_play)
        )
        return FeltAt(end_play, preload, rim_play, bool(self.valid[after - 1 : after + 1].all()))


def felt_curve(
    scenario: Scenario, pair: Pair, tables: HubTables, *, tight: float, loose: float, ridden: bool
) -> FeltCurve:
    """Return what hands find of a hub from its `tight` to its `loose` end play [m], under the rider where `ridden`.

    Raises:
        NotConverged: no balance of forces was found.
    """
    ends = _end_plays(pair, tight, loose)
    if ridden:
        solution = solve_positions(pair, end_play=ends, load=road_load(scenario.wheel, side=True))
    else:
        solution = solve_unloaded(pair, ends)
    rim_play, axle_end_play = tables.play_at(ends)
    return FeltCurve(
        end_play=ends,
        preload=solution.preload.mean(axis=-1),
        rim_play=rim_play,
        axle_end_play=axle_end_play,
        valid=holds(pair, ends, solution),
    )


def _end_plays(pair: Pair, tight: float, loose: float) -> Array:
    """Return end plays from `tight` to `loose` [m], closest about where the balls of a pair just touch."""
    touching = touching_end_play(pair)
    reach = max(loose - touching, touching - tight, 2 * CLOSE)
    steps = CLOSE * GROWTH ** np.arange(1 + np.ceil(np.log(reach / CLOSE) / np.log(GROWTH)))
    # below a few times `CLOSE` the growing steps would lie closer than it
    away = np.concatenate((CLOSE * np.arange(1, 5), steps[steps > 4.5 * CLOSE]))
    ends = np.concatenate((-away[::-1], [0.0], away))
    if not is_uniform(pair):
        ends = np.concatenate((ends, np.arange(-UNEVEN_REACH, UNEVEN_REACH, EVEN)))
    inside = touching + np.unique(np.round(ends / CLOSE, 3)) * CLOSE
    apart = (inside > tight + CLOSE / 2) & (inside < loose - CLOSE / 2)
    return np.concatenate(([tight], inside[apart], [loose]))
