"""The free play a hand finds at the rim and at the axle end, mean over where the balls stand."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.interpolate import PchipInterpolator

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.solve.free_play import axle_end_direction, free_play, rim_direction
from conemodel.solve.positions import is_even, turned_pair

AZIMUTHS = 4
"""Directions over one ball pitch looked at in a sound hub; the same as turning the balls under one direction."""

TURNS = 8
"""Positions over one turn of the wheel looked at in a hub whose cups or balls are not alike."""

CURVE_END = 0.25e-3
"""Loosest end play of the curve of felt play [m]."""

CURVE_POINTS = 12
"""Points of that curve."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeltCurve:
    """Free play at the rim over end play: `end_play` (n,) [m], `rim_play` (n,) [m]; both rise."""

    end_play: Array
    rim_play: Array

    def end_play_at(self, rim_play: float) -> float:
        """Return the end play at which the rim has a free play above 0 [m]; the last one where it never has."""
        loose = np.maximum.accumulate(self.rim_play)
        if rim_play >= loose[-1]:
            return float(self.end_play[-1])
        first = max(int(np.argmax(loose > 0.0)) - 1, 0)
        rising, at = np.unique(loose[first:], return_index=True)
        return float(PchipInterpolator(rising, self.end_play[first:][at])(rim_play))


def felt_play(pair: Pair, end_play: Array, *, rim_radius: float, axle_arm: float) -> tuple[Array, Array]:
    """Return the free play at the rim and at the axle end for each end play (n,), stop to stop [m].

    `rim_radius` and `axle_arm`, the axle end's distance from mid-span, in [m].
    """
    places = np.stack((rim_direction(rim_radius), axle_end_direction(axle_arm)))
    ends, back = np.unique(end_play, return_inverse=True)  # stages often share an end play
    rim, axle_end = _mean_play(pair, ends, places)
    return rim[back], axle_end[back]


def felt_curve(pair: Pair, rim_radius: float) -> FeltCurve:
    """Return free play at the rim of `rim_radius` [m] against end play; without force, nothing gives axially."""
    return _felt_curve(pair.replace(axial_compliance=0.0), rim_radius)


@lru_cache(maxsize=64)
def _felt_curve(pair: Pair, rim_radius: float) -> FeltCurve:
    """Return the curve of a pair that does not give."""
    ends = CURVE_END * np.linspace(-0.2, 1.0, CURVE_POINTS) if not is_even(pair) else _sound_ends()
    return FeltCurve(end_play=ends, rim_play=_mean_play(pair, ends, rim_direction(rim_radius)[None])[0])


def _sound_ends() -> Array:
    """Return the points of a sound hub's curve, closest where play begins."""
    ends: Array = CURVE_END * np.linspace(0.0, 1.0, CURVE_POINTS) ** 2
    return ends


def _mean_play(pair: Pair, end_play: Array, places: Array) -> Array:
    """Return the free play (p, n) at `places` (p, 5), mean over where the balls stand [m]."""
    if is_even(pair):
        pitch = 2 * np.pi / max(pair.left.ball_count, pair.right.ball_count)
        ways = rotated(places, pitch * np.arange(AZIMUTHS) / AZIMUTHS)
        travel = free_play(pair, end_play=end_play, direction=ways[:, :, None]).travel
        return np.asarray(travel.mean(axis=1))
    turns = 2 * np.pi * np.arange(TURNS) / TURNS
    each = [
        free_play(turned_pair(pair, turn), end_play=end_play, direction=places[:, None]).travel
        for turn in turns
    ]
    return np.asarray(np.mean(each, axis=0))


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
