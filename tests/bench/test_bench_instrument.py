"""How much longer a whole travel of the cone takes than one prediction of the same hub, neither seen before."""

import time
from collections.abc import Callable
from typing import Any

import pytest

import conemodel as cm
from conemodel.base.batch_cache import forget_all
from conemodel.parts import library
from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.numbers import numbers_json
from conemodel.tasks.setting.predict import predict
from conemodel.tasks.setting.travel import travel_of

ROUNDS = 9
MOST = 3.0
"""A travel's time over a prediction's: what a page may wait for the picture that then waits for nothing."""


def seconds(work: Callable[[Scenario], Any], scenario: Scenario) -> float:
    """Return processor time from empty stores [s], so that what else the machine does counts for neither."""
    forget_all()
    start = time.process_time()
    work(scenario)
    return time.process_time() - start


@pytest.mark.benchmark(group="instrument")
@pytest.mark.parametrize("name", ["touring-rear", "skew-fork", "unkeyed-locknut", "bent-axle"])
def test_a_travel_takes_at_most_three_times_a_prediction(benchmark: Any, name: str) -> None:
    """Each in turn, and of each the shortest: both meet the same machine."""
    scenario = cm.load_scenario(library.SCENARIOS / f"{name}.toml").with_setting(cone_held=False)
    times: list[tuple[float, float]] = []

    def both() -> None:
        once = seconds(predict, scenario)
        times.append((seconds(lambda each: numbers_json(travel_of(each)), scenario), once))

    benchmark.pedantic(both, rounds=ROUNDS, iterations=1, warmup_rounds=1)
    travel, once = (min(column) for column in zip(*times, strict=True))
    benchmark.extra_info |= {"travel over prediction": round(travel / once, 2), "budget": MOST}
    assert travel <= MOST * once
