"""How the balls of a row touch its races: curvature, and the contact under a load."""

from typing import Literal

from conemodel.base.units import Floats
from conemodel.parts.bearing import Row
from conemodel.physics import hertz
from conemodel.physics.race_curvature import Curvature, cone_curvature, cup_curvature

Race = Literal["cone", "cup"]


def curvature_of(row: Row, race: Race) -> Curvature:
    """Return the relative curvature of ball and race."""
    size = {"ball_diameter": row.ball_diameter, "gamma": row.gamma}
    if race == "cone":
        return cone_curvature(conformity=row.cone_conformity, **size)
    return cup_curvature(conformity=row.cup_conformity, **size)


def contact_of(row: Row, race: Race, load: Floats) -> hertz.PointContact:
    """Return the contact of a ball under `load` (...) [N] with a race."""
    modulus = hertz.equivalent_modulus(young=row.young, poisson=row.poisson)
    return hertz.contact(load=load, curvature=curvature_of(row, race), modulus=modulus)
