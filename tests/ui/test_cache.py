"""What is worked out once for a hub is not worked out again when its cone is turned."""

import pytest

from conemodel.parts import library
from conemodel.parts.toml_files import load_scenario
from conemodel.ui import cache


@pytest.mark.parametrize("cached", [cache.hub_of_instrument, cache.cached_sweep])
def test_turning_the_cone_costs_nothing_again(cached: object) -> None:
    assert callable(cached)
    scenario = load_scenario(library.SCENARIOS / "touring-rear.toml")
    first = cached(scenario)
    assert cached(scenario.with_setting(back_off=1.0)) is first
    assert cached(scenario.with_setting(lock_torque=12.0)) is not first
