"""How long the main job takes: a prediction of a hub seen before, of one never seen, and a repaint's share of it."""

import itertools
import subprocess
import sys
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.bearing import RowGeometry
from conemodel.parts.hub import Hub, Stack
from conemodel.parts.scenario import Scenario
from conemodel.tasks.setting.predict import predict
from conemodel.tasks.setting.sweep import sweep

SCENARIOS = library.SCENARIOS
REAR = SCENARIOS / "touring-rear.toml"


def another(scenario: Scenario, number: int) -> Scenario:
    """Return a hub that differs from all others by a hair in every part, so that nothing about it is known."""
    hair = 1 + 1e-6 * number
    hub, axle = scenario.hub, scenario.axle
    rows = {side: row.replace(pitch_diameter=row.pitch_diameter * hair) for side, row in rows_of(hub)}
    return scenario.replace(
        hub=hub.replace(row_spacing=hub.row_spacing / hair, **rows),
        axle=axle.replace(bore=axle.bore / hair),
        stack=scenario.stack.replace(
            **{
                side: stack.replace(lock_torque=stack.lock_torque * hair)
                for side, stack in stacks_of(scenario)
            }
        ),
    )


def rows_of(hub: Hub) -> Iterator[tuple[str, RowGeometry]]:
    yield from (("left", hub.left), ("right", hub.right))


def stacks_of(scenario: Scenario) -> Iterator[tuple[str, Stack]]:
    yield from (("left", scenario.stack.left), ("right", scenario.stack.right))


@pytest.mark.benchmark(group="predict")
def test_predict_a_hub_seen_before(benchmark: Any) -> None:
    """A moved control: everything that does not depend on the cone's position is known."""
    scenario = cm.load_scenario(REAR)
    predict(scenario)
    turns = iter(np.linspace(0.2, 2.4, 100_000))
    benchmark(lambda: predict(scenario.with_setting(back_off=float(next(turns)))))


@pytest.mark.benchmark(group="predict")
@pytest.mark.parametrize("name", ["touring-rear", "bent-axle"])
def test_predict_a_hub_never_seen(benchmark: Any, name: str) -> None:
    """A sound hub, and one that has to be looked at all round."""
    scenario = cm.load_scenario(SCENARIOS / f"{name}.toml")
    predict(scenario)
    numbers = itertools.count(1)
    benchmark.pedantic(predict, setup=lambda: ((another(scenario, next(numbers)),), {}), rounds=20)


@pytest.mark.benchmark(group="predict")
def test_sweep_of_81_positions(benchmark: Any) -> None:
    scenario = cm.load_scenario(REAR)
    benchmark(lambda: sweep(scenario))


@pytest.mark.benchmark(group="import")
def test_import_of_the_package(benchmark: Any) -> None:
    """A fresh interpreter that imports the package, with everything a prediction needs."""
    command = [sys.executable, "-c", "import conemodel; conemodel.predict"]
    benchmark.pedantic(lambda: subprocess.run(command, check=True), rounds=3)
