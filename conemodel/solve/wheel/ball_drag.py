"""What it takes to turn the assembled bearing, part by part."""

from dataclasses import dataclass
from functools import lru_cache
from math import tan

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair, Row
from conemodel.physics import hertz
from conemodel.physics.friction import angular_contact_f1, palmgren_load, spinning_moment
from conemodel.physics.rating import iso76_thrust_f0, static_axial_rating
from conemodel.solve.equilibrium.pair import PairSolution, RowState
from conemodel.solve.equilibrium.row_contacts import contact_of

SPIN_FRICTION = 0.15
"""Most friction of a ball spinning in its groove [-]: what a bearing maker's catalogue takes, greased steel, slow."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadDrag:
    """Torque that comes from load, both rows together; shapes follow the solution's.

    Two accounts of one friction, never added. The published factor was measured on whole bearings, so that it holds
    rolling, sliding and spin: it is what is reckoned with. The balls' spin alone, at the most friction it may have,
    is its check and the upper edge of its band.

    Attributes:
        torque: the published load part [N·m].
        spinning: balls spinning about their contact normals, by itself [N·m].
    """

    torque: Array
    spinning: Array

    @property
    def upper(self) -> Array:
        """Upper edge of the band of `torque`, its lower edge [N·m]: wider the closer the grooves."""
        return np.maximum(self.torque, self.spinning)


def load_drag(pair: Pair, solution: PairSolution) -> LoadDrag:
    """Return the turning torque that the ball loads of a solution make.

    Source: [Palmgren1959] for the load part, [HarrisKotzalas2007] for spinning.
    """
    rows = ((pair.left, solution.left), (pair.right, solution.right))
    return LoadDrag(
        torque=sum((_load_part(row, state) for row, state in rows), np.zeros(())),
        spinning=sum((_spinning(row, state) for row, state in rows), np.zeros(())),
    )


def _load_part(row: Row, state: RowState) -> Array:
    """Return the load part of one row [N·m]: the friction load is 0.9 Fa cot α - 0.1 Fr, at least Fr."""
    axial, radial = row_forces(row, state)
    axial = np.abs(axial)  # so loose that the balls lean the other way, a row rubs all the same
    load = np.maximum(0.9 * axial / tan(row.contact_angle) - 0.1 * radial, radial)
    static_load = axial + 2.3 * radial * tan(row.contact_angle)
    f1 = angular_contact_f1(static_ratio=static_load / _static_rating(row))
    torque: Array = np.asarray(palmgren_load(f1=f1, load=load, pitch_diameter=row.pitch_diameter))
    return torque


def _spinning(row: Row, state: RowState) -> Array:
    """Return the spinning part of one row [N·m]: Ms sin α of every ball, spinning on the cone."""
    shape = _cone_ellipse(row)
    semi_major = shape.semi_major * np.cbrt(state.ball_load)
    moment = spinning_moment(
        friction=SPIN_FRICTION,
        load=state.ball_load,
        semi_major=semi_major,
        ellipticity=shape.semi_major / shape.semi_minor,
    )
    torque: Array = (moment * np.abs(np.sin(state.contact_angle))).sum(axis=-1)
    return torque


def row_forces(row: Row, state: RowState) -> tuple[Array, Array]:
    """Return the axial and the radial force of one row [N]; the row's balls on the last axis of `state`."""
    azimuth = 2 * np.pi * np.arange(row.ball_count) / row.ball_count
    across = state.ball_load * np.cos(state.contact_angle)
    axial: Array = (state.ball_load * np.sin(state.contact_angle)).sum(axis=-1)
    # the phase turns the pattern and the sums alike, so it may be left out of a magnitude
    radial: Array = np.abs((across * np.exp(1j * azimuth)).sum(axis=-1))
    return axial, radial


@lru_cache(maxsize=128)
def _cone_ellipse(row: Row) -> hertz.PointContact:
    """Return the contact on the cone under one newton; sizes grow with the cube root of the load."""
    return contact_of(row, "cone", 1.0)


@lru_cache(maxsize=128)
def _static_rating(row: Row) -> float:
    """Return the static axial rating of one row [N], from the pressure that defines it.

    Source: [ISO76]
    """
    f0 = iso76_thrust_f0(
        gamma=row.gamma,
        cone_conformity=row.cone_conformity,
        cup_conformity=row.cup_conformity,
    )
    rating = static_axial_rating(
        f0=f0, ball_count=row.ball_count, ball_diameter=row.ball_diameter, contact_angle=row.contact_angle
    )
    return float(rating)
