"""How a hub behaves over its end play: preload, pressure, torque and life as curves, solved once a hub."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from conemodel.base.batch_cache import Remembered
from conemodel.base.monotone_cubic import Curve
from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.parts.mounting import Wheel
from conemodel.solve.curves.fatigue import life_of
from conemodel.solve.equilibrium.pair import PairSolution
from conemodel.solve.equilibrium.unloaded import search_end_play, stiff, unloaded_of
from conemodel.solve.equilibrium.wheel_positions import (
    case_of,
    is_even,
    solve_positions_of,
    touching_end_play,
)
from conemodel.solve.wheel.ball_drag import load_drag

TIGHT_END, LOOSE_END = -0.15e-3, 0.10e-3
"""Range of end play the curves cover, from where the balls just touch [m]: far too tight to plainly loose."""

END_PLAYS = 1e-6 * np.concatenate(
    (np.arange(-150, -30, 10.0), np.arange(-30, -10, 2.5), np.arange(-10, 5, 1.0), np.linspace(5, 100, 11))
)
"""End plays of a curve's points as if axle and shell did not give [m]; monotone cubics between them.

They stand closest where the balls begin to bear.
"""


LIFE_END_PLAYS = 1e-6 * np.array(
    (-150, -115, -88, -68, -53, -42, -34, -28, -22, -16.5, -11, -6, 0, 10, 40, 100), dtype=np.float64
)
"""End plays of a life curve's points [m]; monotone cubics in life's logarithm miss it by some hundredths of the best.

They stand closest where life rises to its best and falls from it, under loads as riders make them.
"""

Load = tuple[float, float, float, float, float]
"""Force along x, y, z and moment about y, z on the shell at mid-span [N, N·m]."""


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


def hub_curves(pair: Pair) -> HubCurves:
    """Return the curves of a pair without load. Errors: `NotConverged`."""
    return all_hub_curves((pair,))[0]


def all_hub_curves(pairs: Iterable[Pair]) -> list[HubCurves]:
    """Return the curves of several pairs without load; what is not known of them is solved together.

    Errors: `NotConverged`; ValueError as for `wheel_positions`.
    """
    asked = list(pairs)
    return [_given(*each) for each in zip(asked, curves_as_stiff(map(_as_stiff, asked)), strict=True)]


def _as_stiff(pair: Pair) -> Pair:
    """Return the pair whose curves serve for `pair`: without its give, if that is the same wherever the balls stand."""
    return stiff(pair) if is_even(pair) else pair


def _given(pair: Pair, curve: HubCurves) -> HubCurves:
    """Return the curve of a pair from that of `_as_stiff(pair)`: its give takes give times preload off end play."""
    if not is_even(pair):
        return curve
    return replace(curve, end_play=curve.end_play - pair.axial_compliance * curve.preload)


def life_curve(pair: Pair, load: Load) -> LifeCurve:
    """Return life over end play under a `load` on the shell [N, N·m]. Errors: `NotConverged`."""
    return all_life_curves.one((pair, load))


def _hub_curves(pairs: Sequence[Pair]) -> list[HubCurves]:
    """Return the curves of `pairs`, which are solved together."""
    ends = _ends_of(pairs, END_PLAYS)
    solution = unloaded_of(pairs, ends)
    each = [case_of(solution, i) for i in range(len(pairs))]
    return [_curves(*one) for one in zip(pairs, ends, each, strict=True)]


def _curves(pair: Pair, end_play: Array, solution: PairSolution) -> HubCurves:
    """Return the curves of one pair from its balance of forces at each end play and position."""
    pressure = np.maximum(solution.left.cone_pressure.max(axis=-1), solution.right.cone_pressure.max(axis=-1))
    return HubCurves(
        end_play=end_play,
        preload=solution.preload.mean(axis=-1),
        cone_pressure=pressure.max(axis=-1),
        torque=load_drag(pair, solution).total.mean(axis=-1),
    )


def _life_curves(loaded: Sequence[tuple[Pair, Load]]) -> list[LifeCurve]:
    """Return life over end play of each pair under its load; they are solved together."""
    pairs = [pair for pair, _ in loaded]
    ends = _ends_of(pairs, LIFE_END_PLAYS)
    loads = np.array([load for _, load in loaded])[:, None, None]
    solution = solve_positions_of(pairs, end_play=ends, load=loads)
    return [
        LifeCurve(end_play=ends[i], life=life_of(pair, case_of(solution, i))) for i, pair in enumerate(pairs)
    ]


def _ends_of(pairs: Sequence[Pair], end_plays: Array) -> Array:
    """Return `end_plays` (n,) counted from where each pair just touches: (p, n) [m]."""
    ends: Array = end_plays + np.array([touching_end_play(pair) for pair in pairs])[:, None]
    return ends


curves_as_stiff = Remembered(_hub_curves, size=64)
"""Curves of pairs without load, as they are: to be asked for pairs that come from `_as_stiff`."""

all_life_curves = Remembered(_life_curves, size=64)
"""Life over end play of pairs under a load on the shell."""


def road_load(wheel: Wheel, *, side: bool) -> Load:
    """Return the road's load on the shell at mid-span: straight up, or with the side load at the tyre as well.

    y points up; the tyre touches the road at -y, one rim radius down. Shape (5,): N and N·m.
    """
    across = wheel.side_load if side else 0.0
    return across, wheel.radial_load, 0.0, 0.0, across * wheel.rim_radius


def end_play_at_preload(pair: Pair, *, preload: float) -> float:
    """Return the end play [m] at which a pair without load carries a `preload` above 0 [N].

    The curve's points are enough to place it within a nanometre; beyond its tight end it is searched for.
    Errors: `NotConverged` where no end play reaches the preload.
    """
    closing, height = _closing(_as_stiff(pair)), preload ** (2 / 3)
    given = pair.axial_compliance * preload if is_even(pair) else 0.0
    first, second = closing.x[:2]
    if height >= closing.x[-1]:
        return search_end_play(pair, preload=preload)
    if height <= first:
        there, next_to_it = closing.height[:2]
        return float(there + (height - first) * (next_to_it - there) / (second - first)) - given
    return float(closing.at(height)) - given


@lru_cache(maxsize=64)
def _closing(pair: Pair) -> Curve:
    """Return end play [m] over preload to the power 2/3, nearly a straight line, where a pair is preloaded.

    `pair` comes from `_as_stiff`.
    """
    curve = curves_as_stiff.one(pair)
    edge = int((curve.preload > 0.0).sum())
    return Curve.through(curve.preload[:edge][::-1] ** (2 / 3), curve.end_play[:edge][::-1])
