"""Speed and memory of a study of many hubs; not part of the normal run: ``python -m pytest tests/bench``.

The budgets are the project's own: a hundred thousand hubs with preload and pressure under 5 s on two cores, and
500 MB. Measured numbers stand in the benchmark's extra info.
"""

import subprocess
import sys

from conemodel.base.batch_cache import forget_all
from conemodel.parts.crowd import load_crowd
from conemodel.tasks.population.sobol import what_matters
from conemodel.tasks.population.study import many_hubs
from tests.patience import PATIENCE

MIX = "scenarios/populations/workshop-mix.toml"

ALONE = """
import resource, sys, time
from conemodel.base.batch_cache import forget_all
from conemodel.parts.crowd import load_crowd
from conemodel.tasks.population.study import many_hubs
from tests.patience import PATIENCE
crowd = load_crowd("scenarios/populations/workshop-mix.toml")
start = time.perf_counter()
many_hubs(crowd, hubs=int(sys.argv[1]))
print(time.perf_counter() - start, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def alone(root, hubs):
    """Return seconds and peak memory [MB] of a study in a process of its own, nothing worked out before."""
    command = [sys.executable, "-c", ALONE, str(hubs)]
    done = subprocess.run(command, cwd=root, capture_output=True, text=True, check=True, timeout=PATIENCE)
    seconds, memory = map(float, done.stdout.split())
    return seconds, memory


def test_a_hundred_thousand_hubs(benchmark, root):
    crowd = load_crowd(root / MIX)
    forget_all()
    result = benchmark.pedantic(many_hubs, args=(crowd,), rounds=3, warmup_rounds=1)
    assert result.all.number == 100_000
    seconds, memory = alone(root, 100_000)
    benchmark.extra_info["seconds with nothing worked out before"] = seconds
    benchmark.extra_info["peak memory of the whole process, MB"] = memory


def test_a_million_hubs_in_the_memory_of_few(benchmark, root):
    few, many = alone(root, 20_000)[1], alone(root, 1_000_000)[1]
    benchmark.extra_info["more memory for fifty times the hubs, MB"] = many - few
    crowd = load_crowd(root / MIX)
    benchmark.pedantic(many_hubs, args=(crowd,), kwargs={"hubs": 1_000_000}, rounds=1)
    assert many - few < 50


def test_what_matters(benchmark, root):
    crowd = load_crowd(root / MIX)
    found = benchmark.pedantic(what_matters, args=(crowd,), rounds=2, warmup_rounds=1)
    assert found[0].total > 0
