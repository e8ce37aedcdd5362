"""The sweep agrees with predictions made one by one, wherever the cone stays or does not stay."""

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.scenario import Scenario

FOLDER = library.SCENARIOS


def hub(name: str, **setting: object) -> Scenario:
    return cm.load_scenario(FOLDER / f"{name}.toml").with_setting(**setting)


@pytest.mark.parametrize(
    "scenario",
    [
        hub("touring-rear"),
        hub("city-nutted", technique="both"),
        hub("touring-rear", axle_held="nothing"),
        hub("unkeyed-locknut", cone_held=False),
        hub("bent-axle"),
    ],
    ids=["rear", "nutted", "axle free", "cone free", "bent"],
)
def test_a_sweep_is_what_single_predictions_say(scenario: Scenario) -> None:
    """Two ways to the same numbers: one batch, and one prediction a position."""
    angle = np.radians([-5.0, 20.0, 62.0, 110.0])
    swept = cm.sweep(scenario, cone_angle=angle)
    for i, at in enumerate(angle):
        stages = cm.predict(scenario.with_setting(back_off=float(at))).stages
        locked, clamped, ridden = (stages[name] for name in ("locked", "clamped", "ridden"))
        assert swept.end_play_open[i] == pytest.approx(locked.end_play, abs=1e-12)
        assert swept.end_play_clamped[i] == pytest.approx(clamped.end_play, abs=1e-12)
        assert swept.preload_clamped[i] == pytest.approx(clamped.preload, rel=1e-6, abs=1e-6)
        assert swept.rim_play_open[i] == pytest.approx(locked.rim_play, abs=2e-9)
        assert swept.torque_clamped[i] == pytest.approx(clamped.torque, rel=1e-6, abs=1e-12)
        assert swept.peak_pressure_ridden[i] == pytest.approx(ridden.peak_pressure, rel=1e-6)


def test_play_grows_and_preload_falls_as_the_cone_is_turned_out() -> None:
    """Monotone by convexity: a law."""
    swept = cm.sweep(hub("touring-rear"))
    assert (np.diff(swept.end_play_clamped) > 0).all()
    assert (np.diff(swept.preload_clamped) <= 1e-9).all()
    assert (np.diff(swept.rim_play_open) >= -2e-9).all()
    assert (swept.preload_clamped >= swept.preload_open - 1e-9).all()
