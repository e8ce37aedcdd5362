"""The hub that is put into the hand in pairs: how it rocks and turns over its cone, and the cone for a difference."""

from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.scenario import Scenario
from conemodel.solve.equilibrium.pair import solve_pair
from conemodel.solve.freeplay.free_play import rim_direction
from conemodel.solve.stages.terms import pair_of
from conemodel.solve.wheel.hub_drag import TWIRL_SPEED, grease_torque
from conemodel.tasks.setting.scenario_tables import tables_for

PUSH = 30.0
"""Largest force of the rocking curve at the rim, each way [N]."""

STEPS = 2000
"""Points over which a curve is read backwards: a few hundredths of a degree of cone each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeltHub:
    """A sound hub as hands meet it, over the turn of its cone.

    Attributes:
        out: turn of the cone outward from first touch (n,) [rad], rising from 0; play: at the rim (n,) [m].
        inward: turn inward from first touch (m,) [rad], rising from 0; torque: of the twirled axle (m,) [N·m].
        force, movement: of the rim without free play, bearing alone (k,) [N, m].
        flex: of wheel and spokes at the rim [N/m]; mass: of what a hand there moves [kg].
    """

    out: Array
    play: Array
    inward: Array
    torque: Array
    force: Array
    movement: Array
    flex: float
    mass: float

    def turn_for_play(self, play: float) -> float:
        """Return how far out of first touch the cone stands for a free play at the rim [m] [rad]."""
        return float(np.interp(play, self.play, self.out))

    def turn_for_torque(self, torque: float) -> float:
        """Return how far in from first touch the cone stands for a torque of the twirled axle [N·m] [rad]."""
        return float(np.interp(torque, self.torque, self.inward))

    def rocking(self, play: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Return movement [m] and force [N] at the rim with a free play [m]; force 0 stands twice, at both its ends."""
        below, above = self.force <= 0, self.force >= 0
        movement = np.concatenate((self.movement[below] - play / 2, self.movement[above] + play / 2))
        force = np.concatenate((self.force[below], self.force[above]))
        return tuple(movement.tolist()), tuple(force.tolist())


def felt_hub(scenario: Scenario) -> FeltHub:
    """Return a scenario's hub as hands meet it; its own setting does not matter.

    Raises:
        NotConverged: no balance of forces was found.
    """
    tables, lead, wheel = tables_for(scenario), scenario.axle.lead_per_radian, scenario.wheel
    loose = np.linspace(0.0, tables.rim_play.x[-1], STEPS)
    tight = np.linspace(0.0, tables.unloaded.torque.x[0], STEPS)
    always = float(grease_torque(scenario, speed=TWIRL_SPEED)) + scenario.condition.seal_torque
    force = np.linspace(-PUSH, PUSH, 13)
    place = rim_direction(wheel.rim_radius)
    springy = solve_pair(pair_of(scenario), end_play=0.0, load=force[:, None] * place).shell_motion @ place
    return FeltHub(
        out=loose / lead,
        play=tables.rim_play.at(loose),
        inward=-tight / lead,
        torque=always + tables.unloaded.torque.at(tight),
        force=force,
        movement=np.where(force == 0, 0.0, np.maximum.accumulate(springy)),
        flex=wheel.side_stiffness,
        mass=wheel.rim_mass / 2,
    )
