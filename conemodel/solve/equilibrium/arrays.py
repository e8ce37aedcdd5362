"""From rows of balls to plain arrays: how far apart the groove centres stand for any motion of the shell.

Cone on the axle, cup in the shell, cones outboard. For a ball at azimuth ψ the vector from the cup's groove
centre to the cone's has an inboard part and a radial part, both linear in the motion of the shell; the ball
is squeezed by as much as its length exceeds the length at which the ball just touches.
Source: [HarrisKotzalas2007], ball bearings under combined load, with the kinematics written out in full.

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

FREEDOMS = 6
"""x, y, z, tilt about y, tilt about z, and the axial deflection of axle and shell."""


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


class PairArrays(NamedTuple):
    """The balls of both rows, left row first, as the energy needs them.

    The unknowns q (6, n) are lengths: x, y, z, both tilts times `lever`, and the axial deflection w over
    `stretch`. So scaled, all are of one size, and a rigid axle needs no infinite stiffness.
    `axial_rate`, `radial_rate` (6, Z, n): change of the groove centre vector per unknown;
    `axial_rest`, `radial_rest` (Z, n): the vector at q = 0 and no end play [m];
    `touch` (Z, n): its length at which the ball just touches [m]; `load_constant` (Z, n) [N/m^1.5];
    `lever` (n,) [m]; `stretch` (n,): root of the axial compliance [(m/N)^0.5].
    """

    axial_rate: Array
    radial_rate: Array
    axial_rest: Array
    radial_rest: Array
    touch: Array
    load_constant: Array
    lever: Array
    stretch: Array

    def of_hubs(self, hub: npt.NDArray[np.int64]) -> "PairArrays":
        """Return the arrays of cases each of which has one of these hubs, `hub` (n,) by number."""
        return PairArrays._make(array.take(hub, -1) for array in self)


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


def pair_arrays(hub: HubArrays) -> PairArrays:
    """Return what the energy needs of `hub`."""
    cases = np.zeros(hub.number)
    spans = (hub.row_spacing / 2 + r.pitch_diameter / 2 * np.tan(r.contact_angle) for r in hub[:2])
    lever = np.maximum(*spans) + cases
    stretch = np.sqrt(hub.axial_compliance) + cases
    rows = [
        _row(row, side=side, half_span=hub.row_spacing / 2, lever=lever, stretch=stretch)
        for side, row in ((-1.0, hub.left), (1.0, hub.right))
    ]
    joined = (np.concatenate(parts, axis=-2) for parts in zip(*rows, strict=True))
    return PairArrays._make((*joined, lever, stretch))


def _row(
    row: RowArrays, *, side: float, half_span: Array, lever: Array, stretch: Array
) -> tuple[Array, Array, Array, Array, Array, Array]:
    """Return rates, rests, touch and load constant of the row on one `side` (+1 is the right)."""
    balls = len(row.ball_oversize)
    psi = row.phase + 2 * np.pi * np.arange(balls)[:, None] / balls
    cos, sin = np.cos(psi), np.sin(psi)
    sin_a, cos_a = np.sin(row.contact_angle), np.cos(row.contact_angle)
    # ball centre to groove centre, along the line of contact
    cup_arm = (row.cup_conformity - 0.5) * row.ball_diameter
    cone_arm = (row.cone_conformity - 0.5) * row.ball_diameter
    cup_radius = row.pitch_diameter / 2 - cup_arm * cos_a
    cone_radius = row.pitch_diameter / 2 + cone_arm * cos_a
    # θ × r: a tilt about y, then z, moves a point at (x, radius) by `swing` along x and `lift` outward
    swing = np.stack((sin + 0 * lever, -cos + 0 * lever))
    lift = np.stack((-sin + 0 * lever, cos + 0 * lever))
    cup_x, cone_x = side * cup_arm * sin_a, -side * cone_arm * sin_a  # from the row's own centre
    one, none = np.ones_like(swing[:1]), np.zeros_like(swing[:1])

    axial_rate = np.concatenate(
        (side * one, none, none, side * cup_radius / lever * swing, -stretch / 2 * one)
    )
    radial_rate = -np.concatenate(
        (none, cos * one, sin * one, (side * half_span + cup_x) / lever * lift, none)
    )
    cup = _tilted(row.cup_tilt[:, None], x=cup_x, radius=cup_radius, swing=swing, lift=lift)
    cone = _tilted(row.cone_tilt[:, None], x=cone_x, radius=cone_radius, swing=swing, lift=lift)
    axial_rest = (cup_arm + cone_arm) * sin_a + side * (cup[0] - cone[0])
    radial_rest = (cup_arm + cone_arm) * cos_a - (cup[1] - cone[1])
    touch = cup_arm + cone_arm - row.ball_oversize + 0 * axial_rest
    return axial_rate, radial_rate, axial_rest, radial_rest, touch, row.load_constant + 0 * touch


def _tilted(tilt: Array, *, x: Array, radius: Array, swing: Array, lift: Array) -> tuple[Array, Array]:
    """Return how far tilting a race moves its groove centres along x and outward, each (Z, n) [m].

    A true rotation by `tilt` (2, 1, n) about y and z: p goes to p + sin θ u × p + (1 - cos θ) u × (u × p). To the
    second order as well: what cones tilted opposite ways take off end play is of that order.

    Args:
        tilt: about y and z [rad].
        x: of the groove centres from the row's own centre [m].
        radius: of the circle they stand on [m].
        swing: how a small turn moves a point at unit radius along x (2, Z, n).
        lift: how it moves a point at unit x outward (2, Z, n).
    """
    angle = np.hypot(*tilt)
    first, second = np.sinc(angle / np.pi), np.sinc(angle / (2 * np.pi)) ** 2 / 2
    leaning, lifted = (tilt * swing).sum(0), (tilt * lift).sum(0)
    along = first * radius * leaning - second * x * angle**2
    outward = first * x * lifted - second * radius * leaning**2
    return along, outward
