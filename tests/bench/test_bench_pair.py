"""Speed and memory of the pair solver; not part of the normal run: ``python -m pytest tests/bench``.

Times are held against numpy and scipy in the same run. The budgets are the project's own: a hundred times a loop over
scipy.optimize.root with the same analytic gradient, and 300 MB above the imports.
"""

import subprocess
import sys
import time
from functools import partial

import numpy as np
import pytest
from scipy.optimize import root

from conemodel.solve.equilibrium.arrays import HubArrays, arrays_of_pair, row_arrays
from conemodel.solve.equilibrium.energy import evaluate
from conemodel.solve.equilibrium.kinematics import pair_arrays
from conemodel.solve.equilibrium.pair import solve_hubs, solve_pair
from conemodel.solve.freeplay.free_play import rim_direction, solve_free_play
from tests.patience import PATIENCE
from tests.solve.hubs import FRONT, REAR, pair_of, random_loads

# Time of this process alone, so that what else the machine does counts less.
pytestmark = pytest.mark.benchmark(timer=time.process_time)

CASES = 10_000
PAIRS = {"nine a side": pair_of(), "ten a side": pair_of(FRONT), "nine and ten": pair_of(REAR, FRONT)}


def shortest(call):
    """Return the shortest of five times that `call` takes [s]."""
    taken = []
    for _ in range(5):
        start = time.process_time()
        call()
        taken.append(time.process_time() - start)
    return min(taken)


@pytest.mark.parametrize("name", PAIRS)
def test_ten_thousand_loaded_pairs(benchmark, name):
    end_play, load = random_loads(CASES, seed=11)
    solution = benchmark.pedantic(
        solve_pair,
        args=(PAIRS[name],),
        kwargs={"end_play": end_play, "load": load},
        rounds=3,
        warmup_rounds=1,
    )
    assert solution.converged.all()
    benchmark.extra_info["microseconds a case"] = benchmark.stats["min"] / CASES * 1e6
    matrix = np.random.default_rng(11).normal(size=(CASES, 5, 5)) + 5 * np.eye(5)
    ratio = benchmark.stats["min"] / shortest(partial(np.linalg.solve, matrix, np.ones((CASES, 5, 1))))
    benchmark.extra_info["times as many linear systems of five"] = ratio
    assert ratio < 120


def test_a_hundred_times_a_loop_over_scipy(benchmark):
    pair = PAIRS["nine a side"]
    end_play, load = random_loads(CASES, seed=12)
    arrays = pair_arrays(arrays_of_pair(pair))
    size = np.array([1e-5] * 5 + [0.01])

    def loop(cases):
        """Return how many of the first cases scipy solved, from a start 0.1 mm along the load."""
        solved = 0
        for case in range(cases):
            force = np.concatenate((load[case, :3], load[case, 3:] / arrays.lever, [0.0]))[:, None]
            state = partial(evaluate, arrays, end_play=end_play[case : case + 1], force=force)

            def gradient(shares, at=state):
                return at((shares * size)[:, None]).gradient[:, 0] * size

            found = root(gradient, 10 * force[:, 0] / np.abs(force).max())
            rest = state((found.x * size)[:, None]).gradient[:5, 0]
            solved += np.abs(rest).max() < 1e-6 * np.abs(force).max()
        return solved

    few = 200
    loop(3)
    start = time.process_time()
    solved = loop(few)
    theirs = (time.process_time() - start) / solved
    assert solved > 0.9 * few
    benchmark.pedantic(
        solve_pair, args=(pair,), kwargs={"end_play": end_play, "load": load}, rounds=5, warmup_rounds=1
    )
    ratio = theirs / (benchmark.stats["min"] / CASES)
    benchmark.extra_info["times as fast as scipy"] = ratio
    assert ratio >= 100


def test_one_case(benchmark):
    solution = benchmark(solve_pair, pair_of(), end_play=5e-5, load=(100, -800, 0, 0, 30))
    assert solution.converged


def test_different_hubs(benchmark):
    random, count = np.random.default_rng(13), 5000

    def row():
        return row_arrays(
            ball_count=9,
            ball_diameter=6.35e-3,
            pitch_diameter=random.uniform(20e-3, 22e-3, count),
            contact_angle=random.uniform(0.5, 0.9, count),
            cone_conformity=random.uniform(0.52, 0.6, count),
            cup_conformity=0.56,
            young=208e9,
            poisson=0.3,
            phase=random.uniform(0, 1, count),
        )

    hubs = HubArrays(row(), row(), np.array([60e-3]), random.uniform(0, 2e-8, count))
    end_play, load = random_loads(count, seed=14)
    solution = benchmark.pedantic(
        solve_hubs, args=(hubs,), kwargs={"end_play": end_play, "load": load}, rounds=3, warmup_rounds=1
    )
    assert solution.converged.all()
    benchmark.extra_info["microseconds a hub"] = benchmark.stats["min"] / count * 1e6


def test_a_hundred_free_plays(benchmark):
    ends = np.linspace(0.002e-3, 0.15e-3, 100)
    play = benchmark(solve_free_play, pair_of(), end_play=ends, direction=rim_direction(0.311))
    assert play.feasible.all()
    one = shortest(partial(solve_free_play, pair_of(), end_play=ends[:1], direction=rim_direction(0.311)))
    benchmark.extra_info["times one"] = benchmark.stats["min"] / one
    assert benchmark.stats["min"] < 10 * one


MEMORY = """
import resource, sys
import conemodel.solve.equilibrium.pair
from tests.solve.hubs import pair_of, random_loads
from tests.patience import PATIENCE
peak = lambda: resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
before = peak()
end_play, load = random_loads(10_000, seed=11)
conemodel.solve.equilibrium.pair.solve_pair(pair_of(), end_play=end_play, load=load)
print(peak() - before)
"""


def test_memory_above_the_imports(root):
    done = subprocess.run(
        [sys.executable, "-c", MEMORY], capture_output=True, text=True, check=True, cwd=root, timeout=PATIENCE
    )
    assert float(done.stdout) < 300  # MB
