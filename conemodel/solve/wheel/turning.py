"""The bearing over the turning wheel: torque at every angle, from friction and from the elastic energy of the balls.

The elastic torque is the slope of that energy. Where a ball sinks into a dent, or a skew cup squeezes the
balls on one side, the energy of the pair changes as the wheel turns, and the wheel feels its slope as a torque.
Its mean over a period is zero: the energy taken going in is returned coming out.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from conemodel.base.errors import NotConverged
from conemodel.base.units import Array
from conemodel.parts.bearing import Pair, Row
from conemodel.solve.equilibrium.arrays import HubArrays, RowArrays, arrays_of_pair
from conemodel.solve.equilibrium.energy import evaluate
from conemodel.solve.equilibrium.kinematics import pair_arrays
from conemodel.solve.equilibrium.pair import PairSolution, RowState, solve_hubs, solve_pair
from conemodel.solve.equilibrium.row_contacts import Race
from conemodel.solve.equilibrium.unloaded import NO_LOAD
from conemodel.solve.equilibrium.wheel_positions import turn_row
from conemodel.solve.wheel.ball_drag import load_drag
from conemodel.solve.wheel.dents import contact_half_width, dent_depth, dents_of_races

SLOPE_STEP = 1e-6
"""Angle either side over which the slope of the energy is taken, the shell held still [rad]."""

Widths = dict[tuple[str, Race], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Turning:
    """A pair over the angle of its turning shell; every field has shape (n,).

    Attributes:
        angle: of the shell against the axle [rad].
        friction: torque from the ball loads, always against the motion [N·m].
        ripple: elastic torque, taken and returned, above 0 where they hold the wheel back [N·m].
        energy: elastic energy less work of the load [J].
        preload: mean axial force of the two rows [N].
        solution: the balance of forces itself.
    """

    angle: Array
    friction: Array
    ripple: Array
    energy: Array
    preload: Array
    solution: PairSolution

    @property
    def torque(self) -> Array:
        """Both torques together [N·m], (n,)."""
        return self.friction + self.ripple


def turn_wheel(
    pair: Pair,
    *,
    end_play: float,
    angle: npt.ArrayLike,
    load: npt.ArrayLike = NO_LOAD,
) -> Turning:
    """Turn the shell of a pair to each `angle` (n,) [rad] and return the torque it takes.

    The balls move on by (1 + γ)/2 of the angle, dents of a cone stay, those of a cup turn with it. `end_play`
    [m]; `load` (5,) stands still in space [N, N·m]. The slope of the energy is taken at a fixed place of the
    shell, since the energy has no slope in the shell's motion there (envelope theorem, derived).

    Raises:
        NotConverged: no balance of forces is found.
    """
    angles = np.asarray(angle, dtype=np.float64)
    widths = _widths(pair, end_play, np.asarray(load, dtype=np.float64))
    hubs = hubs_at_angles(pair, angles, widths)
    solution = solve_hubs(hubs, end_play=np.full(angles.size, end_play), load=load)
    if not solution.converged.all():
        raise NotConverged("no balance of forces was found as the wheel turns")
    return Turning(
        angle=angles,
        friction=load_drag(pair, solution).torque,
        ripple=_slope(pair, angles, widths, solution, end_play),
        energy=solution.energy,
        preload=solution.preload,
        solution=solution,
    )


def hubs_at_angles(pair: Pair, angle: Array, widths: Widths) -> HubArrays:
    """Return the pair as it stands at each `angle` (n,) [rad], a ball in a dent as a smaller ball."""
    hub = arrays_of_pair(pair)
    rows = {"left": (pair.left, hub.left), "right": (pair.right, hub.right)}
    left, right = (_row_at(name, *rows[name], angle, widths) for name in rows)
    return hub._replace(left=left, right=right)


def _row_at(name: str, row: Row, arrays: RowArrays, angle: Array, widths: Widths) -> RowArrays:
    """Return one row at each angle (n,)."""
    at = turn_row(arrays, angle)
    ball = at.phase + 2 * np.pi * np.arange(row.ball_count)[:, None] / row.ball_count
    oversize = arrays.ball_oversize + 0 * ball
    for race, dents in dents_of_races(row):
        if (name, race) in widths:
            azimuth = ball - angle if race == "cup" else ball
            oversize -= dent_depth(dents, row, race, azimuth=azimuth, half_width=widths[name, race])
    return at._replace(ball_oversize=oversize)


def _widths(pair: Pair, end_play: float, load: Array) -> Widths:
    """Return the half width of the contact on each dented race, under the mean load of the loaded balls [m]."""
    dented = [
        (name, row, race)
        for name, row in (("left", pair.left), ("right", pair.right))
        for race, dents in dents_of_races(row)
        if dents.places(row.ball_count)
    ]
    if not dented:
        return {}
    sound = solve_pair(pair, end_play=end_play, load=load)
    states = {"left": sound.left, "right": sound.right}
    return {
        (name, race): contact_half_width(row, race, ball_load=_mean_load(states[name]))
        for name, row, race in dented
    }


def _mean_load(state: RowState) -> float:
    """Return the mean load of the balls that carry any [N]."""
    loaded = state.ball_load[state.ball_load > 0]
    return float(loaded.mean()) if loaded.size else 0.0


def _slope(pair: Pair, angle: Array, widths: Widths, solution: PairSolution, end_play: float) -> Array:
    """Return the slope of the energy over the angle (n,) [N·m], the shell held where it rests."""
    low, high = (
        pair_arrays(hubs_at_angles(pair, angle + step, widths)) for step in (-SLOPE_STEP, SLOPE_STEP)
    )
    motion = solution.shell_motion.T.copy()
    motion[3:] *= low.lever
    stretch = np.maximum(low.stretch, 1e-300)  # a rigid axle has no deflection
    q = np.concatenate((motion, (solution.axial_give / stretch)[None]))
    ends, still = np.full(angle.size, end_play), np.zeros_like(q)
    before, after = (evaluate(arrays, q, end_play=ends, force=still).strain for arrays in (low, high))
    slope: Array = (after - before) / (2 * SLOPE_STEP)
    return slope
