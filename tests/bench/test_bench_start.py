"""How long the command line takes to start, held against the imports that nothing here can do without."""

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.patience import PATIENCE

PREDICT = ["-m", "conemodel", "predict", "scenarios/touring-rear.toml"]
BARE = ["-c", "import numpy, scipy.special, pydantic, click"]
ROUNDS = 9
GOAL = 1.6
"""The project's own: a prediction, from the shell, against the bare imports [-]."""


def processor_time(command: list[str], compiled: Path) -> float:
    """Return the processor time of a fresh interpreter [s]; what else the machine does counts less in it.

    `compiled` keeps the modules' compiled code, as beside any installed package, whatever the tests' own setting.
    """
    kept = {"PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": str(compiled)}
    before = os.times()
    done = subprocess.run(
        [sys.executable, *command],
        capture_output=True,
        check=True,
        timeout=PATIENCE,
        env={**os.environ, **kept},
    )
    after = os.times()
    assert not done.stderr
    return after.children_user + after.children_system - before.children_user - before.children_system


@pytest.mark.benchmark(group="start")
def test_a_prediction_against_the_bare_imports(benchmark: Any, tmp_path: Path) -> None:
    """Turn about, so that both meet the same machine; of each the quickest, since disturbance only adds."""
    pairs: list[tuple[float, float]] = []

    def turn() -> None:
        pairs.append((processor_time(PREDICT, tmp_path), processor_time(BARE, tmp_path)))

    benchmark.pedantic(turn, rounds=ROUNDS, iterations=1, warmup_rounds=1)
    ours, bare = map(min, zip(*pairs, strict=True))
    ratio = ours / bare
    benchmark.extra_info |= {"times the bare imports": round(ratio, 2), "goal": GOAL}
    assert ratio <= GOAL
