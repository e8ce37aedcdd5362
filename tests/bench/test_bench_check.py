"""What an answer costs, held against other work in the same run: the share of 300 ms is reported, not asserted."""

import time

import pytest

from conemodel.parts.readings import Play
from conemodel.tasks.diagnosis.assumed_hub import usual_hub
from conemodel.tasks.diagnosis.diagnose import diagnose
from conemodel.tasks.setting.predict import predict
from tests.tasks.diagnosis.simulated import readings_of

pytestmark = pytest.mark.benchmark(timer=time.process_time)

BUDGET = 0.3
"""The project's own: an answer is on screen within so long [s]."""

LOOK = {
    "rim_open": Play(play=0.9e-3),
    "rim_closed": Play(play=0.3e-3),
    "turns_open": "free",
    "turns_closed": "free",
}
LATER = [
    {"rim_open": Play(play=0.9e-3 - i * 1e-4), "turned_in": 0.05, "turns_closed": "free"} for i in (1, 2)
]
REAR = usual_hub("rear")
WIDTHS = iter(range(1000))


def unseen_hub():
    """Return a hub that differs from all others by a hair, so that nothing about it is known."""
    spacing = 60e-3 + next(WIDTHS) * 1e-6
    return REAR.replace(hub=REAR.hub.replace(row_spacing=spacing))


def shortest(call, setup=lambda: None):
    """Return the shortest of five times that `call` takes with what `setup` returns [s]."""
    taken = []
    for _ in range(5):
        given = setup()
        start = time.process_time()
        call(given)
        taken.append(time.process_time() - start)
    return min(taken)


def test_one_round(benchmark):
    """Readings of one round take a few times as long as the prediction of a hub never seen."""
    benchmark.pedantic(diagnose, args=(readings_of(LOOK),), rounds=5, warmup_rounds=1)
    ratio = benchmark.stats["min"] / shortest(predict, unseen_hub)
    benchmark.extra_info["share of the budget"] = benchmark.stats["min"] / BUDGET
    benchmark.extra_info["times a prediction"] = ratio
    assert ratio < 6


def test_three_rounds(benchmark):
    """The cost grows no faster than the rounds."""
    benchmark.pedantic(diagnose, args=(readings_of(LOOK, *LATER),), rounds=5, warmup_rounds=1)
    ratio = benchmark.stats["min"] / shortest(diagnose, lambda: readings_of(LOOK))
    benchmark.extra_info["times one round"] = ratio
    assert ratio < 4


def test_a_hub_never_seen_before(benchmark):
    readings = readings_of(LOOK)
    benchmark.pedantic(diagnose, setup=lambda: ((readings, unseen_hub()), {}), rounds=5, warmup_rounds=1)
    ratio = benchmark.stats["min"] / shortest(diagnose, lambda: readings)
    benchmark.extra_info["times a hub seen before"] = ratio
    assert ratio < 6
