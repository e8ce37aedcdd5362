"""Hubs at the edge of sense: what is said of them, and that nothing is said silently."""

import numpy as np
import pytest

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.scenario import Scenario
from conemodel.tasks.setting.sensitivity import spreads_of

FOLDER = library.SCENARIOS


def hub(name: str = "touring-rear", **setting: object) -> Scenario:
    return cm.load_scenario(FOLDER / f"{name}.toml").with_setting(**setting)


def noted(scenario: Scenario, words: str) -> bool:
    return any(words in note for note in cm.predict(scenario).verdict.notes)


def test_a_hub_looser_than_the_grooves_is_said_to_be_outside_the_model() -> None:
    """Past 2 A sin α the balls have left their races: geometry."""
    loose = cm.predict(hub(back_off=1.5 * 2 * np.pi))
    assert not loose.stages["backed_off"].valid
    assert "Outside what the model holds for: backed off" in " ".join(loose.verdict.notes)
    assert all(stage.valid for stage in cm.predict(hub(back_off=0.5 * 2 * np.pi)).stages.values())


def test_pressure_that_dents_is_named() -> None:
    """4200 MPa is where ISO 76 sets its lasting dent of 1e-4 of the ball."""
    assert noted(hub(back_off=-0.3 * 2 * np.pi), "dents stay in hard steel")
    assert not noted(hub(), "dents stay")


def test_a_locknut_that_is_not_tight_comes_before_any_turn() -> None:
    verdict = cm.predict(hub(lock_torque=0.0)).verdict
    assert verdict.turn is None
    assert "Lock it first" in verdict.sentence


def test_a_rod_cannot_clamp_harder_than_it_yields() -> None:
    scenario = hub()
    hard = scenario.replace(clamp=scenario.clamp.replace(force=40e3))
    assert noted(hard, "yields at about")
    assert not noted(scenario, "yields at about")


def test_an_unheld_cone_under_a_huge_torque_ends_somewhere_and_says_so() -> None:
    prediction = cm.predict(hub("unkeyed-locknut", cone_held=False, lock_torque=80.0))
    assert prediction.joint.runs_in
    assert prediction.verdict.state == "tight"
    assert any("dents stay in hard steel" in note for note in prediction.verdict.notes)


def test_the_axle_end_is_the_one_on_the_adjustable_side() -> None:
    """Mirror a hub with unlike rows: the fingers find the same. A law."""
    scenario = cm.load_scenario(FOLDER / "mixed-rows.toml")
    swapped = scenario.hub.replace(left=scenario.hub.right, right=scenario.hub.left, adjustable_side="right")
    mirrored = scenario.replace(hub=swapped)
    here, there = cm.predict(scenario).stages["locked"], cm.predict(mirrored).stages["locked"]
    assert there.axle_end_play == pytest.approx(here.axle_end_play, rel=2e-3)
    assert there.rim_play == pytest.approx(here.rim_play, rel=2e-3)


def test_what_nobody_measures_at_the_locknut_is_part_of_the_range() -> None:
    names = {spread.name for spread in spreads_of(hub())}
    assert names == {
        "clamp_force", "thread_give", "conformity", "finger_torque", "lock_force", "thread_slack", "drift",
    }  # fmt: skip
    keyed = {spread.name for spread in spreads_of(hub(cone_held=False))}
    assert keyed - names == {"key_clearance"}
    backed = {spread.name: spread for spread in spreads_of(hub(technique="cone turned out"))}
    assert backed["lock_force"].width > 5e-6  # by hand: 2.1e-6 mm/N over some 6 kN
    assert "thread_slack" not in backed
    assert noted(hub(technique="cone turned out"), "run up hard enough to push the cone in first")
