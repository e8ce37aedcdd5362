"""What is only assumed: the range of the turn advised holds the turn itself, one assumption at a time."""

import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.scenario import Scenario

FOLDER = library.SCENARIOS


def hub(name: str, **setting: object) -> Scenario:
    return cm.load_scenario(FOLDER / f"{name}.toml").with_setting(**setting)


def nuts_nobody_measured() -> Scenario:
    """Return a nutted hub whose file names neither force, torque nor range: 15 kN is then taken."""
    nutted = hub("city-nutted")
    usual = {"clamp_force_low": 3000.0, "clamp_force_high": 8000.0}
    return nutted.replace(
        clamp=nutted.clamp.replace(force=None, torque=None), assumed=nutted.assumed.replace(**usual)
    )


def hard_clamp() -> Scenario:
    rear = hub("touring-rear")
    return rear.replace(clamp=rear.clamp.replace(force=12e3))


@pytest.mark.parametrize(
    ("scenario", "name"),
    [
        (hard_clamp(), "clamp_force"),
        (nuts_nobody_measured(), "clamp_force"),
        (hub("touring-rear", finger_torque=0.8), "finger_torque"),
        (hub("touring-rear", drift=0.3), "drift"),
        (hub("touring-rear"), "thread_slack"),
        (hub("touring-rear"), "thread_give"),
        (hub("touring-rear"), "thread_bridging"),
    ],
)
def test_each_assumption_by_itself_may_leave_the_turn_as_advised(scenario: Scenario, name: str) -> None:
    """Nothing the scenario says can lie outside what is held possible: end play is monotone in each of these."""
    turn = cm.predict(scenario).verdict.turn
    assert turn is not None
    (spread,) = (spread for spread in turn.spreads if spread.name == name)
    assert spread.low - 1e-12 <= turn.needed <= spread.high + 1e-12
    assert spread.width > 0
