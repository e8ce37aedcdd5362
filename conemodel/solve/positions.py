"""Where the balls stand: every number that depends on it is taken over the positions a turning wheel goes through.

A sound hub repeats itself after one ball pitch. A hub with a tilted cup or an odd ball repeats itself only after
whole turns, so more positions are looked at.
"""

from dataclasses import fields
from functools import lru_cache
from typing import Any

import numpy as np
import numpy.typing as npt

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array
from conemodel.parts.bearing import Pair, Row
from conemodel.solve.geometry import HubArrays, RowArrays, arrays_of_pair, arrays_of_row
from conemodel.solve.pair import PairSolution, RowState, solve_hubs

SOUND_POSITIONS = 5
"""Positions over one ball pitch of a sound hub; the two rows run through them at different strides."""

FAULTY_POSITIONS = 24
"""Positions over two turns of the wheel of a hub whose cups or balls are not alike."""


def is_even(pair: Pair) -> bool:
    """Return whether turning the wheel by a ball pitch changes nothing: no tilted cup, no odd ball."""

    def even(row: Row) -> bool:
        return row.cup_tilt == (0.0, 0.0) and not isinstance(row.ball_oversize, tuple)

    return even(pair.left) and even(pair.right)


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
def wheel_positions(pair: Pair) -> HubArrays:
    """Return the pair once for each position looked at; positions lie on the last axis.

    The balls advance by (1 + γ)/2 of the turn of the shell, from pure rolling. Source: [HarrisKotzalas2007]
    """
    hub = arrays_of_pair(pair)
    if is_even(pair):
        step = np.arange(SOUND_POSITIONS) / SOUND_POSITIONS
        left = _advanced(hub.left, 2 * np.pi / pair.left.ball_count * step)
        right = _advanced(hub.right, 2 * np.pi / pair.right.ball_count * (2 * step % 1))
        return hub._replace(left=left, right=right)
    turn = 4 * np.pi * np.arange(FAULTY_POSITIONS) / FAULTY_POSITIONS
    return hub._replace(left=turned(hub.left, turn), right=turned(hub.right, turn))


def turned(row: RowArrays, angle: Array) -> RowArrays:
    """Return a row after the shell has turned by each `angle` (n,) [rad]: the cup with it, the balls by about half."""
    gamma = row.ball_diameter * np.cos(row.contact_angle) / row.pitch_diameter
    cos, sin = np.cos(angle), np.sin(angle)
    about_y, about_z = row.cup_tilt
    tilt = np.stack((about_y * cos - about_z * sin, about_y * sin + about_z * cos))
    return _advanced(row, angle * (1 + gamma) / 2)._replace(cup_tilt=tilt)


def turned_pair(pair: Pair, angle: float) -> Pair:
    """Return a pair after the shell has turned by `angle` [rad], as `turned` does for arrays."""

    def row_after(row: Row) -> Row:
        after = turned(arrays_of_row(row), np.array([angle]))
        about_y, about_z = after.cup_tilt[:, 0]
        return row.replace(phase=float(after.phase[0]), cup_tilt=(float(about_y), float(about_z)))

    return pair.replace(left=row_after(pair.left), right=row_after(pair.right))


def solve_positions(pair: Pair, *, end_play: npt.ArrayLike, load: npt.ArrayLike) -> PairSolution:
    """Solve a pair at every position; like `solve_pair`, with the positions on a further axis after the cases.

    Errors: `NotConverged` where a case found no balance.
    """
    hub = wheel_positions(pair)
    count = hub.number
    ends, loads = np.asarray(end_play, dtype=np.float64), np.asarray(load, dtype=np.float64)
    shape = np.broadcast_shapes(ends.shape, loads.shape[:-1])
    cases = int(np.prod(shape))
    solution = solve_hubs(
        repeated(hub, cases),
        end_play=np.broadcast_to(np.broadcast_to(ends, shape)[..., None], (*shape, count)),
        load=np.broadcast_to(np.broadcast_to(loads, (*shape, 5))[..., None, :], (*shape, count, 5)),
    )
    if not solution.converged.all():
        raise NotConverged("no balance of forces was found for this hub and load")
    return solution


def repeated(hub: HubArrays, times: int) -> HubArrays:
    """Return the hubs of `hub` one after the other, the whole series `times` times."""

    def tile(field: Array) -> Array:
        return np.tile(field, times) if field.shape[-1] > 1 else field

    left, right = (RowArrays(*map(tile, row)) for row in (hub.left, hub.right))
    return HubArrays(left, right, tile(hub.row_spacing), tile(hub.axial_compliance))


def _advanced(row: RowArrays, angle: Array) -> RowArrays:
    """Return a row whose balls have moved on by each `angle` [rad]."""
    return row._replace(phase=row.phase + angle)


def case_of(solution: PairSolution, case: int) -> PairSolution:
    """Return one case of a solution: every field without its first axis."""

    def row(state: RowState) -> RowState:
        return RowState(**{field.name: getattr(state, field.name)[case] for field in fields(state)})

    picked: dict[str, Any] = {field.name: getattr(solution, field.name) for field in fields(solution)}
    for name, value in picked.items():
        picked[name] = row(value) if isinstance(value, RowState) else value[case]
    return PairSolution(**picked)
