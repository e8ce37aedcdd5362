"""Predict: what a cone setting becomes after the locknut and the clamp."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from conemodel.base.units import Array
from conemodel.parts.bearing import Pair
from conemodel.parts.scenario import Scenario
from conemodel.solve.clamping import ClampState
from conemodel.solve.curves import road_load
from conemodel.solve.drag import load_drag
from conemodel.solve.felt import read_play
from conemodel.solve.lock import Joint
from conemodel.solve.pair import PairSolution
from conemodel.solve.positions import case_of, solve_positions
from conemodel.solve.stages import STAGES, Term, pair_of, steps_of
from conemodel.tasks.verdict import Verdict, verdict_of
from conemodel.tasks.window import Window, window_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """The hub after one step of the mechanic.

    Attributes:
        name: contact, backed_off, locked, clamped or ridden.
        terms: what this step added to the end play.
        end_play: signed, of the unstressed parts [m].
        preload: mean over the wheel's positions [N]; preload_range: least and most over them [N].
        rim_play, axle_end_play: free play there, stop to stop [m].
        peak_pressure: worst on cone or cup over balls and positions [Pa].
        torque: turning torque from the ball loads, mean [N·m]; torque_range: least and most [N·m].
        solution: the balance of forces itself; the wheel's positions on its first axis.
        valid: every loaded ball touches its race where the model holds.
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
    solution: PairSolution
    valid: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Prediction:
    """What a setting becomes, stage by stage, and what to make of it.

    Attributes:
        scenario: what was asked.
        pair: the rows of balls as solved.
        stages: by name, in the order of the work.
        joint: the locked side; clamp: the closed clamp.
        window: the good range, clamped; verdict: where this setting stands in it and what to do.
    """

    scenario: Scenario
    pair: Pair
    stages: Mapping[str, Stage]
    joint: Joint
    clamp: ClampState
    window: Window
    verdict: Verdict


def predict(scenario: Scenario) -> Prediction:
    """Predict the five stages of a scenario's setting.

    Errors: `NotConverged` where no balance of forces is found.

    >>> from conemodel.parts.files import load_scenario
    >>> prediction = predict(load_scenario("scenarios/touring-rear.toml"))
    >>> list(prediction.stages)
    ['contact', 'backed_off', 'locked', 'clamped', 'ridden']
    >>> prediction.verdict.state
    'loose'
    """
    pair = pair_of(scenario)
    steps = steps_of(scenario)
    ends = np.array([steps.end_play(name) for name in STAGES])
    loads = np.zeros((len(STAGES), 5))
    loads[-1] = road_load(scenario.wheel, side=True)
    solution = solve_positions(pair, end_play=ends, load=loads)
    rim, axle_end = read_play(
        pair, ends, rim_radius=scenario.wheel.rim_radius, axle_arm=scenario.axle.length / 2
    )
    torque = load_drag(pair, solution).total
    stages = {
        name: _stage(
            name,
            steps.terms[name],
            float(ends[i]),
            case_of(solution, i),
            torque[i],
            float(rim[i]),
            float(axle_end[i]),
        )
        for i, name in enumerate(STAGES)
    }
    window = window_of(scenario)
    return Prediction(
        scenario=scenario,
        pair=pair,
        stages=stages,
        joint=steps.joint,
        clamp=steps.clamp,
        window=window,
        verdict=verdict_of(scenario, steps, window, stages["clamped"].rim_play, stages["clamped"].preload),
    )


def _stage(
    name: str,
    terms: tuple[Term, ...],
    end_play: float,
    solution: PairSolution,
    torque: Array,
    rim_play: float,
    axle_end_play: float,
) -> Stage:
    """Return one stage from its balance of forces at every position of the wheel."""
    return Stage(
        name=name,
        terms=terms,
        end_play=end_play,
        preload=float(solution.preload.mean()),
        preload_range=(float(solution.preload.min()), float(solution.preload.max())),
        rim_play=rim_play,
        axle_end_play=axle_end_play,
        peak_pressure=peak_pressure(solution),
        torque=float(torque.mean()),
        torque_range=(float(torque.min()), float(torque.max())),
        solution=solution,
        valid=bool(solution.valid.all()),
    )


def peak_pressure(solution: PairSolution) -> float:
    """Return the worst pressure on cone or cup over everything in a solution [Pa]."""
    rows = (solution.left, solution.right)
    return float(max(np.max(pressure) for row in rows for pressure in (row.cone_pressure, row.cup_pressure)))
