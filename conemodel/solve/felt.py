"""The free play a hand finds at the rim and at the axle end, mean over where the balls stand."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.interpolate import PchipInterpolator

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.solve.free_play import axle_end_direction, free_play, rim_direction
from conemodel.solve.positions import is_even, touching_end_play, turned_pair

AZIMUTHS = 4
"""Directions over one ball pitch looked at in a sound hub; the same as turning the balls under one direction."""

TURNS = 8
"""Positions over one turn of the wheel looked at in a hub whose cups or balls are not alike."""

CURVE_END = 0.4e-3
"""Loosest end play of the curves of felt play [m]; looser hubs are worked out one by one."""

CURVE_START = -0.05e-3
"""Tightest end play at which a hub whose cups or balls are not alike may still rock somewhere [m]."""

CURVE_POINTS = 20
"""Points of a sound hub's curve: between them it is off by less than a ten-thousandth of the play."""

UNEVEN_POINTS = 46
"""Points of the curve of a hub whose play begins in one place before the others: off by some micrometres."""

Place = tuple[float, float, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class FeltCurve:
    """Free play at one place over end play: `end_play` (n,) [m], `play` (n,) [m]; both rise.

    `read` is the monotone cubic through them.
    """

    end_play: Array
    play: Array
    read: PchipInterpolator

    def end_play_at(self, play: float) -> float:
        """Return the end play at which the place has a free play above 0 [m]; the last one where it never has."""
        loose = np.maximum.accumulate(self.play)
        if play >= loose[-1]:
            return float(self.end_play[-1])
        first = max(int(np.argmax(loose > 0.0)) - 1, 0)
        rising, at = np.unique(loose[first:], return_index=True)
        return float(PchipInterpolator(rising, self.end_play[first:][at])(play))

    def play_at(self, end_play: Array) -> Array:
        """Return the free play for end plays up to the curve's last [m]; below its first there is none."""
        return np.asarray(self.read(np.maximum(end_play, self.end_play[0])))


def felt_play(pair: Pair, end_play: Array, *, rim_radius: float, axle_arm: float) -> tuple[Array, Array]:
    """Return the free play at the rim and at the axle end for each end play (n,), stop to stop [m].

    `rim_radius` and `axle_arm`, the axle end's distance from mid-span, in [m]. Each is worked out for itself;
    `read_play` reads the same from curves.
    """
    places = np.stack((rim_direction(rim_radius), axle_end_direction(axle_arm)))
    ends, back = np.unique(end_play, return_inverse=True)  # stages often share an end play
    rim, axle_end = _mean_play(pair, ends, places)
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
    return _place_curve(_stiff(pair), tuple(rim_direction(rim_radius).tolist()))


def axle_end_curve(pair: Pair, axle_arm: float) -> FeltCurve:
    """Return free play at the axle end, `axle_arm` from mid-span [m], against end play."""
    return _place_curve(_stiff(pair), tuple(axle_end_direction(axle_arm).tolist()))


def _stiff(pair: Pair) -> Pair:
    """Return the pair without its axial give: without force nothing gives, so hubs alike but for that share curves."""
    return pair.replace(axial_compliance=0.0)


@lru_cache(maxsize=128)
def _place_curve(pair: Pair, place: Place) -> FeltCurve:
    """Return free play along `place` against end play."""
    if is_even(pair):
        ends = CURVE_END * np.linspace(0.0, 1.0, CURVE_POINTS) ** 2
    else:
        ends = np.linspace(CURVE_START, CURVE_END, UNEVEN_POINTS)
    ends = ends + touching_end_play(pair)
    play = _mean_play(pair, ends, np.array(place)[None])[0]
    return FeltCurve(end_play=ends, play=play, read=PchipInterpolator(ends, play))


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
