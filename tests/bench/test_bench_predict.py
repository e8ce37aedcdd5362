"""How long the main job takes: a prediction of a hub seen before, of one never seen, and a repaint's share of it."""

import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import conemodel as cm
from conemodel.solve import curves, felt
from conemodel.tasks import spread, window
from conemodel.tasks.predict import predict
from conemodel.tasks.study import sweep

REAR = Path(__file__).parents[2] / "scenarios" / "touring-rear.toml"


def forget() -> None:
    """Forget every hub, so that the next prediction starts from nothing."""
    for kept in (curves.hub_curves, curves.life_curve, felt._place_curve, window._window, spread._cases):
        kept.cache_clear()


@pytest.mark.benchmark(group="predict")
def test_predict_a_hub_seen_before(benchmark: Any) -> None:
    """A moved control: everything that does not depend on the cone's position is known."""
    scenario = cm.load_scenario(REAR)
    predict(scenario)
    turns = iter(np.linspace(0.2, 2.4, 100_000))
    benchmark(lambda: predict(scenario.with_setting(back_off=float(next(turns)))))


@pytest.mark.benchmark(group="predict")
def test_predict_a_hub_never_seen(benchmark: Any) -> None:
    scenario = cm.load_scenario(REAR)
    predict(scenario)
    benchmark.pedantic(predict, args=(scenario,), setup=forget, rounds=10)


@pytest.mark.benchmark(group="predict")
def test_sweep_of_81_positions(benchmark: Any) -> None:
    scenario = cm.load_scenario(REAR)
    benchmark(lambda: sweep(scenario))


@pytest.mark.benchmark(group="import")
def test_import_of_the_package(benchmark: Any) -> None:
    """A fresh interpreter that imports the package, with everything a prediction needs."""
    command = [sys.executable, "-c", "import conemodel; conemodel.predict"]
    benchmark.pedantic(lambda: subprocess.run(command, check=True), rounds=3)
