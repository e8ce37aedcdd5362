"""What turning the whole hub takes: load, grease and seals, each by itself."""

from dataclasses import dataclass
from math import pi

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.parts.scenario import Scenario
from conemodel.physics.friction import palmgren_viscous
from conemodel.solve.equilibrium.pair import PairSolution
from conemodel.solve.wheel.ball_drag import load_drag

GREASE_F0 = 2.0
"""Lubricant factor of an angular contact row with ordinary grease [-], from memory. Source: [HarrisKotzalas2007]"""

GREASE_FACTOR = {"fresh": 3.0, "worn": 1.0, "dry": 15.0}
"""How many times the grease part is that of worn-in grease [-]. Fresh: 2 to 5 in engineering manuals (seen),
their middle on a ratio scale; dry, its oil gone and the soap left stiff: an assumption, no source."""

TWIRL_SPEED = 2 * pi
"""Speed of an axle twirled in the fingers, a turn a second [rad/s]. Assumption."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HubDrag:
    """Turning torque of the assembled hub in parts that add up; shapes broadcast.

    Attributes:
        load: from load on the balls [N·m]; load_upper: upper edge of its band, see `LoadDrag`.
        grease: moving the grease [N·m].
        seals: rubbing of the seals [N·m].
    """

    load: Array
    load_upper: Array
    grease: Array
    seals: Array

    @property
    def total(self) -> Array:
        """All parts together [N·m]."""
        return self.load + self.grease + self.seals

    @property
    def total_upper(self) -> Array:
        """All parts together, the load part at the upper edge of its band [N·m]."""
        return self.load_upper + self.grease + self.seals

    def mean(self) -> "HubDrag":
        """Return the mean of each part over the last axis, the wheel's positions or turns."""
        load = np.asarray(self.load.mean(axis=-1))
        return HubDrag(
            load=load,
            load_upper=np.asarray(self.load_upper.mean(axis=-1)),
            grease=np.broadcast_to(self.grease, load.shape),
            seals=np.broadcast_to(self.seals, load.shape),
        )


def hub_drag(scenario: Scenario, pair: Pair, solution: PairSolution, *, speed: npt.ArrayLike) -> HubDrag:
    """Return the turning torque of a hub whose balls carry what `solution` says, at `speed` (...) [rad/s].

    The load parts have the shape of the solution without its balls, the grease part that of `speed`.
    """
    load = load_drag(pair, solution)
    return HubDrag(
        load=load.torque,
        load_upper=load.upper,
        grease=grease_torque(scenario, speed=speed),
        seals=np.asarray(scenario.condition.seal_torque),
    )


def grease_torque(scenario: Scenario, *, speed: npt.ArrayLike) -> Array:
    """Return the torque of the grease in both rows at `speed` (...) [rad/s], whatever the load [N·m].

    Source: [Palmgren1959]; the factor for the state of the grease is `GREASE_FACTOR`.
    """
    condition = scenario.condition
    each = (
        palmgren_viscous(
            f0=GREASE_F0 * GREASE_FACTOR[condition.grease],
            viscosity_speed=condition.oil_viscosity * np.abs(np.asarray(speed, dtype=np.float64)),
            pitch_diameter=row.pitch_diameter,
        )
        for row in (scenario.hub.left, scenario.hub.right)
    )
    return np.asarray(sum(each))
