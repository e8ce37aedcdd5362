"""Fatigue life against the setting, as a ratio to the best this hub can have under a stated mix of loads."""

from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.mounting import Wheel
from conemodel.parts.scenario import Scenario
from conemodel.solve.curves.fatigue import life_of
from conemodel.solve.curves.hub_tables import NO_END, Load, life_curves, road_load
from conemodel.solve.equilibrium.wheel_positions import solve_positions
from conemodel.solve.stages.terms import pair_of

SIDE_SHARE = 0.2
"""Share of the turns with the side load on the tyre. Assumption."""

SIDE_OF_RADIAL = 0.15
"""Side load taken where a scenario names none, as a share of the radial load. Assumption."""

CURVE_POINTS = 251
"""Points of the curve where no end plays are given."""

WHAT_LIFE_SAYS = (
    "Fatigue theory punishes tightness far more than play. Play is bad because of hammering, seals and handling, "
    "none of which is in this curve: a light preload is best here, and a little play looks better than it is."
)
"""Said beside every life curve."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LifeRatio:
    """Life over end play, each curve over its own best; fields (n,) unless said.

    Attributes:
        end_play: [m], rising.
        mixed: under the stated mix [-]; straight, side: under each of its loads alone [-].
        side_share: share of the turns with the side load [-], (); side_load: at the tyre [N], ().
        best: end play of the longest life under the mix [m], ().
    """

    end_play: Array
    mixed: Array
    straight: Array
    side: Array
    side_share: float
    side_load: float
    best: float


def life_ratio(
    scenario: Scenario, *, side_share: float = SIDE_SHARE, end_play: Array | None = None
) -> LifeRatio:
    """Return life against the best of the same hub, for a mix of straight riding and side load.

    `side_share` of the turns, 0 to 1; `end_play` (n,) [m], rising, the range of the hub's curves by default.
    Damage adds up turn by turn, 1/L = Σ share/L. Source: [Palmgren1959] for the sum of damage.

    Errors: `NotConverged`; ValueError for a share outside 0 to 1.

    >>> from conemodel.parts.toml_files import load_scenario
    >>> found = life_ratio(load_scenario("scenarios/touring-rear.toml"))
    >>> bool(found.best < 0 and found.mixed.max() <= 1)
    True
    """
    pair, loads = pair_of(scenario), life_loads(scenario.wheel)
    if end_play is None:
        curves = life_curves((pair, load) for load in loads)
        asked = np.linspace(curves[0].x[0], curves[0].x[-1], CURVE_POINTS)
        lives = [np.exp(curve.at(asked)) for curve in curves]
    else:
        asked = np.asarray(end_play, dtype=np.float64)
        lives = [life_of(pair, solve_positions(pair, end_play=asked, load=load)) for load in loads]
    return over_best(scenario, end_play=asked, straight=lives[0], side=lives[1], side_share=side_share)


def life_loads(wheel: Wheel) -> tuple[Load, Load]:
    """Return the straight load and the one with the side load at the tyre, a usual one where none is named."""
    loaded = wheel if wheel.side_load else wheel.replace(side_load=SIDE_OF_RADIAL * wheel.radial_load)
    return road_load(loaded, side=False), road_load(loaded, side=True)


def over_best(
    scenario: Scenario, *, end_play: Array, straight: Array, side: Array, side_share: float = SIDE_SHARE
) -> LifeRatio:
    """Return the lives at `end_play` (n,) under the straight and the side load as ratios to the hub's best.

    `straight`, `side` (n,) [revolutions]. Errors: `NotConverged`; ValueError for a share outside 0 to 1.
    """
    if not 0.0 <= side_share <= 1.0:
        raise ValueError(f"side_share must be 0 to 1, not {side_share}")
    pair, loads = pair_of(scenario), life_loads(scenario.wheel)
    curves = life_curves((pair, load) for load in loads)
    ends = curves[0].x
    fine = np.linspace(ends[0], ends[-1], 4 * CURVE_POINTS)
    finely = _with_mix([np.exp(curve.at(fine)) for curve in curves], side_share)
    # the best lies between points of the curve: a solved life may stand a hair above it
    ratios = [
        np.minimum(life / over.max(), 1.0)
        for life, over in zip(_with_mix([straight, side], side_share), finely, strict=True)
    ]
    return LifeRatio(
        end_play=end_play,
        straight=ratios[0],
        side=ratios[1],
        mixed=ratios[2],
        side_share=side_share,
        side_load=loads[1][0],
        best=float(fine[np.argmax(finely[2])]),
    )


def _with_mix(lives: list[Array], side_share: float) -> list[Array]:
    """Return the lives under the straight load, the side load and a mix of them."""
    straight, side = (np.minimum(life, NO_END) for life in lives)
    return [straight, side, 1 / ((1 - side_share) / straight + side_share / side)]
