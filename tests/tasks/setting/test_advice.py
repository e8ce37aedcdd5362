"""Notes beside the verdict say who holds what."""

import conemodel as cm
from conemodel.parts import library
from conemodel.parts.scenario import Scenario

FOLDER = library.SCENARIOS


def hub(name: str, **setting: object) -> Scenario:
    return cm.load_scenario(FOLDER / f"{name}.toml").with_setting(**setting)


def test_the_washers_key_helps_the_spanner_to_hold() -> None:
    """The nut's drag goes into the washer and by its key into the axle: the spanner does not hold it alone."""
    keyed, bare = cm.predict(hub("touring-rear")), cm.predict(hub("unkeyed-locknut", cone_held=True))
    (note,) = (note for note in keyed.verdict.notes if "has to hold" in note)
    assert "key" in note
    (note,) = (note for note in bare.verdict.notes if "has to hold" in note)
    assert "key" not in note


def test_a_held_cone_is_never_said_to_be_kept_by_the_key_only() -> None:
    notes = cm.predict(hub("touring-rear", lock_torque=0.0)).verdict.notes
    assert not any("Only the washer's key" in note for note in notes)
    notes = cm.predict(hub("touring-rear", cone_held=False)).verdict.notes
    assert any("Only the washer's key" in note for note in notes)


def test_a_hub_that_must_not_be_ridden_gets_no_back_off_to_bring_it_in_from():
    assert any("bring it in" in note for note in cm.predict(hub("touring-rear")).verdict.notes)
    assert not any("bring it in" in note for note in cm.predict(hub("proud-axle")).verdict.notes)
