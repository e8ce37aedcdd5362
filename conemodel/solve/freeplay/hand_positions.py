"""The free play a hand finds at the rim and at the axle end, mean over where the balls stand."""

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from conemodel.base.monotone_cubic import MonotoneCubic, find_last_zero
from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.solve.equilibrium.arrays import HubArrays, arrays_of_pairs
from conemodel.solve.equilibrium.unloaded import stiffen
from conemodel.solve.equilibrium.wheel_positions import are_uniform, touching_end_play, turn_hubs
from conemodel.solve.freeplay.free_play import axle_end_direction, rim_direction, solve_free_plays

AZIMUTHS = 4
"""Directions over one ball pitch looked at in a sound hub; the same as turning the balls under one direction."""

TURNS = 8
"""Positions over one turn of the wheel looked at in a hub whose cups or balls are not alike."""

CURVE_END = 0.4e-3
"""Loosest end play of the curves of felt play [m]; looser hubs are worked out one by one."""

CURVE_START = -0.05e-3
"""Tightest end play at which a hub whose cups or balls are not alike may still rock somewhere [m]."""

CURVE_POINTS = 13
"""Points of a sound hub's curve: with its slopes it is off by some ten-thousandths of the play between them."""

CURVE_BEGIN = 1e-7
"""End play at which the slope of a sound hub's play is taken where the play begins [m]."""

UNEVEN_POINTS = 46
"""Points of the curve of a hub whose play begins in one place before the others: off by some micrometres."""


AXIAL = (1.0, 0.0, 0.0, 0.0, 0.0)
"""Direction of the shell moving along the axle."""


class HandPosition(NamedTuple):
    """Where a hand feels for play: a hub with a rigid axle and shell, and the direction in which it moves (5,)."""

    pair: Pair
    way: tuple[float, ...]


def end_plays_at(curves: Sequence[MonotoneCubic], play: Array) -> Array:
    """Return the end play [m] at which each place has its `play` (h,) above 0 [m], the last one where it never has.

    `curves` (h,) are free play over end play, of equally many points.
    """
    x, height, slope = (np.stack(field, axis=-1) for field in zip(*curves, strict=True))
    return np.where(play >= height[-1], x[-1], find_last_zero(x, height - play, slope))


def solve_felt_play(
    pair: Pair, end_play: Array, *, rim_radius: float, axle_arm: float
) -> tuple[Array, Array]:
    """Return the free play at the rim and at the axle end for each end play (n,), stop to stop [m].

    `rim_radius` and `axle_arm`, the axle end's distance from mid-span, in [m]. Each is worked out for itself;
    `HubTables.play_at` reads the same from curves.
    """
    ways = np.stack((rim_direction(rim_radius), axle_end_direction(axle_arm)))
    ends, back = np.unique(end_play, return_inverse=True)  # stages often share an end play
    rim, axle_end = _mean_play((pair, pair), np.stack((ends, ends)), ways)[0]
    return rim[back], axle_end[back]


def solve_axial_play(pair: Pair, end_play: Array) -> Array:
    """Return how far the shell moves along the axle without force at each end play (n,), stop to stop [m].

    That is the end play itself in a hub whose rows are true; less in one whose cones lean.
    """
    return np.asarray(_mean_play((pair,), np.asarray(end_play)[None], np.array([AXIAL]))[0][0])


@lru_cache(maxsize=128)
def rim_position(pair: Pair, rim_radius: float) -> HandPosition:
    """Return the rim of `rim_radius` [m] on a hub as a place to feel."""
    return HandPosition(stiffen(pair), tuple(rim_direction(rim_radius).tolist()))


@lru_cache(maxsize=128)
def axle_end_position(pair: Pair, axle_arm: float) -> HandPosition:
    """Return the axle end of a hub, `axle_arm` from mid-span [m], as a place to feel."""
    return HandPosition(stiffen(pair), tuple(axle_end_direction(axle_arm).tolist()))


def play_curves(places: Sequence[HandPosition]) -> list[MonotoneCubic]:
    """Return free play at each of `places` over end play [m]; both rise. Their hubs are all sound or none is."""
    pairs = [place.pair for place in places]
    even = are_uniform(pairs)
    ends = CURVE_END * np.linspace(0.0, 1.0, CURVE_POINTS) ** 2
    if even:
        ends[0] = CURVE_BEGIN
    else:
        ends = np.linspace(CURVE_START, CURVE_END, UNEVEN_POINTS)
    touching = np.array([touching_end_play(pair) for pair in pairs])[:, None]
    play, slope = _mean_play(pairs, ends + touching, np.array([place.way for place in places]))
    if even:
        ends[0] = play[:, 0] = 0.0
    return [_through(*curve) for curve in zip(ends + touching, play, slope, strict=True)]


def _through(end_play: Array, play: Array, slope: Array) -> MonotoneCubic:
    """Return the curve through points (n,) with a `slope`, held so low that it rises everywhere.

    A cubic between two points surely rises where both slopes are below three times that of the line through them.
    Source: [FritschCarlson1980]
    """
    rise = 3 * np.diff(play) / np.diff(end_play)
    held = np.minimum(slope, np.minimum(np.append(rise, np.inf), np.insert(rise, 0, np.inf)))
    return MonotoneCubic(end_play, play, held)


def _mean_play(pairs: Sequence[Pair], end_play: Array, ways: Array) -> tuple[Array, Array]:
    """Return the free play of each pair (p,) along its way (p, 5) at each of its end plays (p, n) [m], and its slope.

    Both are the mean over where the balls stand, (p, n).
    """
    hubs = arrays_of_pairs(pairs)
    if are_uniform(pairs):
        pitch = 2 * np.pi / max(pairs[0].left.ball_count, pairs[0].right.ball_count)
        azimuths, weights = _azimuths(hubs, ways, pitch)
        turned = rotate_directions(ways, azimuths)
        found = solve_free_plays(hubs, end_play=end_play[:, None], direction=turned[:, :, None])
        travel, slope = (np.average(part, axis=1, weights=weights) for part in (found.travel, found.slope))
        return travel, slope
    turns = np.tile(2 * np.pi * np.arange(TURNS) / TURNS, len(pairs))
    each = np.repeat(np.arange(len(pairs)), TURNS)
    found = solve_free_plays(
        turn_hubs(hubs.select(each), turns), end_play=end_play[each], direction=ways[each, None]
    )
    travel, slope = (part.reshape(len(pairs), TURNS, -1).mean(axis=1) for part in (found.travel, found.slope))
    return travel, slope


def _azimuths(hubs: HubArrays, ways: Array, pitch: float) -> tuple[Array, Array]:
    """Return the turns of each direction (p, 5) that sample a ball pitch [rad], and their weights, both (m,).

    Directions of the rim and the axle end lie in a plane through the axle. Turned to a ball of a mirror symmetric
    hub, the two halves of a ball pitch are reflections of each other: one half is solved, with double weight.
    """
    azimuths, weights = pitch * np.arange(AZIMUTHS) / AZIMUTHS, np.ones(AZIMUTHS)
    alike = hubs.left.ball_count == hubs.right.ball_count
    if not (alike and hubs.are_upright) or ways[:, [1, 4]].any():
        return azimuths, weights
    half = AZIMUTHS // 2 + 1
    weights[1 : half - 1] = 2
    return azimuths[:half] - np.pi / 2, weights[:half]


def rotate_directions(direction: Array, azimuth: Array) -> Array:
    """Return directions (..., 5) turned about the axle by each `azimuth` (m,) [rad]: (..., m, 5)."""
    x, y, z, tilt_y, tilt_z = (direction[..., None, i] for i in range(5))
    cos, sin = np.cos(azimuth), np.sin(azimuth)
    turned = (
        x + 0 * cos,
        y * cos - z * sin,
        y * sin + z * cos,
        tilt_y * cos - tilt_z * sin,
        tilt_y * sin + tilt_z * cos,
    )
    return np.stack(turned, axis=-1)
