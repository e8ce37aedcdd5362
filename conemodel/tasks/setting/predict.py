"""Predict: what a cone setting becomes after the locknut and the clamp."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from conemodel.parts.bearing import Pair
from conemodel.parts.scenario import Scenario
from conemodel.solve.curves.hub_tables import road_load
from conemodel.solve.equilibrium.wheel_positions import select_case, solve_positions
from conemodel.solve.stages.clamp import ClampState
from conemodel.solve.stages.locknut import Joint
from conemodel.solve.stages.terms import STAGES, pair_of, setting_terms
from conemodel.solve.wheel.ball_drag import LoadDrag, load_drag
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.outlook import outlook_of
from conemodel.tasks.setting.stage_result import StageResult, stage_of
from conemodel.tasks.setting.verdict import Verdict, verdict_of


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
    stages: Mapping[str, StageResult]
    joint: Joint[float]
    clamp: ClampState[float]
    window: Window
    verdict: Verdict


def predict(scenario: Scenario) -> Prediction:
    """Predict the five stages of a scenario's setting.

    Raises:
        NotConverged: no balance of forces is found.

    >>> from conemodel.parts.toml_files import load_scenario
    >>> prediction = predict(load_scenario("scenarios/touring-rear.toml"))
    >>> list(prediction.stages)
    ['contact', 'backed_off', 'locked', 'clamped', 'ridden']
    >>> prediction.verdict.state
    'loose'
    """
    outlook = outlook_of(scenario)
    pair, terms = pair_of(scenario), setting_terms(scenario)
    ends = np.array([terms.end_play(name) for name in STAGES])
    loads = np.zeros((len(STAGES), 5))
    loads[-1] = road_load(scenario.wheel, side=True)
    solution = solve_positions(pair, end_play=ends, load=loads)
    rim, axle_end = outlook.tables.play_at(ends)
    drag = load_drag(pair, solution)
    stages = {
        name: stage_of(
            pair,
            name,
            terms.terms[name],
            float(ends[i]),
            select_case(solution, i),
            LoadDrag(torque=drag.torque[i], spinning=drag.spinning[i]),
            float(rim[i]),
            float(axle_end[i]),
        )
        for i, name in enumerate(STAGES)
    }
    return Prediction(
        scenario=scenario,
        pair=pair,
        stages=stages,
        joint=terms.joint,
        clamp=terms.clamp,
        window=outlook.window,
        verdict=verdict_of(scenario, terms, outlook, stages),
    )
