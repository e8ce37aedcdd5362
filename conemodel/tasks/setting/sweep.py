"""Sweep: what the cone's position does, before and after clamping."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.parts.scenario import Scenario
from conemodel.solve.curves.hub_tables import road_load
from conemodel.solve.equilibrium.pair import PairSolution
from conemodel.solve.equilibrium.unloaded import solve_unloaded
from conemodel.solve.equilibrium.wheel_positions import solve_positions
from conemodel.solve.stages.inputs import inputs_over
from conemodel.solve.stages.terms import pair_of, setting_terms
from conemodel.solve.wheel.ball_drag import load_drag
from conemodel.tasks.setting.scenario_tables import tables_for
from conemodel.tasks.setting.stage_result import loosest_end_play

Flags = npt.NDArray[np.bool_]

SWEEP_FROM, SWEEP_TO = -np.pi / 12, np.pi * 2 / 3
"""Cone positions a sweep covers where none are given, out from finger contact [rad]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
    """One hub over the position of its cone; every field has shape (n,).

    Attributes:
        cone_angle: how far the cone is turned out from finger contact [rad].
        end_play_open, end_play_clamped: locked on the bench, and once clamped [m].
        preload_open, preload_clamped: mean over the wheel's positions [N].
        rim_play_open, rim_play_clamped: free play at the rim, stop to stop [m].
        peak_pressure_clamped: worst pressure on a race from preload alone [Pa].
        peak_pressure_ridden: the same under the rider [Pa].
        torque_clamped: mean turning torque from preload [N·m].
        valid: every loaded ball touches its race where the model holds, on the bench, clamped and under the rider,
            and the hub is not looser than that. Where it is not, only the end plays mean anything.
    """

    cone_angle: Array
    end_play_open: Array
    end_play_clamped: Array
    preload_open: Array
    preload_clamped: Array
    rim_play_open: Array
    rim_play_clamped: Array
    peak_pressure_clamped: Array
    peak_pressure_ridden: Array
    torque_clamped: Array
    valid: Flags


def sweep(scenario: Scenario, *, cone_angle: Array | None = None) -> Sweep:
    """Return what a scenario becomes for each back-off in `cone_angle` (n,) [rad], 81 positions by default.

    Everything but the back-off is as in the scenario's setting.

    Raises:
        NotConverged: no balance of forces was found.
    """
    angle = (
        np.linspace(SWEEP_FROM, SWEEP_TO, 81)
        if cone_angle is None
        else np.asarray(cone_angle, dtype=np.float64)
    )
    pair = pair_of(scenario)
    opened, clamped = end_plays_over(scenario, angle)
    bench, frame = solve_unloaded(pair, opened), solve_unloaded(pair, clamped)
    ridden = solve_positions(pair, end_play=clamped, load=road_load(scenario.wheel, side=True))
    tables = tables_for(scenario)
    return Sweep(
        cone_angle=angle,
        end_play_open=opened,
        end_play_clamped=clamped,
        preload_open=bench.preload.mean(axis=-1),
        preload_clamped=frame.preload.mean(axis=-1),
        rim_play_open=tables.play_at(opened)[0],
        rim_play_clamped=tables.play_at(clamped)[0],
        peak_pressure_clamped=_worst(frame),
        peak_pressure_ridden=_worst(ridden),
        torque_clamped=load_drag(pair, frame).torque.mean(axis=-1),
        valid=holds(pair, opened, bench) & holds(pair, clamped, frame, ridden),
    )


def end_plays_over(scenario: Scenario, angle: Array) -> tuple[Array, Array]:
    """Return the end play locked and clamped for each position of the cone (n,) [m]."""
    terms = setting_terms(scenario, inputs_over(scenario, back_off=angle))
    locked, clamped = (np.broadcast_to(terms.end_play(name), angle.shape) for name in ("locked", "clamped"))
    return locked, clamped


def holds(pair: Pair, end_play: Array, *solutions: PairSolution) -> Flags:
    """Return for each end play (n,) [m] whether the model holds there, in all positions of all `solutions`."""
    flags: Flags = end_play < loosest_end_play(pair)
    for solution in solutions:
        flags = flags & solution.valid.all(axis=-1)
    return flags


def _worst(solution: PairSolution) -> Array:
    """Return the worst race pressure of each case over positions and balls [Pa]."""
    rows = (solution.left, solution.right)
    pressures = [p for row in rows for p in (row.cone_pressure, row.cup_pressure)]
    worst: Array = np.max([pressure.max(axis=(-2, -1)) for pressure in pressures], axis=0)
    return worst
