"""How the distance of each ball's groove centres follows from the motion of the shell.

Cone on the axle, cup in the shell, cones outboard. For a ball at azimuth ψ the vector from the cup's groove
centre to the cone's has an inboard part and a radial part, both linear in the motion of the shell; the ball
is squeezed by as much as its length exceeds the length at which the ball just touches.
Source: [HarrisKotzalas2007], ball bearings under combined load, with the kinematics written out in full.
"""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.solve.equilibrium.arrays import HubArrays, RowArrays

FREEDOMS = 6
"""x, y, z, tilt about y, tilt about z, and the axial deflection of axle and shell."""


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
