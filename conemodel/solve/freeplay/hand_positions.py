"""The free play a hand finds at the rim and at the axle end, mean over where the balls stand."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from conemodel.base.batch_cache import Remembered
from conemodel.base.monotone_cubic import Curve, last_zero
from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.solve.equilibrium.arrays import HubArrays, arrays_of_pairs
from conemodel.solve.equilibrium.unloaded import stiff
from conemodel.solve.equilibrium.wheel_positions import are_even, touching_end_play, turned_hubs
from conemodel.solve.freeplay.free_play import axle_end_direction, free_plays, rim_direction

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


class Place(NamedTuple):
    """Where a hand feels for play: a hub whose axle and shell do not give, and the way the place moves (5,)."""

    pair: Pair
    way: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FeltCurve:
    """Free play at one place over end play: `end_play` (n,) [m], `play` (n,) [m]; both rise.

    `read` is a cubic between each two of them.
    """

    end_play: Array
    play: Array
    read: Curve

    def end_play_at(self, play: float) -> float:
        """Return the end play at which the place has a free play above 0 [m]; the last one where it never has."""
        return float(end_plays_at((self,), np.array([play]))[0])

    def play_at(self, end_play: Array) -> Array:
        """Return the free play for end plays up to the curve's last [m]; below its first there is none."""
        return self.read.at(np.maximum(end_play, self.end_play[0]))


def end_plays_at(curves: Sequence[FeltCurve], play: Array) -> Array:
    """Return `FeltCurve.end_play_at` for each of `curves` (h,), of equally many points, and its `play` (h,) [m]."""
    x, height, slope = (
        np.stack(field, axis=-1) for field in zip(*(curve.read for curve in curves), strict=True)
    )
    return np.where(play >= height[-1], x[-1], last_zero(x, height - play, slope))


def felt_play(pair: Pair, end_play: Array, *, rim_radius: float, axle_arm: float) -> tuple[Array, Array]:
    """Return the free play at the rim and at the axle end for each end play (n,), stop to stop [m].

    `rim_radius` and `axle_arm`, the axle end's distance from mid-span, in [m]. Each is worked out for itself;
    `read_play` reads the same from curves.
    """
    ways = np.stack((rim_direction(rim_radius), axle_end_direction(axle_arm)))
    ends, back = np.unique(end_play, return_inverse=True)  # stages often share an end play
    rim, axle_end = _mean_play((pair, pair), np.stack((ends, ends)), ways)[0]
    return rim[back], axle_end[back]


def read_play(pair: Pair, end_play: Array, *, rim_radius: float, axle_arm: float) -> tuple[Array, Array]:
    """Return what `felt_play` does, read from the hub's curves as far as they go."""
    rim, axle_end = felt_curve(pair, rim_radius), axle_end_curve(pair, axle_arm)
    last = rim.end_play[-1]
    beyond = end_play > last
    found = rim.play_at(np.minimum(end_play, last)), axle_end.play_at(np.minimum(end_play, last))
    if beyond.any():
        far = felt_play(pair, end_play[beyond], rim_radius=rim_radius, axle_arm=axle_arm)
        for place, value in zip(found, far, strict=True):
            place[beyond] = value
    return found


def felt_curve(pair: Pair, rim_radius: float) -> FeltCurve:
    """Return free play at the rim of `rim_radius` [m] against end play."""
    return place_curves.one(rim_of(pair, rim_radius))


def axle_end_curve(pair: Pair, axle_arm: float) -> FeltCurve:
    """Return free play at the axle end, `axle_arm` from mid-span [m], against end play."""
    return place_curves.one(axle_end_of(pair, axle_arm))


@lru_cache(maxsize=128)
def rim_of(pair: Pair, rim_radius: float) -> Place:
    """Return the rim of `rim_radius` [m] on a hub as a place to feel."""
    return Place(stiff(pair), tuple(rim_direction(rim_radius).tolist()))


@lru_cache(maxsize=128)
def axle_end_of(pair: Pair, axle_arm: float) -> Place:
    """Return the axle end of a hub, `axle_arm` from mid-span [m], as a place to feel."""
    return Place(stiff(pair), tuple(axle_end_direction(axle_arm).tolist()))


def _place_curves(places: Sequence[Place]) -> list[FeltCurve]:
    """Return free play at each of `places` against end play; their hubs are all sound or none is."""
    pairs = [place.pair for place in places]
    even = are_even(pairs)
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


def _through(end_play: Array, play: Array, slope: Array) -> FeltCurve:
    """Return the curve through points (n,) with a `slope`, held so low that it rises everywhere.

    A cubic between two points surely rises where both slopes are below three times that of the line through them.
    Source: [FritschCarlson1980]
    """
    rise = 3 * np.diff(play) / np.diff(end_play)
    held = np.minimum(slope, np.minimum(np.append(rise, np.inf), np.insert(rise, 0, np.inf)))
    return FeltCurve(end_play=end_play, play=play, read=Curve(end_play, play, held))


place_curves = Remembered(_place_curves, size=128)
"""Free play at places against end play."""


def _mean_play(pairs: Sequence[Pair], end_play: Array, ways: Array) -> tuple[Array, Array]:
    """Return the free play of each pair (p,) along its way (p, 5) at each of its end plays (p, n) [m], and its slope.

    Both are the mean over where the balls stand, (p, n).
    """
    hubs = arrays_of_pairs(pairs)
    if are_even(pairs):
        pitch = 2 * np.pi / max(pairs[0].left.ball_count, pairs[0].right.ball_count)
        azimuths, weights = _azimuths(hubs, ways, pitch)
        turned = rotated(ways, azimuths)
        found = free_plays(hubs, end_play=end_play[:, None], direction=turned[:, :, None])
        travel, slope = (np.average(part, axis=1, weights=weights) for part in (found.travel, found.slope))
        return travel, slope
    turns = np.tile(2 * np.pi * np.arange(TURNS) / TURNS, len(pairs))
    each = np.repeat(np.arange(len(pairs)), TURNS)
    found = free_plays(
        turned_hubs(hubs.part(each), turns), end_play=end_play[each], direction=ways[each, None]
    )
    travel, slope = (part.reshape(len(pairs), TURNS, -1).mean(axis=1) for part in (found.travel, found.slope))
    return travel, slope


def _azimuths(hubs: HubArrays, ways: Array, pitch: float) -> tuple[Array, Array]:
    """Return by how much to turn each way (p, 5) to look all over a ball pitch [rad], and the weights of these looks.

    Ways of the rim and the axle end lie in a plane through the axle. Turned to where an upright hub has a ball,
    the two halves of the pitch are each other's mirror image, and one of them is enough.
    """
    azimuths, weights = pitch * np.arange(AZIMUTHS) / AZIMUTHS, np.ones(AZIMUTHS)
    alike = hubs.left.ball_count == hubs.right.ball_count
    if not (alike and hubs.upright) or ways[:, [1, 4]].any():
        return azimuths, weights
    half = AZIMUTHS // 2 + 1
    weights[1 : half - 1] = 2
    return azimuths[:half] - np.pi / 2, weights[:half]


def rotated(direction: Array, azimuth: Array) -> Array:
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
