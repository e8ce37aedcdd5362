"""Fatigue life against the setting, as a ratio to the best this hub can have under a stated mix of loads."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.scenario import Scenario
from conemodel.physics.fatigue import life_under_mix
from conemodel.solve.curves.fatigue import life_of
from conemodel.solve.curves.hub_tables import NO_END, life_curves
from conemodel.solve.equilibrium.wheel_positions import solve_positions
from conemodel.solve.stages.terms import pair_of
from conemodel.tasks.bearing.load_cases import SIDE_SHARE, Case, life_loads, shares_of

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
        mixed: under the stated mix [-]; alone: under each of its loads alone [-].
        shares: share of the turns under each load [-], (); side_load: at the tyre [N], ().
        best: end play of the longest life under the mix [m], ().
    """

    end_play: Array
    mixed: Array
    alone: Mapping[Case, Array]
    shares: Mapping[Case, float]
    side_load: float
    best: float


def life_ratio(
    scenario: Scenario, *, side_share: float = SIDE_SHARE, end_play: Array | None = None
) -> LifeRatio:
    """Return life against the best of the same hub, for the mix of loads that its wheel has.

    Args:
        scenario: the hub, its wheel, drive, brake and mix.
        side_share: share of the turns with the side load on the tyre [-], 0 to 1.
        end_play: (n,) [m], rising; the range of the hub's curves where not given.

    Raises:
        NotConverged: no balance of forces is found.
        ValueError: a share outside 0 to 1.

    Source: [Palmgren1959] for the sum of damage.

    >>> from conemodel.parts.toml_files import load_scenario
    >>> found = life_ratio(load_scenario("scenarios/touring-rear.toml"))
    >>> bool(found.best < 0 and found.mixed.max() <= 1)
    True
    """
    pair, loads = pair_of(scenario), life_loads(scenario)
    if end_play is None:
        curves = life_curves((pair, load) for load in loads.values())
        asked = np.linspace(curves[0].x[0], curves[0].x[-1], CURVE_POINTS)
        lives = [np.exp(curve.at(asked)) for curve in curves]
    else:
        asked = np.asarray(end_play, dtype=np.float64)
        lives = [life_of(pair, solve_positions(pair, end_play=asked, load=load)) for load in loads.values()]
    return over_best(
        scenario, end_play=asked, lives=dict(zip(loads, lives, strict=True)), side_share=side_share
    )


def over_best(
    scenario: Scenario, *, end_play: Array, lives: Mapping[Case, Array], side_share: float = SIDE_SHARE
) -> LifeRatio:
    """Return lives as ratios to the hub's best.

    Args:
        scenario: the hub, its wheel, drive, brake and mix.
        end_play: (n,) [m].
        lives: there, under each of `life_loads` (n,) [revolutions].
        side_share: as for `life_ratio`.

    Raises:
        NotConverged: no balance of forces is found.
        ValueError: a share outside 0 to 1.
    """
    pair, loads = pair_of(scenario), life_loads(scenario)
    shares = shares_of(scenario, side_share=side_share)
    curves = life_curves((pair, load) for load in loads.values())
    ends = curves[0].x
    fine = np.linspace(ends[0], ends[-1], 4 * CURVE_POINTS)
    finely = {case: np.exp(curve.at(fine)) for case, curve in zip(loads, curves, strict=True)}
    mixed = _mixed(finely, shares)
    # the best lies between points of the curve: a solved life may come out slightly above it
    alone = {case: np.minimum(_ending(lives[case]) / _ending(finely[case]).max(), 1.0) for case in loads}
    return LifeRatio(
        end_play=end_play,
        mixed=np.minimum(_mixed(lives, shares) / mixed.max(), 1.0),
        alone=alone,
        shares=shares,
        side_load=loads["side"][0],
        best=float(fine[np.argmax(mixed)]),
    )


def _mixed(lives: Mapping[Case, Array], shares: Mapping[Case, float]) -> Array:
    """Return the lives under all loads in turn (n,) [revolutions]."""
    each = np.stack([_ending(lives[case]) for case in shares], axis=-1)
    return np.asarray(life_under_mix(lives=each, shares=np.array(list(shares.values()))))


def _ending(life: Array) -> Array:
    """Return a finite life [revolutions], `NO_END` where nothing loads the balls."""
    return np.minimum(life, NO_END)
