"""A cone in the middle of its good range: the range, and where the hub then stands, are what `predict` gives."""

import pytest

from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.setting.middle import set_in_middle
from conemodel.tasks.setting.predict import predict


@pytest.mark.parametrize("name", ["touring-rear", "city-nutted", "thru-axle", "road-front"])
def test_it_rides_in_the_middle_of_its_good_range(root, name):
    scenario = load_scenario(root / "scenarios" / f"{name}.toml")
    prediction = predict(set_in_middle(scenario))
    window = prediction.window
    assert prediction.stages["ridden"].end_play == pytest.approx(window.target, abs=1e-9)
    assert prediction.verdict.state == "right"


def test_where_the_cone_stood_before_does_not_matter(root):
    scenario = load_scenario(root / "scenarios/touring-rear.toml")
    once, again = (set_in_middle(scenario.with_setting(back_off=angle)) for angle in (0.2, 2.5))
    assert once.setting.back_off == pytest.approx(again.setting.back_off, abs=1e-12)
