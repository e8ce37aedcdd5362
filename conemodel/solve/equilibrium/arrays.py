"""From parts to plain arrays: both rows of balls of many hubs, and what joins them.

Every array has the cases on its last axis, of length one where all cases share a hub.
"""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array, Floats
from conemodel.parts.bearing import Pair, Row
from conemodel.physics import hertz
from conemodel.physics.race_curvature import Curvature, cone_curvature, cup_curvature


class RowArrays(NamedTuple):
    """One row of Z balls in each of n hubs, or one that all share (n = 1).

    Lengths [m], `contact_angle` and `phase` [rad], conformities [-], `load_constant` [N/m^1.5] and the
    pressures under one newton `cone_unit_pressure`, `cup_unit_pressure` [Pa/N^(1/3)]: (n,) or (1,).
    `ball_oversize` [m]: (Z, n) or (Z, 1); `cone_tilt`, `cup_tilt` about y and z [rad]: (2, n) or (2, 1).
    """

    ball_diameter: Array
    pitch_diameter: Array
    contact_angle: Array
    cone_conformity: Array
    cup_conformity: Array
    phase: Array
    ball_oversize: Array
    cone_tilt: Array
    cup_tilt: Array
    load_constant: Array
    cone_unit_pressure: Array
    cup_unit_pressure: Array

    @property
    def ball_count(self) -> int:
        """Number of balls in the row."""
        return int(self.ball_oversize.shape[0])


class HubArrays(NamedTuple):
    """Both rows and what joins them, in n hubs or in one: `row_spacing` [m], `axial_compliance` [m/N]."""

    left: RowArrays
    right: RowArrays
    row_spacing: Array
    axial_compliance: Array

    @property
    def number(self) -> int:
        """Number of hubs; 1 where all fields hold one value."""
        fields = (*self.left, *self.right, self.row_spacing, self.axial_compliance)
        return max(int(field.shape[-1]) for field in fields)

    @property
    def are_mirror_symmetric(self) -> npt.NDArray[np.bool_]:
        """Whether each hub is its own mirror image, left for right (n,): both rows alike and nothing tilted."""
        found = np.full(self.number, self.left.ball_count == self.right.ball_count)
        if found.any():
            for left, right in zip(self.left, self.right, strict=True):
                found &= (left == right).reshape(-1, left.shape[-1]).all(0)
            for tilt in (self.left.cone_tilt, self.left.cup_tilt):
                found &= (tilt == 0).all(0)
        return found

    @property
    def are_upright(self) -> bool:
        """Whether every hub is mirror symmetric about the plane of its axle and y: like balls, one on y, no tilt."""
        rows = (self.left, self.right)
        still = all((field == 0).all() for row in rows for field in (row.phase, row.cone_tilt, row.cup_tilt))
        return still and all((row.ball_oversize == row.ball_oversize[0]).all() for row in rows)

    def select(self, cases: slice | npt.NDArray[np.int64]) -> "HubArrays":
        """Return some of the hubs, by number; a field with one value keeps it."""

        def cut(field: Array) -> Array:
            return field[..., cases] if field.shape[-1] > 1 else field

        left, right = (RowArrays(*map(cut, row)) for row in (self.left, self.right))
        return HubArrays(left, right, cut(self.row_spacing), cut(self.axial_compliance))


def row_arrays(
    *,
    ball_count: int,
    ball_diameter: Floats,
    pitch_diameter: Floats,
    contact_angle: Floats,
    cone_conformity: Floats,
    cup_conformity: Floats,
    young: Floats,
    poisson: Floats,
    phase: Floats = 0.0,
    ball_oversize: npt.ArrayLike = 0.0,
    cone_tilt: npt.ArrayLike = (0.0, 0.0),
    cup_tilt: npt.ArrayLike = (0.0, 0.0),
) -> RowArrays:
    """Return the arrays of one row in n hubs: SI numbers or arrays (n,), tilts (2, n), oversize (Z, n).

    Contact constants are exact Hertz at the just touching contact angle, both contacts in series.
    """
    gamma = ball_diameter * np.cos(contact_angle) / pitch_diameter
    modulus = hertz.equivalent_modulus(young=young, poisson=poisson)
    races = (
        cone_curvature(ball_diameter=ball_diameter, conformity=cone_conformity, gamma=gamma),
        cup_curvature(ball_diameter=ball_diameter, conformity=cup_conformity, gamma=gamma),
    )
    both = Curvature(*(np.stack(np.broadcast_arrays(*part)) for part in zip(*races, strict=True)))
    one_newton = hertz.contact(load=1.0, curvature=both, modulus=modulus)
    cone, cup = np.asarray(one_newton.approach) ** -1.5  # K of Q = K δ^1.5
    pressures = np.asarray(one_newton.peak_pressure)
    oversize = np.asarray(ball_oversize, dtype=np.float64)
    oversize = oversize[:, None] if oversize.ndim == 1 else oversize
    lengths = (ball_diameter, pitch_diameter, contact_angle, cone_conformity, cup_conformity, phase)
    contacts = (hertz.series_constant(cone=cone, cup=cup), *pressures)
    each = np.array(np.broadcast_to(oversize, (ball_count, oversize.shape[-1] if oversize.ndim else 1)))
    tilts = (np.asarray(tilt, dtype=np.float64).reshape(2, -1) for tilt in (cone_tilt, cup_tilt))
    return RowArrays._make((*map(_flat, lengths), each, *tilts, *map(_flat, contacts)))


@lru_cache(maxsize=256)
def arrays_of_row(row: Row) -> RowArrays:
    """Return the arrays of one `row`, n = 1."""
    return row_arrays(
        ball_count=row.ball_count,
        ball_diameter=row.ball_diameter,
        pitch_diameter=row.pitch_diameter,
        contact_angle=row.contact_angle,
        cone_conformity=row.cone_conformity,
        cup_conformity=row.cup_conformity,
        young=row.young,
        poisson=row.poisson,
        phase=row.phase,
        ball_oversize=row.ball_oversize,
        cone_tilt=row.cone_tilt,
        cup_tilt=row.cup_tilt,
    )


def _side_by_side(rows: Iterable[Row]) -> RowArrays:
    """Return the arrays of n `rows`.

    Raises:
        ValueError: not all have equally many balls.
    """
    each = [arrays_of_row(row) for row in rows]
    if len({row.ball_count for row in each}) != 1:
        raise ValueError("rows solved together must have equally many balls")
    return RowArrays._make(np.concatenate(field, axis=-1) for field in zip(*each, strict=True))


def _flat(value: Floats) -> Array:
    """Return a number or array as an array of one axis."""
    return np.atleast_1d(np.asarray(value, dtype=np.float64))


def arrays_of_pair(pair: Pair) -> HubArrays:
    """Return the arrays of one `pair`, n = 1."""
    return arrays_of_pairs((pair,))


def arrays_of_pairs(pairs: Sequence[Pair]) -> HubArrays:
    """Return the arrays of n `pairs`.

    Raises:
        ValueError: not all have equally many balls.
    """
    return HubArrays(
        _side_by_side(pair.left for pair in pairs),
        _side_by_side(pair.right for pair in pairs),
        row_spacing=np.array([pair.row_spacing for pair in pairs]),
        axial_compliance=np.array([pair.axial_compliance for pair in pairs]),
    )
