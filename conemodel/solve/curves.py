"""How a hub behaves over its end play: preload, pressure, torque and life as curves, solved once a hub."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.interpolate import PchipInterpolator

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.parts.mounting import Wheel
from conemodel.solve.drag import load_drag
from conemodel.solve.life import life_of
from conemodel.solve.positions import solve_positions, touching_end_play
from conemodel.solve.preload import search_end_play, unloaded

TIGHT_END, LOOSE_END = -0.15e-3, 0.10e-3
"""Range of end play the curves cover, from where the balls just touch [m]: far too tight to plainly loose."""

END_PLAYS = 1e-6 * np.concatenate(
    (np.arange(-150, -30, 10.0), np.arange(-30, -10, 2.5), np.arange(-10, 5, 1.0), np.linspace(5, 100, 11))
)
"""End plays of a curve's points [m], closest where the balls begin to bear; monotone cubics between them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HubCurves:
    """One hub over its end play, without load except for `life`; worst or mean over the wheel's positions.

    Attributes:
        end_play: (n,) [m], rising.
        preload: mean over positions [N]; cone_pressure: worst peak pressure on a cone [Pa].
        torque: mean turning torque from load [N·m].
    """

    end_play: Array
    preload: Array
    cone_pressure: Array
    torque: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class LifeCurve:
    """Life over end play under one load on the wheel: `end_play` (n,) [m], `life` (n,) [revolutions]."""

    end_play: Array
    life: Array


@lru_cache(maxsize=64)
def hub_curves(pair: Pair) -> HubCurves:
    """Return the curves of a pair without load. Errors: `NotConverged`."""
    ends = END_PLAYS + touching_end_play(pair)
    solution = unloaded(pair, ends)
    pressure = np.maximum(solution.left.cone_pressure.max(axis=-1), solution.right.cone_pressure.max(axis=-1))
    return HubCurves(
        end_play=ends,
        preload=solution.preload.mean(axis=-1),
        cone_pressure=pressure.max(axis=-1),
        torque=load_drag(pair, solution).total.mean(axis=-1),
    )


@lru_cache(maxsize=64)
def life_curve(pair: Pair, load: tuple[float, float, float, float, float]) -> LifeCurve:
    """Return life over end play under a `load` on the shell [N, N·m]. Errors: `NotConverged`."""
    ends = END_PLAYS[::2] + touching_end_play(pair)
    solution = solve_positions(pair, end_play=ends, load=load)
    return LifeCurve(end_play=ends, life=life_of(pair, solution))


def road_load(wheel: Wheel, *, side: bool) -> tuple[float, float, float, float, float]:
    """Return the road's load on the shell at mid-span: straight up, or with the side load at the tyre as well.

    y points up; the tyre touches the road at -y, one rim radius down. Shape (5,): N and N·m.
    """
    across = wheel.side_load if side else 0.0
    return across, wheel.radial_load, 0.0, 0.0, across * wheel.rim_radius


def end_play_at_preload(pair: Pair, *, preload: float) -> float:
    """Return the end play [m] at which a pair without load carries a `preload` above 0 [N].

    N^(2/3) against end play is nearly a straight line, so the curve's points are enough to place it within a
    nanometre; beyond its tight end it is searched for.
    Errors: `NotConverged` where no end play reaches the preload.
    """
    curve = hub_curves(pair)
    loaded = curve.preload > 0.0
    edge = int(loaded.sum())
    ends, height = curve.end_play[:edge], curve.preload[:edge] ** (2 / 3)
    wanted = preload ** (2 / 3)
    if wanted >= height[0]:
        return search_end_play(pair, preload=preload)
    if wanted <= height[-1]:
        slope = (height[-1] - height[-2]) / (ends[-1] - ends[-2])
        return float(ends[-1] + (wanted - height[-1]) / slope)
    return float(PchipInterpolator(height[::-1], ends[::-1])(wanted))
