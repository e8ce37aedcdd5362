"""Each limit of the good range bounds its own side, and switched off by itself moves its own edge and only that."""

import pytest

import conemodel as cm
from conemodel.solve.curves.unloaded_tables import TIGHT_END
from conemodel.tasks.setting.good_range import window_of

SIDES = {"rim_play": "loose", "torque": "tight", "cone_pressure": "tight", "life_ratio": "tight"}
HUBS = ["touring-rear", "road-front", "mixed-rows"]


def without(scenario, *names):
    return window_of(scenario.replace(limits=scenario.limits.replace(off=names)))


@pytest.mark.parametrize("hub", HUBS)
@pytest.mark.parametrize("name", SIDES)
def test_a_limit_switched_off_moves_its_own_edge_and_only_that(root, hub, name):
    scenario = cm.load_scenario(root / "scenarios" / f"{hub}.toml")
    whole, less = window_of(scenario), without(scenario, name)
    own, other = (
        (lambda w: w.loose_edge, lambda w: w.tight_edge)
        if SIDES[name] == "loose"
        else (lambda w: w.tight_edge, lambda w: w.loose_edge)
    )
    assert other(less) == other(whole)
    limit = {limit.name: limit for limit in whole.limits}[name]
    assert limit.side == SIDES[name]
    if limit.binding:
        assert abs(own(less) - own(whole)) > 1e-7
        assert less.width > whole.width
    else:
        assert own(less) == own(whole)
    # what the others allow has not moved, and the one switched off is no longer shown
    assert {(each.name, each.edge) for each in less.limits} == {
        (each.name, each.edge) for each in whole.limits if each.name != name
    }


@pytest.mark.parametrize("name", [name for name, side in SIDES.items() if side == "tight"])
def test_a_tight_limit_made_to_bind_gives_way_when_off(root, name):
    # Each limit in turn made the strictest, so that each is seen to move the edge.
    scenario = cm.load_scenario(root / "scenarios" / "touring-rear.toml")
    strict = {"torque": 5e-3, "cone_pressure": 900e6, "life_ratio": 0.95}[name]
    scenario = scenario.replace(limits=scenario.limits.replace(**{name: strict}))
    whole = window_of(scenario)
    assert [limit.name for limit in whole.limits if limit.binding and limit.side == "tight"] == [name]
    less = without(scenario, name)
    assert less.tight_edge < whole.tight_edge
    assert less.loose_edge == whole.loose_edge


def test_without_a_load_on_the_wheel_life_sets_no_limit(root, recwarn):
    # Life without load has no end, so there is no best to hold a setting against: inf over inf is not a share.
    scenario = cm.load_scenario(root / "scenarios" / "touring-rear.toml")
    idle = scenario.replace(wheel=scenario.wheel.replace(radial_load=0.0, side_load=0.0))
    (life,) = (limit for limit in window_of(idle).limits if limit.name == "life_ratio")
    assert life.edge == TIGHT_END
    assert not life.binding
    assert window_of(idle).tight_edge > TIGHT_END
    assert not recwarn.list
