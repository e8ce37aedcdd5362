"""Preload, pressure and torque of a hub without load over its end play, solved once a hub."""

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeVar

import numpy as np

from conemodel.base.batch_cache import BatchCache
from conemodel.base.monotone_cubic import MonotoneCubic
from conemodel.base.units import Array, Floats
from conemodel.parts.bearing import Pair
from conemodel.solve.equilibrium.pair import PairSolution
from conemodel.solve.equilibrium.unloaded import search_end_play, solve_unloaded_pairs, stiffen
from conemodel.solve.equilibrium.wheel_positions import (
    batch_key_of,
    is_uniform,
    select_case,
    touching_end_play,
)
from conemodel.solve.wheel.ball_drag import load_drag

TIGHT_END, LOOSE_END = -0.15e-3, 0.10e-3
"""Range of end play the curves cover, from where the balls just touch [m]: far too tight to plainly loose."""

END_PLAYS = 1e-6 * np.concatenate(
    (np.arange(-150, -30, 10.0), np.arange(-30, -10, 2.5), np.arange(-10, 5, 1.0), np.linspace(5, 100, 11))
)
"""End plays of a curve's points for rigid axle and shell [m]; monotone cubics between them.

They stand closest where the balls begin to carry.
"""

KEPT = 128
"""How many hubs' curves of each kind are kept, those used last."""

Key = TypeVar("Key", bound=Hashable)
Value = TypeVar("Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class UnloadedTables:
    """A hub without load over its end play [m]; worst or mean over the wheel's positions.

    Attributes:
        pair: its rows.
        preload: mean over positions [N]; cone_pressure: worst peak pressure on a cone [Pa].
        torque: mean turning torque from load [N·m].
        closing: end play [m], for rigid axle and shell, over preload to the power 2/3 [N^(2/3)], where the hub is
            preloaded. Load grows with the approach to the power 3/2 (Hertz), so this curve is nearly straight, and
            few points place a preload within a nanometre.
    """

    pair: Pair
    preload: MonotoneCubic
    cone_pressure: MonotoneCubic
    torque: MonotoneCubic
    closing: MonotoneCubic

    def end_play_at_preload(self, preload: Floats) -> Array:
        """Return the end play [m] at which the hub carries each `preload` above 0 [N], any shape.

        The curve's points are enough to place it within a nanometre; beyond its tight end it is searched for.

        Raises:
            NotConverged: no end play reaches a preload.
        """
        asked = np.asarray(preload, dtype=np.float64)
        height, (first, second), last = asked ** (2 / 3), self.closing.x[:2], self.closing.x[-1]
        there, next_to_it = self.closing.height[:2]
        before = there + (height - first) * (next_to_it - there) / (second - first)
        found = np.where(height <= first, before, self.closing.at(np.clip(height, first, last)))
        found = np.asarray(found - _compliance_beyond(self.pair) * asked)
        for case in np.argwhere(height >= last):
            found[tuple(case)] = search_end_play(self.pair, preload=float(asked[tuple(case)]))
        return found


def unloaded_tables(pair: Pair) -> UnloadedTables:
    """Return the tables of a pair without load.

    Raises:
        NotConverged: no balance of forces was found.
    """
    return _unloaded_cache.get(pair)


def all_unloaded_tables(pairs: Iterable[Pair]) -> tuple[UnloadedTables, ...]:
    """Return the same for several pairs; what is not known of them is solved together.

    Raises:
        NotConverged: no balance of forces was found.
    """
    return _unloaded_cache(pairs)


class _Points(NamedTuple):
    """A pair without load at some end plays: all (n,), as in `UnloadedTables`."""

    end_play: Array
    preload: Array
    cone_pressure: Array
    torque: Array


def solve_in_batches(
    keys: Sequence[Key], kind_of: Callable[[Key], Hashable], work: Callable[[list[Key]], list[Value]]
) -> list[Value]:
    """Return what `work` makes of `keys`, handed to it in lots of one kind, each solved as if alone."""
    lots: dict[Hashable, list[Key]] = {}
    for key in keys:
        lots.setdefault(kind_of(key), []).append(key)
    found = {key: value for lot in lots.values() for key, value in zip(lot, work(lot), strict=True)}
    return [found[key] for key in keys]


def _solve_tables(pairs: Sequence[Pair]) -> list[UnloadedTables]:
    """Return the tables of `pairs`; pairs alike but for their compliance share what is solved."""
    return list(map(_tables, pairs, _point_cache(map(_stiffened, pairs))))


def _stiffened(pair: Pair) -> Pair:
    """Return the pair whose points serve for `pair`: without compliance, if it is uniform."""
    return stiffen(pair) if is_uniform(pair) else pair


def _compliance_beyond(pair: Pair) -> float:
    """Return the compliance by which preload takes end play beyond the points of `_stiffened(pair)` [m/N]."""
    return pair.axial_compliance if is_uniform(pair) else 0.0


def _tables(pair: Pair, points: _Points) -> UnloadedTables:
    """Return a pair's tables from the points of `_stiffened(pair)`: compliance times preload comes off end play."""
    end_play = points.end_play - _compliance_beyond(pair) * points.preload
    edge = int((points.preload > 0.0).sum())
    preload, pressure, torque = MonotoneCubic.through_each(
        end_play, points.preload, points.cone_pressure, points.torque
    )
    closing = MonotoneCubic.through(points.preload[:edge][::-1] ** (2 / 3), points.end_play[:edge][::-1])
    return UnloadedTables(pair=pair, preload=preload, cone_pressure=pressure, torque=torque, closing=closing)


def _solve_points(pairs: Sequence[Pair]) -> list[_Points]:
    """Return each pair at `END_PLAYS`; those of one kind are solved together."""

    def together(lot: list[Pair]) -> list[_Points]:
        ends = end_plays_of(lot, END_PLAYS)
        solution = solve_unloaded_pairs(lot, ends)
        return [_points_of(pair, ends[i], select_case(solution, i)) for i, pair in enumerate(lot)]

    return solve_in_batches(pairs, batch_key_of, together)


def _points_of(pair: Pair, end_play: Array, solution: PairSolution) -> _Points:
    """Return the points of one pair from its balance of forces at each end play and position."""
    pressure = np.maximum(solution.left.cone_pressure.max(axis=-1), solution.right.cone_pressure.max(axis=-1))
    return _Points(
        end_play=end_play,
        preload=solution.preload.mean(axis=-1),
        cone_pressure=pressure.max(axis=-1),
        torque=load_drag(pair, solution).torque.mean(axis=-1),
    )


def end_plays_of(pairs: Sequence[Pair], end_plays: Array) -> Array:
    """Return `end_plays` (n,) counted from where each pair just touches: (p, n) [m]."""
    ends: Array = end_plays + np.array([touching_end_play(pair) for pair in pairs])[:, None]
    return ends


_point_cache = BatchCache(_solve_points, size=KEPT)
_unloaded_cache = BatchCache(_solve_tables, size=KEPT)
