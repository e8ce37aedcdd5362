"""Speed of the whole sweep; not part of the normal run: ``python -m pytest tests/bench``.

The budget is the project's own: 200 positions with loads, pressure, drag and life in 150 ms on an idle machine. That
is reported; what must hold anywhere is that the sweep takes little more than the balances of forces in it.
"""

import time

import numpy as np
import pytest

import conemodel as cm
from conemodel.solve.equilibrium.wheel_positions import SOUND_POSITIONS, solve_positions
from conemodel.solve.stages.terms import pair_of
from conemodel.tasks.bearing.feel_when_turned import signature
from conemodel.tasks.bearing.load_cases import cases_of, load_of
from conemodel.tasks.bearing.race_sweep import sweep_races
from conemodel.tasks.setting.sweep import sweep

WHEEL_WEIGHT = -15.0
"""Of a wheel turned by hand [N]; common practice, no source."""

ANGLES = np.linspace(-0.26, 2.1, 200)
BUDGET = 0.150
SOLVED = 200 * SOUND_POSITIONS * 4  # straight, side and impact load, and the wheel's own weight


@pytest.fixture(scope="module")
def hub(root):
    return cm.load_scenario(root / "scenarios" / "touring-rear.toml")


def test_two_hundred_positions_of_everything(benchmark, hub):
    found = benchmark.pedantic(
        sweep_races, args=(hub,), kwargs={"cone_angle": ANGLES}, rounds=10, warmup_rounds=1
    )
    assert found.end_play.shape == (200,)
    benchmark.extra_info["share of the budget"] = benchmark.stats["min"] / BUDGET
    bare = min(_bare(hub, found.end_play) for _ in range(10))
    benchmark.extra_info["times the bare balances"] = benchmark.stats["min"] / bare
    assert benchmark.stats["min"] < 4 * bare


def _bare(hub, end_play):
    """Return the time that the same balances of forces take by themselves, one load after the other [s]."""
    loads = [*(load_of(hub, case) for case in cases_of(hub)), (0, WHEEL_WEIGHT, 0, 0, 0)]
    start = time.perf_counter()
    solved = [solve_positions(pair_of(hub), end_play=end_play, load=load) for load in loads]
    assert sum(each.converged.size for each in solved) == SOLVED
    return time.perf_counter() - start


def test_two_hundred_positions_of_play_and_preload(benchmark, hub):
    benchmark.pedantic(sweep, args=(hub,), kwargs={"cone_angle": ANGLES}, rounds=5, warmup_rounds=1)
    benchmark.extra_info["share of the budget"] = benchmark.stats["min"] / BUDGET


def test_signature_of_a_dented_hub(benchmark, root):
    dented = cm.load_scenario(root / "scenarios" / "dented-cone.toml")
    assert benchmark.pedantic(signature, args=(dented,), rounds=3, warmup_rounds=1).words
