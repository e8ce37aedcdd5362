"""How deep a ball sits in the dents of a race: the dent's shape, rounded off by the width of the contact."""

from math import cos

import numpy as np
from scipy.special import roots_gegenbauer

from conemodel.base.units import Array
from conemodel.parts.bearing import Dents, Row
from conemodel.solve.equilibrium.row_contacts import Race, contact_of

NODES = 16
"""Points of the mean over the contact's width; a dent bridged four times over is still met by three of them."""

_AT, _SHARE = (np.asarray(part) for part in roots_gegenbauer(NODES, 1.5))
_SHARE = _SHARE / _SHARE.sum()


def dents_of_races(row: Row) -> tuple[tuple[Race, Dents], tuple[Race, Dents]]:
    """Return the dents of both races of a row."""
    return ("cone", row.cone_dents), ("cup", row.cup_dents)


def track_radius(row: Row, race: Race) -> float:
    """Return the distance of a race's track from the axle [m]."""
    across = row.ball_diameter / 2 * cos(row.contact_angle)
    return row.pitch_diameter / 2 + (across if race == "cup" else -across)


def contact_half_width(row: Row, race: Race, *, ball_load: float) -> float:
    """Return the half width along the track of the contact of one ball under `ball_load` [N], [m]."""
    return float(contact_of(row, race, ball_load).semi_minor)


def dent_depth(dents: Dents, row: Row, race: Race, *, azimuth: Array, half_width: float) -> Array:
    """Return how far a ball at each `azimuth` (...) on its race [rad] sinks into the dents, (...) [m].

    A dent is d cos²(π s/2L) along the track, s from its middle, and spans the track. A contact `half_width` [m]
    wide feels the mean of it weighted with the contact's own pressure, 3/4 (1 - x²) across its width: the first
    order change of the energy of a contact whose surface has a small hollow (derived, envelope theorem). So a
    dent narrower than the contact is bridged.
    """
    depth = np.zeros_like(azimuth)
    radius = track_radius(row, race)
    reach = dents.half_length + half_width
    for place in dents.places(row.ball_count):
        along = radius * (np.remainder(azimuth - place + np.pi, 2 * np.pi) - np.pi)
        near = np.abs(along) < reach
        depth[near] += (_hollow(dents, along[near, None] + half_width * _AT) * _SHARE).sum(axis=-1)
    return depth


def _hollow(dents: Dents, along: Array) -> Array:
    """Return the depth of one dent at distances `along` the track from its middle [m]."""
    inside = np.abs(along) < dents.half_length
    shape = np.cos(np.pi * along / (2 * dents.half_length)) ** 2
    return np.asarray(np.where(inside, dents.depth * shape, 0.0))
