"""Positions of the balls: what depends on them is taken over the positions a turning wheel goes through.

A sound hub repeats itself after one ball pitch. A hub with a tilted cup or an odd ball repeats itself only after
whole turns, so more positions are looked at.
"""

from collections.abc import Sequence
from dataclasses import fields
from functools import lru_cache
from typing import Any

import numpy as np
import numpy.typing as npt

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array
from conemodel.parts.bearing import Pair, Row
from conemodel.solve.equilibrium.arrays import HubArrays, RowArrays, arrays_of_pairs, arrays_of_row
from conemodel.solve.equilibrium.pair import Integers, PairSolution, PreparedHubs, RowState, solve_prepared

SOUND_POSITIONS = 5
"""Positions over one ball pitch of a sound hub; the two rows run through them at different rates, so that
they do not always stand alike."""

_IN_MIRROR = (1.0, 1.0, -1.0, -1.0, 1.0)
"""Signs under reflection in the plane of axle and y: movement along x, y, z, tilt about y and z."""

FAULTY_POSITIONS = 24
"""Positions over two turns of the wheel of a hub whose cups or balls are not alike."""


def is_uniform(pair: Pair) -> bool:
    """Return whether turning the wheel by a ball pitch changes nothing: no tilted cup, no ball unlike the others."""

    def even(row: Row) -> bool:
        return row.cup_tilt == (0.0, 0.0) and not isinstance(row.ball_oversize, tuple)

    return even(pair.left) and even(pair.right)


def are_uniform(pairs: Sequence[Pair]) -> bool:
    """Return `is_uniform` of pairs that are looked at together.

    Raises:
        ValueError: some are uniform and some are not.
    """
    even = {is_uniform(pair) for pair in pairs}
    if len(even) != 1:
        raise ValueError("hubs solved together must all be uniform, or none")
    return even.pop()


def batch_key_of(pair: Pair) -> tuple[int, int, bool, bool]:
    """Return what pairs must have in common to be solved together, each as if alone: balls, uniformity, symmetry."""
    return pair.left.ball_count, pair.right.ball_count, is_uniform(pair), _upright(pair)


@lru_cache(maxsize=256)
def touching_end_play(pair: Pair) -> float:
    """Return the end play at which balls of each row's middle size just touch [m]; 0 for balls of nominal size.

    The radial distance of the groove centres stays A cos α, their whole distance becomes A less the oversize.
    Source: derived; Pythagoras. Balls too large to go in at all touch with the groove centres side by side.
    """
    total = 0.0
    for row in (pair.left, pair.right):
        apart = (row.cone_conformity + row.cup_conformity - 1) * row.ball_diameter
        reach = max(apart - float(np.median(row.ball_oversize)), 0.0)
        across, along = apart * np.cos(row.contact_angle), apart * np.sin(row.contact_angle)
        total += float(along - np.sqrt(max(reach**2 - across**2, 0.0)))
    return total if abs(total) > 1e-12 else 0.0


@lru_cache(maxsize=128)
def wheel_positions(*pairs: Pair) -> HubArrays:
    """Return each pair once for each position looked at; positions lie on the last axis, one pair after the other.

    The balls advance by (1 + γ)/2 of the turn of the shell, from pure rolling. Source: [HarrisKotzalas2007]

    Raises:
        ValueError: the pairs have not equally many balls, or some are uniform and some not.
    """
    count = count_positions(*pairs)
    hub = arrays_of_pairs(pairs).select(np.repeat(np.arange(len(pairs)), count))
    step = np.tile(np.arange(count) / count, len(pairs))
    if are_uniform(pairs):
        left = _advance_balls(hub.left, 2 * np.pi / hub.left.ball_count * step)
        right = _advance_balls(hub.right, 2 * np.pi / hub.right.ball_count * (2 * step % 1))
        return hub._replace(left=left, right=right)
    return turn_hubs(hub, 4 * np.pi * step)


def count_positions(*pairs: Pair) -> int:
    """Return how many positions `pairs` are looked at in.

    Raises:
        ValueError: as for `are_uniform`.
    """
    return SOUND_POSITIONS if are_uniform(pairs) else FAULTY_POSITIONS


def turn_hubs(hubs: HubArrays, angle: Array) -> HubArrays:
    """Return each of n hubs after its shell has turned by its `angle` (n,) [rad]."""
    return hubs._replace(left=turn_row(hubs.left, angle), right=turn_row(hubs.right, angle))


def turn_row(row: RowArrays, angle: Array) -> RowArrays:
    """Return a row after the shell has turned by each `angle` (n,) [rad]: the cup with it, the balls by about half."""
    gamma = row.ball_diameter * np.cos(row.contact_angle) / row.pitch_diameter
    cos, sin = np.cos(angle), np.sin(angle)
    about_y, about_z = row.cup_tilt
    tilt = np.stack((about_y * cos - about_z * sin, about_y * sin + about_z * cos))
    return _advance_balls(row, angle * (1 + gamma) / 2)._replace(cup_tilt=tilt)


def turn_pair(pair: Pair, angle: float) -> Pair:
    """Return a pair after the shell has turned by `angle` [rad], as `turn_row` does for arrays."""

    def row_after(row: Row) -> Row:
        after = turn_row(arrays_of_row(row), np.array([angle]))
        about_y, about_z = after.cup_tilt[:, 0]
        return row.replace(phase=float(after.phase[0]), cup_tilt=(float(about_y), float(about_z)))

    return pair.replace(left=row_after(pair.left), right=row_after(pair.right))


def solve_positions(pair: Pair, *, end_play: npt.ArrayLike, load: npt.ArrayLike) -> PairSolution:
    """Solve a pair at every position; like `solve_pair`, with the positions on a further axis after the cases.

    Raises:
        NotConverged: a case found no balance.
    """
    ends, loads = np.asarray(end_play, dtype=np.float64), np.asarray(load, dtype=np.float64)
    hub = np.arange(count_positions(pair))
    return _solve_all_round((pair,), end_play=ends[..., None], load=loads[..., None, :], hub=hub)


def solve_positions_of(pairs: Sequence[Pair], *, end_play: Array, load: npt.ArrayLike) -> PairSolution:
    """Solve several pairs at every position, each at its own end plays (p, n) [m]: shapes (p, n, m, ...).

    `load` (5,) is the same for all.

    Raises:
        NotConverged: no balance of forces was found.
        ValueError: as for `wheel_positions`.
    """
    hub = np.arange(len(pairs) * count_positions(*pairs)).reshape(len(pairs), 1, -1)
    return _solve_all_round(pairs, end_play=end_play[..., None], load=np.asarray(load), hub=hub)


def _solve_all_round(pairs: Sequence[Pair], *, end_play: Array, load: Array, hub: Integers) -> PairSolution:
    """Solve `pairs` at all their positions, the last axis of `hub`.

    Where hub and load are mirror symmetric about the plane of axle and y, a position turned back by an angle is
    the reflection of the one turned on by it: half the positions are solved, and the rest reflected.
    """
    ready = _prepare_positions(*pairs)
    if not (lies_in_mirror(load) and _upright(*pairs)):
        return solve_converged(ready, end_play=end_play, load=load, hub=hub)
    first = hub[..., : SOUND_POSITIONS // 2 + 1]
    return _with_reflections(solve_converged(ready, end_play=end_play, load=load, hub=first))


def lies_in_mirror(load: Array) -> bool:
    """Return whether loads (..., 5) are their own reflections in the plane of axle and y; solve such ones apart."""
    return not load[..., [2, 3]].any()


@lru_cache(maxsize=128)
def _upright(*pairs: Pair) -> bool:
    """Return whether all `pairs` are uniform and mirror symmetric, so that turning back is the mirror of turning on."""
    return are_uniform(pairs) and arrays_of_pairs(pairs).are_upright


def _with_reflections(solution: PairSolution) -> PairSolution:
    """Return a solution of the first half of the positions followed by its reflections, last to first.

    Reflection in the plane of axle and y reverses the order of the balls, and the signs of z and of tilt about y.
    """
    back = slice(-1 if SOUND_POSITIONS % 2 else -2, 0, -1)

    def row(state: RowState) -> RowState:
        every = {field.name: getattr(state, field.name) for field in fields(state)}
        return RowState(**{k: np.concatenate((v, v[..., back, ::-1]), axis=-2) for k, v in every.items()})

    found: dict[str, Any] = {field.name: getattr(solution, field.name) for field in fields(solution)}
    for name, value in found.items():
        if isinstance(value, RowState):
            found[name] = row(value)
        elif name == "shell_motion":
            found[name] = np.concatenate((value, value[..., back, :] * _IN_MIRROR), axis=-2)
        else:
            found[name] = np.concatenate((value, value[..., back]), axis=-1)
    return PairSolution(**found)


def solve_converged(
    ready: PreparedHubs, *, end_play: Array, load: npt.ArrayLike, hub: Integers
) -> PairSolution:
    """Solve the cases that `end_play`, `load` and `hub` broadcast to.

    Raises:
        NotConverged: no balance of forces was found.
    """
    solution = solve_prepared(ready, end_play=end_play + 0.0 * hub, load=load, hub=hub)
    if not solution.converged.all():
        raise NotConverged("no balance of forces was found for this hub and load")
    return solution


@lru_cache(maxsize=128)
def _prepare_positions(*pairs: Pair) -> PreparedHubs:
    """Return `wheel_positions` prepared for solving."""
    return PreparedHubs.of(wheel_positions(*pairs))


def _advance_balls(row: RowArrays, angle: Array) -> RowArrays:
    """Return a row whose balls have moved on by each `angle` [rad]."""
    return row._replace(phase=row.phase + angle)


def select_case(solution: PairSolution, case: int) -> PairSolution:
    """Return one case of a solution: every field without its first axis."""

    def row(state: RowState) -> RowState:
        return RowState(**{field.name: getattr(state, field.name)[case] for field in fields(state)})

    picked: dict[str, Any] = {field.name: getattr(solution, field.name) for field in fields(solution)}
    for name, value in picked.items():
        picked[name] = row(value) if isinstance(value, RowState) else value[case]
    return PairSolution(**picked)
