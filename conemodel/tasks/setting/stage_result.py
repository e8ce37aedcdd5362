"""The hub after one step of the mechanic, in numbers."""

from dataclasses import dataclass
from math import sin
from typing import Protocol

import numpy as np

from conemodel.parts.bearing import Pair
from conemodel.solve.equilibrium.pair import PairSolution
from conemodel.solve.stages.terms import Term
from conemodel.solve.wheel.ball_drag import LoadDrag

LOOSEST = 0.8
"""Share of the groove centres' axial distance up to which play means anything; beyond, balls leave their races [-]."""


class Felt(Protocol):
    """What hands find of a hub after a stage, named as in `StageResult`."""

    @property
    def end_play(self) -> float:
        """Signed, of the unstressed parts [m]."""

    @property
    def preload(self) -> float:
        """Mean over the wheel's positions [N]."""

    @property
    def rim_play(self) -> float:
        """Free play there, stop to stop [m]."""

    @property
    def valid(self) -> bool:
        """The model holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StageResult:
    """The hub after one step of the mechanic.

    Attributes:
        name: contact, backed_off, locked, clamped or ridden.
        terms: what this step added to the end play.
        end_play: signed, of the unstressed parts [m].
        preload: mean over the wheel's positions [N]; preload_range: least and most over them [N].
        rim_play, axle_end_play: free play there, stop to stop [m].
        peak_pressure: worst on cone or cup over balls and positions [Pa].
        torque: turning torque from the ball loads, mean [N·m]; torque_range: least and most [N·m].
        torque_upper: upper edge of the band of `torque`, see `LoadDrag` [N·m].
        solution: the balance of forces itself; the wheel's positions on its first axis.
        valid: every loaded ball touches its race where the model holds, and the hub is not looser than that.
    """

    name: str
    terms: tuple[Term, ...]
    end_play: float
    preload: float
    preload_range: tuple[float, float]
    rim_play: float
    axle_end_play: float
    peak_pressure: float
    torque: float
    torque_range: tuple[float, float]
    torque_upper: float
    solution: PairSolution
    valid: bool


def stage_of(
    pair: Pair,
    name: str,
    terms: tuple[Term, ...],
    end_play: float,
    solution: PairSolution,
    drag: LoadDrag,
    rim_play: float,
    axle_end_play: float,
) -> StageResult:
    """Return one stage from its balance of forces at every position of the wheel."""
    return StageResult(
        name=name,
        terms=terms,
        end_play=end_play,
        preload=float(solution.preload.mean()),
        preload_range=(float(solution.preload.min()), float(solution.preload.max())),
        rim_play=rim_play,
        axle_end_play=axle_end_play,
        peak_pressure=peak_pressure(solution),
        torque=float(drag.torque.mean()),
        torque_range=(float(drag.torque.min()), float(drag.torque.max())),
        torque_upper=float(drag.upper.mean()),
        solution=solution,
        valid=bool(solution.valid.all()) and end_play < loosest_end_play(pair),
    )


def loosest_end_play(pair: Pair) -> float:
    """Return the end play up to which the free play of a pair means anything [m]."""
    apart = (
        (row.cone_conformity + row.cup_conformity - 1) * row.ball_diameter * sin(row.contact_angle)
        for row in (pair.left, pair.right)
    )
    return 2 * LOOSEST * min(apart)


def peak_pressure(solution: PairSolution) -> float:
    """Return the worst pressure on cone or cup over everything in a solution [Pa]."""
    rows = (solution.left, solution.right)
    return float(max(np.max(pressure) for row in rows for pressure in (row.cone_pressure, row.cup_pressure)))
