"""Fatigue life of the races under the loads the balls really carry. Only ever used as a ratio."""

from functools import lru_cache

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair, Row
from conemodel.physics import fatigue
from conemodel.solve.equilibrium.pair import PairSolution, RowState


def life_of(pair: Pair, solution: PairSolution) -> Array:
    """Return the L10 life of all four races together [revolutions of the wheel], mean over the positions.

    `solution` has the wheel's positions on the axis before the balls; that axis is taken out. The cone stands
    still under the load, the cup turns. Above a conformity of 0.54 the published capacities are stretched beyond
    their table: ratios still compare settings of one hub.
    Source: [LundbergPalmgren1947], [HarrisKotzalas2007]
    """
    lives = [
        life
        for row, state in ((pair.left, solution.left), (pair.right, solution.right))
        for life in _row_lives(row, state)
    ]
    life: Array = np.asarray(fatigue.combined_life(*lives))
    return life


def _row_lives(row: Row, state: RowState) -> tuple[Array, Array]:
    """Return the lives of cone and cup of one row [revolutions]."""
    loads = state.ball_load.reshape(*state.ball_load.shape[:-2], -1)
    cone, cup = _capacities(row)
    return (
        np.asarray(fatigue.race_life(capacity=cone, load=fatigue.stationary_mean(loads))),
        np.asarray(fatigue.race_life(capacity=cup, load=fatigue.rotating_mean(loads))),
    )


@lru_cache(maxsize=128)
def _capacities(row: Row) -> tuple[float, float]:
    """Return the capacities of cone and cup of one row [N]."""
    size = {
        "ball_diameter": row.ball_diameter,
        "ball_count": row.ball_count,
        "gamma": row.gamma,
        "contact_angle": row.contact_angle,
    }
    cone = fatigue.cone_capacity(conformity=row.cone_conformity, **size)
    cup = fatigue.cup_capacity(conformity=row.cup_conformity, **size)
    return float(cone), float(cup)
