"""What is said beside a turn that is advised: why, where it makes right less likely."""

import pytest

from conemodel.base.units import DEG
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.setting.predict import predict


@pytest.mark.parametrize("name", ["touring-rear", "thru-axle"])
def test_a_turn_that_makes_right_less_likely_says_why_and_no_other_does(name: str) -> None:
    hub, told = load_scenario(f"scenarios/{name}.toml"), set()
    for angle in range(0, 141, 4):
        verdict = predict(hub.with_setting(back_off=DEG.to_si(angle))).verdict
        turn, chances = verdict.turn_to_make, verdict.chances
        if turn is None or chances is None:
            continue
        less = turn.right < chances.right
        told.add(less)
        assert ("right less often" in verdict.sentence) == less
        # only what is too costly may outweigh it
        assert not less or turn.tight < chances.tight
    assert told == {True, False}


def test_half_a_minute_is_said_with_its_minute_in_a_range() -> None:
    """The light axle a sixth of a turn out may need as little as that."""
    hub = load_scenario("scenarios/light-axle.toml")
    said = " ".join(
        predict(hub.with_setting(back_off=DEG.to_si(angle))).verdict.sentence for angle in range(56, 68)
    )
    assert "may need half a minute to " in said
    assert "half to" not in said


def test_a_step_that_leaves_it_loose_more_often_than_tight_says_that_this_is_on_purpose() -> None:
    hub, told = load_scenario("scenarios/touring-rear.toml"), set()
    for angle in range(0, 141, 4):
        verdict = predict(hub.with_setting(back_off=DEG.to_si(angle))).verdict
        turn, chances = verdict.turn_to_make, verdict.chances
        if turn is None or chances is None or chances.named == "right":
            continue
        loose = turn.cautious and 1 - turn.right - turn.tight > turn.tight
        told.add(loose)
        assert ("errs to the loose side on purpose" in verdict.sentence) == loose
    assert True in told
