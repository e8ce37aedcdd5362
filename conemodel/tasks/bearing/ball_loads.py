"""Under the rider: what every ball carries, how hard it presses, and the dent that stays."""

from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair, Row
from conemodel.parts.scenario import Scenario
from conemodel.physics.rating import STATIC_PRESSURE, permanent_set
from conemodel.solve.equilibrium.pair import PairSolution, RowState
from conemodel.solve.equilibrium.row_contacts import contact_of, curvature_of
from conemodel.solve.equilibrium.uncaged_balls import solve_gathered
from conemodel.solve.equilibrium.wheel_positions import select_case, solve_positions, wheel_positions
from conemodel.solve.stages.terms import STAGES, pair_of, setting_terms
from conemodel.tasks.bearing.load_cases import Case, load_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A value and how far the unknown groove radius may move it; shapes alike.

    Attributes:
        value: as the scenario says; low, high: least and most over the assumed conformities.
    """

    value: Array
    low: Array
    high: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class RowLoads:
    """One row at the position of the wheel where a ball presses hardest; every field has shape (Z,).

    Attributes:
        azimuth: where each ball stands, from +y (up) towards +z [rad].
        ball_load: [N]; contact_angle: [rad]; pressures on cone and cup [Pa].
        cone_semi_major, cone_semi_minor, cup_semi_major, cup_semi_minor: half axes of the contacts, across and
            along the track [m].
    """

    azimuth: Array
    ball_load: Array
    contact_angle: Array
    cone_pressure: Array
    cup_pressure: Array
    cone_semi_major: Array
    cone_semi_minor: Array
    cup_semi_major: Array
    cup_semi_minor: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Worst:
    """The worst over balls, rows and positions of the wheel, at one end play () or many (n,).

    Attributes:
        end_play: [m]; ball_load: [N]; cone_pressure, cup_pressure: [Pa].
        margin: 4200 MPa over the greater pressure [-]; below 1 a dent stays that can be felt.
        dent: permanent set of ball and race [m].
    """

    end_play: Array
    ball_load: Band
    cone_pressure: Band
    cup_pressure: Band
    margin: Band
    dent: Band


@dataclass(frozen=True, slots=True, kw_only=True)
class Loads:
    """A hub under one load.

    Attributes:
        case: which; load: on the shell (5,) [N, N·m].
        left, right: both rows where a ball presses hardest.
        worst: the numbers that count.
        gathered: worst ball load with all the room between the balls in one gap [N].
        gap_rise: share by which that is more than with the balls evenly spaced [-], 0 or more.
    """

    case: Case
    load: tuple[float, float, float, float, float]
    left: RowLoads
    right: RowLoads
    worst: Worst
    gathered: float
    gap_rise: float


def loads_of(
    scenario: Scenario, case: Case = "straight", *, stage: str = "clamped", end_play: float | None = None
) -> Loads:
    """Return what the balls carry under a case's load, after `stage` or at an `end_play` [m].

    Raises:
        NotConverged: no balance of forces was found.

    >>> from conemodel.parts.toml_files import load_scenario
    >>> found = loads_of(load_scenario("scenarios/touring-rear.toml"), "straight", end_play=0.0)
    >>> bool(found.left.ball_load.max() == found.worst.ball_load.value)
    True
    """
    pair, load = pair_of(scenario), load_of(scenario, case)
    at = setting_terms(scenario).end_play(stage) if end_play is None else end_play
    solution = select_case(solve_positions(pair, end_play=np.array([at]), load=load), 0)
    left, right = _rows(pair, solution)
    worst = loads_over(scenario, case, end_play=np.asarray(at))
    # sooner or later the gap rolls past the load; the evenly spaced row is solved at as many positions
    gap = solve_gathered(pair, end_play=at, load=load)
    gathered = max(float(row.ball_load.max()) for row in (gap.left, gap.right))
    even = float(worst.ball_load.value)
    return Loads(
        case=case,
        load=load,
        left=left,
        right=right,
        worst=worst,
        gathered=max(gathered, even),
        gap_rise=max(gathered / even - 1, 0.0) if even > 0 else 0.0,
    )


def stage_loads(scenario: Scenario, case: Case = "straight") -> dict[str, Worst]:
    """Return the worst under a case's load at the end play of every stage.

    Raises:
        NotConverged: no balance of forces was found.
    """
    terms = setting_terms(scenario)
    return {stage: loads_over(scenario, case, end_play=np.asarray(terms.end_play(stage))) for stage in STAGES}


def loads_over(scenario: Scenario, case: Case = "straight", *, end_play: Array) -> Worst:
    """Return the worst at each `end_play` (...) [m] under a case's load, with the band of the groove radius.

    Raises:
        NotConverged: no balance of forces was found.
    """
    pair, load = pair_of(scenario), load_of(scenario, case)
    assumed = scenario.assumed
    pairs = [pair, *(with_conformity(pair, f) for f in (assumed.conformity_low, assumed.conformity_high))]
    found = [worst_of(each, solve_positions(each, end_play=end_play, load=load)) for each in pairs]
    bands = {name: band(*(one[name] for one in found)) for name in found[0]}
    return Worst(end_play=np.asarray(end_play), **bands)


def with_conformity(pair: Pair, conformity: float) -> Pair:
    """Return a pair with all its grooves at another conformity [-]."""
    left, right = (
        row.replace(cone_conformity=conformity, cup_conformity=conformity) for row in (pair.left, pair.right)
    )
    return pair.replace(left=left, right=right)


def band(value: Array, *others: Array) -> Band:
    """Return a value with the least and the most of it and its `others`."""
    each = np.stack(np.broadcast_arrays(value, *others))
    return Band(value=each[0], low=each.min(axis=0), high=each.max(axis=0))


def worst_of(pair: Pair, solution: PairSolution) -> dict[str, Array]:
    """Return the fields of `Worst` but its end play for one pair; positions and balls are taken out."""
    rows = ((pair.left, solution.left), (pair.right, solution.right))
    load = [state.ball_load.max(axis=(-2, -1)) for _, state in rows]
    cone = np.maximum(*(state.cone_pressure.max(axis=(-2, -1)) for _, state in rows))
    cup = np.maximum(*(state.cup_pressure.max(axis=(-2, -1)) for _, state in rows))
    dents: list[Array] = [
        np.asarray(permanent_set(load=most, ball_diameter=row.ball_diameter, curvature=curvature))
        for (row, _), most in zip(rows, load, strict=True)
        for curvature in (curvature_of(row, "cone"), curvature_of(row, "cup"))
    ]
    with np.errstate(divide="ignore"):
        margin = STATIC_PRESSURE / np.maximum(cone, cup)
    return {
        "ball_load": np.maximum(*load),
        "cone_pressure": cone,
        "cup_pressure": cup,
        "margin": np.asarray(margin),
        "dent": np.asarray(np.max(dents, axis=0)),
    }


def _rows(pair: Pair, solution: PairSolution) -> tuple[RowLoads, RowLoads]:
    """Return both rows at the position of the wheel where a ball presses hardest."""
    hardest = np.maximum(
        *(
            np.maximum(row.cone_pressure, row.cup_pressure).max(axis=-1)
            for row in (solution.left, solution.right)
        )
    )
    at = int(np.argmax(hardest))
    hubs = wheel_positions(pair)
    rows = ((pair.left, solution.left, hubs.left), (pair.right, solution.right, hubs.right))
    left, right = (_row(row, state, float(hub.phase[at]), at) for row, state, hub in rows)
    return left, right


def _row(row: Row, state: RowState, phase: float, at: int) -> RowLoads:
    """Return one row at position `at`, its first ball at `phase` [rad]."""
    load = state.ball_load[at]
    cone, cup = contact_of(row, "cone", load), contact_of(row, "cup", load)
    return RowLoads(
        azimuth=np.asarray((phase + 2 * np.pi * np.arange(row.ball_count) / row.ball_count) % (2 * np.pi)),
        ball_load=load,
        contact_angle=state.contact_angle[at],
        cone_pressure=state.cone_pressure[at],
        cup_pressure=state.cup_pressure[at],
        cone_semi_major=np.asarray(cone.semi_major),
        cone_semi_minor=np.asarray(cone.semi_minor),
        cup_semi_major=np.asarray(cup.semi_major),
        cup_semi_minor=np.asarray(cup.semi_minor),
    )
